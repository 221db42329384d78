#include "commands/team/team_logs.h"

#include "base/system.h"
#include "base/text.h"
#include "commands/team/team_refusals.h"

#include <dirent.h>
#include <errno.h>
#include <glob.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#define LOG_BYTES ((int64_t)4 << 30)

struct finder
{
    struct team *team;
    struct team_lifter *lifter;
    struct team_argument *argument;
    struct map *folders; /* folders already walked for this argument, by device and inode: cycles of links end here */
};

static char *identity(struct arena *arena, const struct stat *status)
{
    return arena_printf(arena, "%llu %llu", (unsigned long long)status->st_dev, (unsigned long long)status->st_ino);
}

static void add_file(struct finder *finder, const char *path, const struct stat *status)
{
    struct team *team = finder->team;
    const char *key = identity(team->arena, status);
    struct team_file *file = map_get(team->files, key, strlen(key));
    if (!file) {
        file = ARENA_NEW(team->arena, struct team_file);
        *file = (struct team_file){.path = path, .bytes = status->st_size, .modified_ns = system_modified_ns(status)};
        if (status->st_size > LOG_BYTES)
            file->fault = "it is larger than 4 GiB: this is not a log";
        map_put(team->files, key, strlen(key), file);
    }
    if (file->last != finder->lifter)
        file->lifters++;
    file->last = finder->lifter;
    *LIST_ADD(team->arena, &finder->argument->files) = (struct team_match){path, file};
}

static void add_entry(struct finder *finder, const char *path, bool named);

static int by_bytes(const void *left, const void *right)
{
    return strcmp(*(const char *const *)left, *(const char *const *)right);
}

/* Walks a folder as the log reader does: hidden files and gym files are skipped. */
static void add_folder(struct finder *finder, const char *path)
{
    struct arena *arena = finder->team->arena;
    LIST(const char *) names = {0};
    DIR *folder = opendir(path);
    if (!folder) {
        finder->argument->fault = arena_printf(arena, "%s: %s", path, strerror(errno));
        return;
    }
    for (struct dirent *entry; (entry = readdir(folder));) {
        size_t length = strlen(entry->d_name);
        if (*entry->d_name != '.' && !(length > 4 && !strcmp(entry->d_name + length - 4, ".ini")))
            *LIST_ADD(arena, &names) = arena_copy(arena, entry->d_name);
    }
    closedir(folder);
    if (names.count)
        qsort(names.items, names.count, sizeof *names.items, by_bytes);
    size_t length = strlen(path);
    const char *slash = length && path[length - 1] == '/' ? "" : "/";
    for (size_t i = 0; i < names.count; i++)
        add_entry(finder, arena_printf(arena, "%s%s%s", path, slash, names.items[i]), false);
}

/* `named`: given by a pattern, not found in a folder. Anything that is neither a file nor a folder is never opened:
 * opening a pipe could block for ever. */
static void add_entry(struct finder *finder, const char *path, bool named)
{
    struct arena *arena = finder->team->arena;
    struct stat status;
    if (stat(path, &status)) {
        finder->argument->fault = arena_printf(arena, "%s: %s", path, strerror(errno));
    } else if (S_ISREG(status.st_mode)) {
        add_file(finder, path, &status);
    } else if (S_ISDIR(status.st_mode)) {
        const char *key = identity(arena, &status);
        if (!map_get(finder->folders, key, strlen(key))) {
            map_put(finder->folders, key, strlen(key), finder);
            add_folder(finder, path);
        }
    } else if (named) {
        finder->argument->fault = arena_printf(arena, "%s: neither a file nor a folder", path);
    }
}

