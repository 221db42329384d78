#include "reading/log_reader.h"

#include "base/text.h"
#include "model/ledger.h"

#include <dirent.h>
#include <errno.h>
#include <fnmatch.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

struct seen
{
    struct map *files, *folders; /* by device and inode */
    struct map *lifters;         /* by folded name: number + 1 */
    struct map *spellings;       /* of lifters, as written: number + 1 */
};

struct reading *reading_new(struct arena *arena, const struct gym *gym, struct diags *diags,
                            const struct reading_options *options)
{
    struct reading *reading = ARENA_NEW(arena, struct reading);
    reading->arena = arena;
    reading->scratch = arena_new();
    reading->diags = diags;
    reading->gym = gym;
    reading->log = log_new(arena);
    reading->loads = load_reader_new(arena, reading->log->loads, gym);
    reading->lifts = lift_names_new(arena, reading->log, gym);
    reading->options = *options;
    reading->seen = ARENA_NEW(arena, struct seen);
    reading->seen->files = map_new(arena);
    reading->seen->folders = map_new(arena);
    reading->seen->lifters = map_new(arena);
    reading->seen->spellings = map_new(arena);
    return reading;
}

void reading_free(struct reading *reading)
{
    load_reader_free(reading->loads);
    text_patterns_free(reading->patterns);
    arena_free(reading->scratch);
}

/* --- lifters ----------------------------------------------------------------------------------------------------- */

static uint32_t number_of_spelling(struct reading *reading, const char *written)
{
    struct arena *scratch = arena_new();
    char *folded = text_fold(scratch, written);
    uintptr_t known = (uintptr_t)map_get(reading->seen->lifters, folded, strlen(folded));
    if (!known) {
        const struct lifter *lifter = gym_lifter(reading->gym, written);
        const char *name = lifter ? lifter->name : text_squeeze(scratch, written);
        known = (uintptr_t)names_add(reading->log->lifters, name, strlen(name)) + 1;
        map_put(reading->seen->lifters, folded, strlen(folded), (void *)known);
        if (!lifter && *name && reading->gym->lifter_count)
            diag_add(reading->diags, DIAG_UNKNOWN_LIFTER, (struct place){.file = reading->gym->path}, NULL,
                     "without a [lifter] block there are no heights and no tested maxes",
                     "no [lifter] is called '%s', whom a log names", name);
    }
    arena_free(scratch);
    return (uint32_t)(known - 1);
}

uint32_t lifter_number(struct reading *reading, const char *written)
{
    size_t length = strlen(written);
    uintptr_t known = (uintptr_t)map_get(reading->seen->spellings, written, length);
    if (known)
        return (uint32_t)(known - 1);
    uint32_t number = number_of_spelling(reading, written);
    map_put(reading->seen->spellings, written, length, (void *)((uintptr_t)number + 1));
    return number;
}

/* The path from the root, without "." and ".." and doubled slashes; links are left as they are. */
static char *plain_path(struct arena *scratch, const char *folder, const char *path)
{
    const char *whole = *path == '/' ? path : arena_printf(scratch, "%s/%s", folder, path);
    char *plain = arena_alloc(scratch, strlen(whole) + 2), *end = plain;
    for (const char *part = whole; *part; part += strcspn(part, "/")) {
        part += strspn(part, "/");
        size_t length = strcspn(part, "/");
        if (!length || (length == 1 && *part == '.'))
            continue;
        if (length == 2 && part[0] == '.' && part[1] == '.') {
            while (end > plain && *--end != '/')
                continue;
            continue;
        }
        *end++ = '/';
        memcpy(end, part, length);
        end += length;
    }
    *end = 0;
    return plain;
}

/* A folder's name as fnmatch takes it literally. */
static char *escaped(struct arena *scratch, const char *path)
{
    char *text = arena_alloc(scratch, 2 * strlen(path) + 1), *to = text;
    for (; *path; *to++ = *path++)
        if (strchr("*?[\\", *path))
            *to++ = '\\';
    return text;
}

