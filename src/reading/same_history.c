#include "reading/same_history.h"

#include "reading/log_reader.h"

#include "model/set_store.h"
#include "reading/carrying.h"
#include "reading/corrections/log_corrections.h"
#include "reading/nearly.h"
#include "reading/similar_lifts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define SAME_KG 0.005 /* 102.06 kg is 225 lb: exports round */

struct run /* the sets of one lifter, day and lift in one file */
{
    uint32_t lifter, lift, file;
    day_number day;
    const struct set **sets;
    size_t count;
    bool dropped;
};

struct span /* of one lifter in one file */
{
    uint32_t lifter, file;
    day_number first, last;
};

typedef LIST(struct span) span_list;

struct history
{
    struct arena *own;
    struct log *log;
    struct diags *diags;
    bool *suspects; /* by lifter: some days are in more than one file */
    LIST(struct run) runs;
    struct map *said; /* "older newer"; maps to struct pair */
    LIST(struct pair *) pairs;
};

struct pair /* what is reported about two files, once */
{
    uint32_t older, newer;
    size_t same_sets, same_days, differing_days;
    uint32_t same_line;
    const struct set *differing;
};

/* --- lifters with days in several files -------------------------------------------------------------------------- */

static int by_lifter_and_day(const void *left, const void *right)
{
    const struct span *a = left, *b = right;
    if (a->lifter != b->lifter)
        return a->lifter < b->lifter ? -1 : 1;
    return a->first < b->first ? -1 : a->first > b->first;
}

static span_list spans_of(struct history *history)
{
    const struct log *log = history->log;
    span_list spans = {0};
    struct map *known = map_new(history->own);
    struct span *last = NULL;
    for (size_t i = 0; i < log->sets.count; i++) {
        const struct set *set = &log->sets.items[i];
        if (!last || last->lifter != set->lifter || last->file != set->file) {
            uint32_t key[2] = {set->lifter, set->file};
            uintptr_t index = (uintptr_t)map_get(known, (const char *)key, sizeof key);
            if (!index) {
                *LIST_ADD(history->own, &spans) = (struct span){set->lifter, set->file, set->day, set->day};
                index = spans.count;
                map_put(known, (const char *)key, sizeof key, (void *)index);
            }
            last = &spans.items[index - 1];
        }
        last->first = set->day < last->first ? set->day : last->first;
        last->last = set->day > last->last ? set->day : last->last;
    }
    for (uint32_t lifter = 0; log->set_store && lifter < names_count(log->lifters); lifter++) {
        size_t count;
        const struct set_store_span *small = set_store_spans(log->set_store, lifter, &count);
        for (size_t i = 0; i < count; i++) {
            if (!i || small[i].file != small[i - 1].file) /* sets of a file may not be contiguous */
                *LIST_ADD(history->own, &spans) = (struct span){lifter, small[i].file, small[i].first, small[i].last};
            struct span *span = &spans.items[spans.count - 1];
            span->first = small[i].first < span->first ? small[i].first : span->first;
            span->last = small[i].last > span->last ? small[i].last : span->last;
        }
    }
    return spans;
}

/* Finds lifters whose days in two files overlap; false: none. */
static bool find_suspects(struct history *history)
{
    bool any = false;
    span_list spans = spans_of(history);
    if (!spans.count)
        return false;
    qsort(spans.items, spans.count, sizeof *spans.items, by_lifter_and_day);
    history->suspects = ARENA_ARRAY(history->own, bool, names_count(history->log->lifters));
    day_number reached = NO_DAY;
    for (size_t i = 0; i < spans.count; i++) {
        const struct span *span = &spans.items[i];
        if (!i || span->lifter != spans.items[i - 1].lifter)
            reached = NO_DAY;
        if (reached != NO_DAY && span->first <= reached)
            any = history->suspects[span->lifter] = true;
        reached = span->last > reached ? span->last : reached;
    }
    return any;
}

/* --- runs -------------------------------------------------------------------------------------------------------- */

