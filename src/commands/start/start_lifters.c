#include "commands/start/start_lifters.h"

#include "commands/start/start.h"

#include "base/names.h"
#include "base/text.h"
#include "commands/start/start_blocks.h"

#include <limits.h>
#include <stdlib.h>
#include <string.h>

#define LINE(...) start_line_add(start, block, (struct start_line){__VA_ARGS__})
#define NOBODY UINT32_MAX
#define MOST_LIFTS 6 /* lifts of a lifter that get lines */
#define MOST_ASKED 3 /* lifts of these that are asked for */

struct practice /* of one lift by one lifter */
{
    uint32_t lifter, lift;
    size_t sets, ar_sets;
};

struct practices
{
    struct names *keys;
    LIST(struct practice) items;
    struct names *files; /* each pair of lifter and file once */
};

static int by_lifter(const void *left, const void *right)
{
    const struct practice *a = left, *b = right;
    if (a->lifter != b->lifter)
        return a->lifter < b->lifter ? -1 : 1;
    if (a->ar_sets != b->ar_sets)
        return a->ar_sets > b->ar_sets ? -1 : 1;
    if (a->sets != b->sets)
        return a->sets > b->sets ? -1 : 1;
    return a->lift < b->lift ? -1 : 1;
}

static void count(struct start *start, struct practices *practices)
{
    practices->keys = names_new(start->arena);
    practices->files = names_new(start->arena);
    for (size_t i = 0; i < start->log->sets.count; i++) {
        const struct set *set = &start->log->sets.items[i];
        uint32_t key[] = {set->lifter, set->lift}, file[] = {set->lifter, set->file};
        uint32_t number = names_add(practices->keys, (const char *)key, sizeof key);
        names_add(practices->files, (const char *)file, sizeof file);
        if (number == practices->items.count)
            *LIST_ADD(start->arena, &practices->items) = (struct practice){set->lifter, set->lift, 0, 0};
        practices->items.items[number].sets++;
        practices->items.items[number].ar_sets += set->ar->piece_count > 0;
    }
    if (practices->items.count)
        qsort(practices->items.items, practices->items.count, sizeof *practices->items.items, by_lifter);
}

/* --- logs ---------------------------------------------------------------------------------------------------------------- */

#define MOST_UP 4 /* levels up, at most, in a relative path to a log; beyond this the absolute path is clearer */

/* Where the folder is, or will be once it is made. NULL: that cannot be determined. */
static const char *real_folder(struct start *start)
{
    char real[PATH_MAX];
    const char *there = start->folder, *rest = "";
    while (!realpath(there, real)) {
        const char *slash = strrchr(there, '/'), *last = slash ? slash + 1 : there;
        if (slash == there || (!slash && !strcmp(there, ".")))
            return NULL;
        if (*last)
            rest = arena_printf(start->arena, "/%s%s", last, rest);
        there = slash ? arena_text(start->arena, there, (size_t)(slash - there)) : ".";
    }
    return arena_printf(start->arena, "%s%s", real, rest);
}

/* The relative path from a folder to a file; both are absolute. */
static const char *way(struct start *start, const char *folder, const char *file)
{
    size_t same = 0, up = 0;
    const char *way = "";
    for (size_t i = 0; folder[i] == file[i] || (!folder[i] && file[i] == '/'); i++) {
        if (file[i] == '/')
            same = i;
        if (!folder[i])
            break;
    }
    for (const char *slash = folder + same; (slash = strchr(slash, '/')); slash++, up++)
        way = arena_printf(start->arena, "%s../", way);
    return up > MOST_UP || !same ? file : arena_printf(start->arena, "%s%s", way, file + same + 1);
}

/* A pattern that matches only this file. NULL: standard input, or it cannot be determined. */
static const char *pattern_of(struct start *start, const char *path)
{
    char real[PATH_MAX];
    if (!strcmp(path, "-") || !realpath(path, real))
        return NULL;
    const char *folder = real_folder(start), *from = folder ? way(start, folder, real) : arena_copy(start->arena, real);
    char *pattern = arena_alloc(start->arena, 2 * strlen(from) + 1), *to = pattern;
    for (; *from; *to++ = *from++)
        if (strchr("*?[\\", *from))
            *to++ = '\\';
    return pattern;
}

static void put_logs(struct start *start, struct start_block *block, const struct practices *practices, uint32_t lifter,
                     bool own)
{
    if (own)
        LINE("log", "___", .value = "log.txt");
    for (uint32_t file = 0; file < start->log->files.count; file++) {
        const struct log_file *from = &start->log->files.items[file];
        uint32_t key[] = {lifter, file}, number;
        bool not_read = !from->sets && start->lifters <= 1; /* not understood yet, but no other lifter can own it */
        bool theirs = not_read || names_find(practices->files, (const char *)key, sizeof key, &number);
        const char *pattern = theirs ? pattern_of(start, from->path) : NULL;
        if (pattern && start_can_stand(start->arena, pattern))
            LINE("log", "___", .value = pattern);
    }
}