/* A pattern names a file, or a folder that holds it. */
static bool matches(struct arena *scratch, const char *folder, const char *pattern, const char *path)
{
    const char *whole = plain_path(scratch, escaped(scratch, folder), pattern);
    return fnmatch(whole, path, FNM_PATHNAME | FNM_PERIOD | FNM_LEADING_DIR) == 0;
}

static const struct lifter *lifter_by_pattern(struct arena *scratch, const struct gym *gym, const char *path)
{
    char here[PATH_MAX], real_path[PATH_MAX], real_folder[PATH_MAX];
    if (!strcmp(path, "-") || !gym->folder || !getcwd(here, sizeof here))
        return NULL;
    const char *plain = plain_path(scratch, here, path), *folder = plain_path(scratch, here, gym->folder);
    bool real = realpath(path, real_path) && realpath(gym->folder, real_folder);
    for (size_t i = 0; i < gym->lifter_count; i++)
        for (size_t k = 0; k < gym->lifters[i].log_count; k++) {
            const char *pattern = gym->lifters[i].logs[k];
            if (matches(scratch, folder, pattern, plain) || (real && matches(scratch, real_folder, pattern, real_path)))
                return &gym->lifters[i];
        }
    return NULL;
}

const char *lifter_of_path(const struct gym *gym, const char *path)
{
    struct arena *scratch = arena_new();
    const struct lifter *lifter = lifter_by_pattern(scratch, gym, path);
    arena_free(scratch);
    if (!lifter && gym->lifter_count == 1)
        lifter = &gym->lifters[0];
    return lifter ? lifter->name : "";
}

/* --- one file ---------------------------------------------------------------------------------------------------- */

enum found
{
    READ,   /* or refused as a whole, which is said */
    NO_LOG, /* nothing of it was used */
    UNREADABLE
};

static bool seen_before(struct arena *scratch, struct map *map, const struct stat *status)
{
    char *key =
        arena_printf(scratch, "%llu %llu", (unsigned long long)status->st_dev, (unsigned long long)status->st_ino);
    size_t length = strlen(key);
    if (map_get(map, key, length))
        return true;
    map_put(map, key, length, map);
    return false;
}

static uint32_t add_file(struct reading *reading, struct input *input, const char *path)
{
    struct log *log = reading->log;
    struct arena *scratch = arena_new();
    const struct lifter *lifter = lifter_by_pattern(scratch, reading->gym, path);
    *LIST_ADD(log->arena, &log->files) = (struct log_file){.path = path,
                                                           .lifter = lifter ? lifter->name : NULL,
                                                           .modified_ns = input_modified_ns(input),
                                                           .first = NO_DAY,
                                                           .last = NO_DAY};
    arena_free(scratch);
    return (uint32_t)(log->files.count - 1);
}

/* CSV or text, by its content. */
static enum found read_input(struct reading *reading, struct input *input, const char *path, bool strictly)
{
    char delimiter;
    uint32_t header_line;
    if (csv_log_detect(reading, input, &delimiter, &header_line)) {
        read_csv_log(reading, input, add_file(reading, input, path), delimiter, header_line);
    } else if (text_log_detect(reading, input, strictly)) {
        read_text_log(reading, input, add_file(reading, input, path));
        log_keep_small(reading->log, 0);
    } else {
        return NO_LOG;
    }
    return input_failed(input) ? UNREADABLE : READ;
}

static enum found read_file(struct reading *reading, const char *path, bool strictly)
{
    struct input *input = input_open(reading->arena, path, reading->diags);
    if (!input)
        return UNREADABLE;
    enum found found = read_input(reading, input, path, strictly);
    input_close(input);
    return found;
}

static void say_twice(struct reading *reading, const char *path)
{
    diag_add(reading->diags, DIAG_SKIPPED_FILE, (struct place){.file = path}, NULL, NULL,
             "this file was read already, by this name or another: it is read once");
}

/* --- folders ----------------------------------------------------------------------------------------------------- */

struct walk
{
    struct reading *reading;
    bool unreadable;
    const char *first_skipped;
    size_t skipped;
};

static bool cannot_read(struct reading *reading, const char *path)
{
    diag_add(reading->diags, DIAG_CANNOT_READ, (struct place){.file = path}, NULL, NULL, "%s", strerror(errno));
    return false;
}