static int by_run(const void *left, const void *right)
{
    const struct set *a = *(const struct set *const *)left, *b = *(const struct set *const *)right;
    if (a->lifter != b->lifter)
        return a->lifter < b->lifter ? -1 : 1;
    if (a->day != b->day)
        return a->day < b->day ? -1 : 1;
    if (a->lift != b->lift)
        return a->lift < b->lift ? -1 : 1;
    if (a->file != b->file)
        return a->file < b->file ? -1 : 1;
    return a < b ? -1 : a > b; /* in the order of the log: sets are in one array */
}

static void collect_runs(struct history *history)
{
    const struct log *log = history->log;
    LIST(const struct set *) sets = {0};
    for (size_t i = 0; i < log->sets.count; i++)
        if (history->suspects[log->sets.items[i].lifter])
            *LIST_ADD(history->own, &sets) = &log->sets.items[i];
    qsort(sets.items, sets.count, sizeof *sets.items, by_run);
    for (size_t i = 0; i < sets.count; i++) {
        const struct set *set = sets.items[i];
        struct run *run = history->runs.count ? &history->runs.items[history->runs.count - 1] : NULL;
        if (!run || run->lifter != set->lifter || run->day != set->day || run->lift != set->lift ||
            run->file != set->file) {
            run = LIST_ADD(history->own, &history->runs);
            *run = (struct run){set->lifter, set->lift, set->file, set->day, &sets.items[i], 0, false};
        }
        run->count++;
    }
}

/* --- comparing --------------------------------------------------------------------------------------------------- */

static int compare_numbers(double a, double b)
{
    if (isnan(a) || isnan(b) || fabs(a - b) <= SAME_KG)
        return isnan(a) - isnan(b);
    return a < b ? -1 : 1;
}

static int compare_sets(const struct set *a, const struct set *b)
{
    int differs = (int)a->weight->straight - (int)b->weight->straight;
    differs = differs ? differs : a->reps - b->reps;
    differs = differs ? differs : a->kind - b->kind;
    differs = differs ? differs : a->weight->bars - b->weight->bars;
    differs = differs ? differs : strcmp(a->ar->ar, b->ar->ar);
    differs = differs ? differs : compare_numbers(a->weight->percent, b->weight->percent);
    return differs ? differs : compare_numbers(a->weight->kg, b->weight->kg);
}

static int by_content(const void *left, const void *right)
{
    return compare_sets(*(const struct set *const *)left, *(const struct set *const *)right);
}

static bool same_sets(struct arena *own, const struct run *a, const struct run *b)
{
    if (a->count != b->count)
        return false;
    const struct set **first = ARENA_ARRAY(own, const struct set *, a->count);
    const struct set **second = ARENA_ARRAY(own, const struct set *, b->count);
    memcpy(first, a->sets, a->count * sizeof *first);
    memcpy(second, b->sets, b->count * sizeof *second);
    qsort(first, a->count, sizeof *first, by_content);
    qsort(second, b->count, sizeof *second, by_content);
    for (size_t i = 0; i < a->count; i++)
        if (compare_sets(first[i], second[i]))
            return false;
    return true;
}

static struct pair *pair_of(struct history *history, uint32_t older, uint32_t newer)
{
    uint32_t key[2] = {older, newer};
    struct pair *pair = map_get(history->said, (const char *)key, sizeof key);
    if (pair)
        return pair;
    pair = ARENA_NEW(history->own, struct pair);
    pair->older = older;
    pair->newer = newer;
    map_put(history->said, (const char *)key, sizeof key, pair);
    *LIST_ADD(history->own, &history->pairs) = pair;
    return pair;
}

/* Compares files by modification time; if equal, the one read later is newer. */
static bool is_newer(const struct log *log, uint32_t a, uint32_t b)
{
    int64_t left = log->files.items[a].modified_ns, right = log->files.items[b].modified_ns;
    return left != right ? left > right : a > b;
}

static void compare_runs(struct history *history, struct run *a, struct run *b)
{
    struct run *newer = is_newer(history->log, a->file, b->file) ? a : b, *older = newer == a ? b : a;
    if (a->dropped || b->dropped)
        return;
    struct pair *pair = pair_of(history, older->file, newer->file);
    if (same_sets(history->own, older, newer)) {
        older->dropped = true;
        pair->same_line = pair->same_sets ? pair->same_line : older->sets[0]->line;
        pair->same_sets += older->count;
        pair->same_days++;
    } else {
        pair->differing = pair->differing ? pair->differing : older->sets[0];
        pair->differing_days++;
    }
}