/* --- lifts ---------------------------------------------------------------------------------------------------------------- */

/* A lift's name ends at the first number, so a lift with a number in its name needs an alias in a [lift]. */
static bool can_be_written(struct start *start, const char *lift)
{
    return start_can_stand(start->arena, lift) && !strpbrk(lift, "0123456789");
}

static void put_max(struct start *start, struct start_block *block, const char *lift, bool asked)
{
    LINE("max", "___ kg DATE", .prefix = arena_printf(start->arena, "%s ", lift),
         .question = asked ? arena_printf(start->arena, "1RM tested in %s and its day, as in 140 kg 2026-01-10", lift)
                           : NULL);
}

static void put_heights(struct start *start, struct start_block *block, const char *lift, bool asked)
{
    LINE("heights", "___ m ___ m", .prefix = arena_printf(start->arena, "%s ", lift),
         .question = asked ? arena_printf(start->arena, "Heights of the bar in %s, bottom and top, as in 0.80 m 1.42 m",
                                          lift)
                           : NULL);
}

static void put_lifts(struct start *start, struct start_block *block, const struct practices *practices,
                      uint32_t lifter, bool asked)
{
    static const char *const usual[] = {"squat", "bench press", "deadlift"};
    const char *lifts[MOST_LIFTS];
    size_t found = 0, with_ar = 0;
    for (size_t i = 0; i < practices->items.count && found < MOST_LIFTS; i++) {
        const struct practice *practice = &practices->items.items[i];
        const char *name = names_text(start->log->lifts, practice->lift);
        if (practice->lifter != lifter || !can_be_written(start, name))
            continue;
        with_ar += practice->ar_sets > 0;
        lifts[found++] = name;
    }
    for (; !practices->items.count && found < sizeof usual / sizeof *usual; found++)
        lifts[found] = usual[found];
    for (size_t i = 0; i < found; i++)
        put_max(start, block, lifts[i], asked && i < with_ar && i < MOST_ASKED);
    for (size_t i = 0; i < found; i++)
        put_heights(start, block, lifts[i], asked && i < with_ar && i < MOST_ASKED);
}

static void put_lifter(struct start *start, const char *name, const struct practices *practices, uint32_t lifter,
                       bool own, bool asked)
{
    const char *head = arena_printf(start->arena, "[lifter \"%s\"]", name ? name : "___");
    struct start_block *block = start_block_add(start, head, NULL);
    if (!name)
        block->refused = "";
    put_logs(start, block, practices, lifter, own);
    LINE("experience", "___", .remark = "experience with chains and bands: new, some or seasoned",
         .question = asked ? "Experience with chains and bands: new, some or seasoned" : NULL);
    LINE("bodyweight", "___ kg", .remark = "for pull-ups, dips and the like, if the log does not give it");
    put_lifts(start, block, practices, lifter, asked);
}

static const char lifters_about[] = "--- Lifters ---\n"
                                    "heights: measure with the empty bar, in your training place and shoes, from the "
                                    "floor to the middle of the bar at the lowest point and at\n"
                                    "lockout. They matter most: 1 cm moves 1 to 2 % of a chain. max: a tested 1RM with "
                                    "its day (YYYY-MM-DD for DATE), one line per test.\n";

/* True for a lifter named by an option or an answer, but not by any export. */
static bool is_new(const struct start *start)
{
    if (!start->lifter)
        return false;
    for (uint32_t i = 0; i < names_count(start->log->lifters); i++) {
        const char *logged = names_text(start->log->lifters, i);
        if (!start->sets_of[i])
            continue;
        if (!*logged || text_same_name(logged, start->lifter))
            return false;
    }
    return true;
}

/* Adds one block if it is needed; `lifter` NOBODY: a lifter who is not in any export. False: not needed. */
static bool put_new(struct start *start, const struct practices *practices, uint32_t lifter, bool own)
{
    const char *logged = lifter == NOBODY ? "" : names_text(start->log->lifters, lifter),
               *name = *logged ? logged : start->lifter;
    if (name ? gym_lifter(start->known, name) != NULL : start->gym_there)
        return false;
    if (!name || start_can_stand(start->arena, name))
        put_lifter(start, name, practices, lifter, own, start->lifters <= 1);
    else
        start_block_add(start, NULL, arena_printf(start->arena, "A gym file cannot hold a lifter's name: %s\n", name));
    return true;
}

void start_lifter_blocks(struct start *start)
{
    struct practices practices = {0};
    size_t before = start->blocks.count, written = 0;
    bool own = !start->gym_there;
    count(start, &practices);
    start_block_add(start, NULL, lifters_about);
    if (!start->lifters || is_new(start))
        written += put_new(start, &practices, NOBODY, own);
    for (uint32_t i = 0; i < names_count(start->log->lifters); i++)
        if (start->sets_of[i])
            written += put_new(start, &practices, i, own && !written);
    if (!written)
        start->blocks.count = before;
}