static bool is_wanted(const char *name)
{
    size_t length = strlen(name);
    return *name != '.' && !(length > 4 && !strcmp(name + length - 4, ".ini"));
}

static int by_bytes(const void *left, const void *right)
{
    return strcmp(*(const char *const *)left, *(const char *const *)right);
}

static const char **names_in(struct arena *arena, DIR *folder, size_t *count)
{
    LIST(const char *) names = {0};
    for (struct dirent *entry; (entry = readdir(folder));)
        if (is_wanted(entry->d_name))
            *LIST_ADD(arena, &names) = arena_copy(arena, entry->d_name);
    if (names.count)
        qsort(names.items, names.count, sizeof *names.items, by_bytes);
    *count = names.count;
    return names.items;
}

static void walk_folder(struct walk *walk, const char *path);

static void walk_entry(struct walk *walk, const char *path)
{
    struct reading *reading = walk->reading;
    struct stat status;
    if (stat(path, &status)) {
        walk->unreadable |= !cannot_read(reading, path);
    } else if (S_ISDIR(status.st_mode)) {
        if (!seen_before(reading->scratch, reading->seen->folders, &status))
            walk_folder(walk, path);
    } else if (S_ISREG(status.st_mode) && seen_before(reading->scratch, reading->seen->files, &status)) {
        say_twice(reading, path);
    } else {
        enum found found = S_ISREG(status.st_mode) ? read_file(reading, path, true) : NO_LOG;
        walk->unreadable |= found == UNREADABLE;
        if (found == NO_LOG && !walk->skipped++)
            walk->first_skipped = path;
    }
}

/* Each folder is walked once, however many links lead to it: links that lead back end here too. */
static void walk_folder(struct walk *walk, const char *path)
{
    DIR *folder = opendir(path);
    if (!folder) {
        walk->unreadable |= !cannot_read(walk->reading, path);
        return;
    }
    struct arena *arena = walk->reading->arena;
    size_t count, length = strlen(path);
    const char **names = names_in(arena, folder, &count);
    closedir(folder); /* not while walking below it: depth would cost open files */
    for (size_t i = 0; i < count; i++)
        walk_entry(walk, arena_printf(arena, "%s%s%s", path, length && path[length - 1] == '/' ? "" : "/", names[i]));
}

static bool read_folder(struct reading *reading, const char *path, const struct stat *status)
{
    struct walk walk = {.reading = reading};
    if (seen_before(reading->scratch, reading->seen->folders, status)) {
        diag_add(reading->diags, DIAG_SKIPPED_FILE, (struct place){.file = path}, NULL, NULL,
                 "this folder was read already: it is read once");
        return true;
    }
    walk_folder(&walk, path);
    if (walk.skipped > 1)
        diag_add(reading->diags, DIAG_SKIPPED_FILE, (struct place){.file = path}, NULL, NULL,
                 "%zu files that are no log were skipped, the first of them %s", walk.skipped, walk.first_skipped);
    else if (walk.skipped)
        diag_add(reading->diags, DIAG_SKIPPED_FILE, (struct place){.file = path}, NULL, NULL, "%s is no log: skipped",
                 walk.first_skipped);
    return !walk.unreadable;
}

bool read_log(struct reading *reading, const char *argument)
{
    const char *path = arena_copy(reading->arena, argument);
    struct stat status;
    bool standard = !strcmp(path, "-");
    if (!standard && stat(path, &status))
        return cannot_read(reading, path);
    if (!standard && S_ISDIR(status.st_mode))
        return read_folder(reading, path, &status);
    if (!standard && S_ISREG(status.st_mode) && seen_before(reading->scratch, reading->seen->files, &status)) {
        say_twice(reading, path);
        return true;
    }
    enum found found = read_file(reading, path, false);
    if (found == NO_LOG)
        diag_add(reading->diags, DIAG_NOT_A_LOG, (struct place){.file = path}, NULL, NULL,
                 "neither a CSV export nor a text log: nothing of it was used");
    return found != UNREADABLE;
}