static void find_pattern(struct team *team, struct team_lifter *lifter, const char *pattern)
{
    glob_t found;
    const char *path = *pattern == '/' ? pattern : arena_printf(team->arena, "%s/%s", team->gym->folder, pattern);
    if (glob(text_starts(path, "./") ? path + 2 : path, 0, NULL, &found)) {
        *LIST_ADD(team->arena, &lifter->unmatched) = pattern;
        return;
    }
    for (size_t i = 0; i < found.gl_pathc; i++) {
        struct team_argument *argument = ARENA_NEW(team->arena, struct team_argument);
        struct finder finder = {team, lifter, argument, map_new(team->arena)};
        argument->path = arena_copy(team->arena, found.gl_pathv[i]);
        add_entry(&finder, argument->path, true);
        *LIST_ADD(team->arena, &lifter->arguments) = argument;
    }
    globfree(&found);
}

bool team_argument_shared(const struct team_argument *argument)
{
    for (size_t i = 0; i < argument->files.count; i++)
        if (argument->files.items[i].file->lifters > 1)
            return true;
    return false;
}

bool team_has_own_logs(const struct team_lifter *lifter)
{
    for (size_t i = 0; i < lifter->arguments.count; i++)
        if (!team_argument_shared(lifter->arguments.items[i]))
            return true;
    return false;
}

static void find_group(struct team *team, struct team_lifter *lifter, struct map *groups)
{
    struct output *key = output_to_memory(team->arena);
    struct team_group *group = ARENA_NEW(team->arena, struct team_group);
    for (size_t i = 0; i < lifter->arguments.count; i++) {
        if (!team_argument_shared(lifter->arguments.items[i]))
            continue;
        *LIST_ADD(team->arena, &group->arguments) = lifter->arguments.items[i];
        output_printf(key, "%s\n", lifter->arguments.items[i]->path);
    }
    if (!group->arguments.count)
        return;
    size_t length;
    const char *text = output_memory(key, &length);
    lifter->group = map_get(groups, text, length);
    if (!lifter->group) {
        map_put(groups, text, length, group);
        *LIST_ADD(team->arena, &team->groups) = group;
        lifter->group = group;
        group->first = lifter;
    }
    *LIST_ADD(team->arena, &lifter->group->members) = lifter;
}

void team_find_logs(struct team *team)
{
    struct map *groups = map_new(team->arena);
    team->files = map_new(team->arena);
    for (size_t i = 0; i < team->count; i++)
        for (size_t j = 0; j < team->lifters[i].block->log_count; j++)
            find_pattern(team, &team->lifters[i], team->lifters[i].block->logs[j]);
    for (size_t i = 0; i < team->count; i++)
        find_group(team, &team->lifters[i], groups);
}

/* --- their bytes ------------------------------------------------------------------------------------------------------- */

/* Records size and time along with the digest, so that a later reader can tell whether the file has changed since. */
static void digest_one(struct team_file *file)
{
    struct stat status;
    if (file->fault || *file->digest)
        return;
    if (stat(file->path, &status)) {
        file->fault = strerror(errno);
        return;
    }
    file->bytes = status.st_size;
    file->modified_ns = system_modified_ns(&status);
    if (status.st_size > LOG_BYTES)
        file->fault = "it is larger than 4 GiB: this is not a log";
    else if (!digest_file(file->path, file->digest))
        file->fault = errno == EINVAL ? "it is not a file any more" : strerror(errno);
}

static void digest_argument(const struct team_argument *argument)
{
    for (size_t i = 0; i < argument->files.count; i++)
        digest_one(argument->files.items[i].file);
}

void team_digest_logs(const struct team_lifter *lifter)
{
    for (size_t i = 0; i < lifter->arguments.count; i++)
        digest_argument(lifter->arguments.items[i]);
}

void team_digest_group(const struct team_group *group)
{
    for (size_t i = 0; i < group->arguments.count; i++)
        digest_argument(group->arguments.items[i]);
}

const char *team_argument_fault(struct arena *arena, const struct team_argument *argument)
{
    for (size_t i = 0; i < argument->files.count && !argument->fault; i++)
        if (argument->files.items[i].file->fault)
            return arena_printf(arena, "%s: %s", argument->files.items[i].path, argument->files.items[i].file->fault);
    return argument->fault;
}