/* --- what follows ------------------------------------------------------------------------------------------------ */

static void say_pair(const struct history *history, const struct pair *pair)
{
    const struct log *log = history->log;
    const char *older = log->files.items[pair->older].path, *newer = log->files.items[pair->newer].path;
    if (pair->same_sets)
        diag_add(history->diags, DIAG_SAME_HISTORY, (struct place){.file = older, .line = pair->same_line}, NULL, NULL,
                 "%zu %s of %zu %s %s in %s too: counted once, from there, the newer file", pair->same_sets,
                 pair->same_sets == 1 ? "set" : "sets", pair->same_days,
                 pair->same_days == 1 ? "lift and day" : "lifts and days", pair->same_sets == 1 ? "is" : "are", newer);
    if (!pair->differing)
        return;
    char day[16];
    date_print(day, pair->differing->day);
    const char *lifter = names_text(log->lifters, pair->differing->lifter);
    diag_add(history->diags, DIAG_DIFFERING_HISTORY, (struct place){.file = older, .line = pair->differing->line}, NULL,
             NULL, "%s%s%s on %s has different sets in %s%s: both count", lifter, *lifter ? ", " : "",
             log->lift_names.items[pair->differing->lift].name, day, newer,
             pair->differing_days > 1
                 ? arena_printf(history->own, ", as on %zu more lifts and days", pair->differing_days - 1)
                 : "");
}

static void drop_sets(struct history *history)
{
    struct log *log = history->log;
    bool *drop = ARENA_ARRAY(history->own, bool, log->sets.count);
    size_t *moved = ARENA_ARRAY(history->own, size_t, log->sets.count), kept = 0;
    for (size_t i = 0; i < history->runs.count; i++) {
        const struct run *run = &history->runs.items[i];
        for (size_t k = 0; run->dropped && k < run->count; k++)
            drop[run->sets[k] - log->sets.items] = true;
    }
    for (size_t i = 0; i < log->sets.count; i++) {
        moved[i] = kept;
        if (drop[i])
            log->files.items[log->sets.items[i].file].sets--;
        else
            log->sets.items[kept++] = log->sets.items[i];
    }
    log->sets.count = kept;
    kept = 0;
    for (size_t i = 0; i < log->percents.count; i++) {
        struct percent_use use = log->percents.items[i];
        if (drop[use.set])
            continue;
        use.set = moved[use.set];
        log->percents.items[kept++] = use;
    }
    log->percents.count = kept;
}

static bool same_matter(const struct run *a, const struct run *b)
{
    return a->lifter == b->lifter && a->day == b->day && a->lift == b->lift;
}

static void say_unmatched(const struct reading *reading)
{
    for (size_t i = 0; i < reading->corrections->list.count; i++)
        corrections_say_unmatched(reading->corrections->list.items[i], reading->diags);
}

void reading_finish(struct reading *reading)
{
    say_unmatched(reading);
    struct history history = {.own = arena_new(), .log = reading->log, .diags = reading->diags};
    history.said = map_new(history.own);
    if (reading->log->files.count > 1 && find_suspects(&history)) {
        log_expand(history.log);
        collect_runs(&history);
        struct run *runs = history.runs.items;
        for (size_t i = 0; i < history.runs.count; i++)
            for (size_t k = i + 1; k < history.runs.count && same_matter(&runs[i], &runs[k]); k++)
                compare_runs(&history, &runs[i], &runs[k]);
        for (size_t i = 0; i < history.pairs.count; i++)
            say_pair(&history, history.pairs.items[i]); /* before the sets move: the pairs point to them */
        drop_sets(&history);
    }
    arena_free(history.own);
    carry_ar(reading);
    bool all_there = !reading->log->set_store;
    if (all_there && diags_takes(reading->diags, DIAG_UNREAD_CLAUSE))
        say_nearly_ar(reading);
    if (all_there && diags_takes(reading->diags, DIAG_SIMILAR_LIFT))
        say_similar_lifts(reading);
}