/* --- logs that several lifters share ---------------------------------------------------------------------------------- */

/* Sorts sets by lifter and keeps each lifter's order, so that each worker takes its own without scanning the
 * others'. */
static void sort_by_lifter(struct team_group *group)
{
    const struct log *log = group->reading->log;
    size_t lifters = names_count(log->lifters), *starts = ARENA_ARRAY(group->arena, size_t, lifters + 1),
           *ends = ARENA_ARRAY(group->arena, size_t, lifters + 1);
    group->sets = ARENA_ARRAY(group->arena, struct set, log->sets.count + 1);
    group->places = ARENA_ARRAY(group->arena, size_t, log->sets.count + 1);
    for (size_t i = 0; i < log->sets.count; i++)
        starts[log->sets.items[i].lifter + 1]++;
    for (size_t i = 0; i < lifters; i++) {
        *LIST_ADD(group->arena, &group->names) = (struct name_count){names_text(log->lifters, (uint32_t)i),
                                                                     starts[i + 1]};
        starts[i + 1] += starts[i];
        ends[i] = starts[i];
    }
    for (size_t i = 0; i < log->sets.count; i++) {
        size_t to = ends[log->sets.items[i].lifter]++;
        group->sets[to] = log->sets.items[i];
        group->places[to] = i;
    }
    group->starts = starts;
}

void team_read_group(struct team *team, struct team_group *group)
{
    const struct options *options = team->options;
    struct reading_options reading_options = {.unit_said = options->log_unit_said,
                                              .unit = options->log_unit,
                                              .dates = options->dates,
                                              .ar_stays = options->ar_stays};
    group->arena = arena_new();
    group->diags = diags_new(group->arena);
    diags_show_all(group->diags);
    diags_leave_out(group->diags, DIAG_UNREAD_CLAUSE);
    diags_leave_out(group->diags, DIAG_SIMILAR_LIFT);
    group->reading = reading_new(group->arena, team->gym, group->diags, &reading_options);
    for (size_t i = 0; i < group->arguments.count; i++)
        group->unreadable |= team_argument_fault(group->arena, group->arguments.items[i]) ||
                             !read_log(group->reading, group->arguments.items[i]->path);
    sort_by_lifter(group);
    team_sort_refusals(group);
}

/* Loads in % of 1RM refer to sets by index; those that belong to other lifters are dropped. */
static void take_percents(struct arena *arena, const struct team_group *group, struct log *log, size_t from,
                          size_t count)
{
    const struct log *all = group->reading->log;
    if (!all->percents.count)
        return;
    size_t *now = ARENA_ARRAY(arena, size_t, all->sets.count); /* new index + 1, by old index */
    for (size_t i = 0; i < count; i++)
        now[group->places[from + i]] = i + 1;
    for (size_t i = 0; i < all->percents.count; i++) {
        struct percent_use use = all->percents.items[i];
        if (!now[use.set])
            continue;
        use.set = now[use.set] - 1;
        *LIST_ADD(arena, &log->percents) = use;
    }
}

struct log *team_take_sets(struct arena *arena, const struct team_group *group, const char *lifter)
{
    const struct log *all = group->reading->log;
    struct log *log = ARENA_NEW(arena, struct log);
    uint32_t number;
    size_t from = 0, count = 0;
    *log = *all;
    memset(&log->sets, 0, sizeof log->sets);
    memset(&log->percents, 0, sizeof log->percents);
    memset(&log->asides, 0, sizeof log->asides);
    if (names_find(all->lifters, lifter, strlen(lifter), &number) && number < group->names.count) {
        from = group->starts[number];
        count = group->names.items[number].sets;
    }
    for (size_t i = 0; i < count; i++)
        *LIST_ADD(arena, &log->sets) = group->sets[from + i];
    take_percents(arena, group, log, from, count);
    return log;
}
