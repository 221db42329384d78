#include "model/set_store.h"

#include <math.h>
#include <string.h>

/* A lifter's sets are words of 32 bits, of fixed width because measured: numbers of one to five bytes took as much room
 * and twice the time.
 *
 *   weight: 11 bits, AR: 9, attributes: 10, times: 2      one to three sets alike, one after the other
 *   day step: 16, lift: 12, SHORT_PLACE      line step    where the sets after it are, from the place before
 *   LONG_PLACE   lift     day   line                      the same, not as steps
 *   LONG_SET     weight   AR    attributes                one set
 *
 * The last four bits of the first word tell which: the times of sets are never 0, and where they are the other two bits
 * count. */

enum mark
{
    SHORT_PLACE = 0 << 2,
    LONG_PLACE = 1 << 2,
    LONG_SET = 2 << 2
};

#define TIMES_BITS 2
#define ATTRIBUTES_BITS 10
#define AR_BITS 9
#define WEIGHT_BITS 11
#define MARK_BITS 4
#define LIFT_BITS 12
#define MOST_TIMES ((1u << TIMES_BITS) - 1)
#define MOST_WORDS 4 /* of one of these */

struct attributes /* no padding: compared byte by byte */
{
    double rpe, rir, bodyweight_kg;
    uint16_t assumed, reps;
    uint8_t kind, focus, to_failure, drop, ar_said, ar_limit, light, focus_noted, none[4];
};

struct place_in_log
{
    uint32_t lift, file, line;
    day_number day;
};

struct lifter_log /* of one lifter */
{
    LIST(uint32_t) words;
    LIST(struct set_store_span) spans;
    struct place_in_log at;
    uint32_t
        alike; /* the last word but for its times, if it is one of sets; NOTHING_ALIKE: another may not join them */
};

#define NOTHING_ALIKE UINT32_MAX

struct ar_use /* where in a file AR is met first */
{
    uint32_t file, line; /* file + 1; 0: nowhere so far */
};

struct file_span /* of a lifter in a file */
{
    uint32_t lifter;
    size_t span;
};

#define ATTRIBUTES_SLOTS 1024 /* a power of two */

struct set_store
{
    struct arena *arena;
    LIST(struct lifter_log) lifter_logs; /* by lifter number */
    struct names *attribute_numbers;
    LIST(struct attributes) attribute_sets; /* by number */
    uint32_t slots[ATTRIBUTES_SLOTS];       /* numbers of attributes found there last */
    LIST(struct ar_use) ar_uses;            /* by ar_id: in the file that had it last */
    LIST(struct file_span) file_spans;
    bool notes_count; /* some set's AR or focus is from its note */
};

struct set_store *set_store_new(struct arena *arena)
{
    struct set_store *store = ARENA_NEW(arena, struct set_store);
    store->arena = arena;
    store->attribute_numbers = names_new(arena);
    return store;
}

/* --- writing ----------------------------------------------------------------------------------------------------- */

/* A log that outgrows the small size gets the large one at once: growing by doubling would leave as much memory behind
 * in the arena as the logs take. */
#define SMALL_LOG ((size_t)256)
#define LARGE_LOG ((size_t)4 * 1024) /* words: a piece of an arena that can be grown in place */

static void grow_lifter_log(struct set_store *store, struct lifter_log *lifter_log)
{
    if (lifter_log->words.capacity < SMALL_LOG || lifter_log->words.capacity >= LARGE_LOG) {
        lifter_log->words.items = list_room(store->arena, lifter_log->words.items, &lifter_log->words.capacity,
                                            sizeof *lifter_log->words.items);
        return;
    }
    uint32_t *large = arena_room(store->arena, LARGE_LOG * sizeof *large);
    memcpy(large, lifter_log->words.items, lifter_log->words.count * sizeof *large);
    lifter_log->words.items = large;
    lifter_log->words.capacity = LARGE_LOG;
}

/* Room for the words of one set or place. */
static uint32_t *words_room(struct set_store *store, struct lifter_log *lifter_log)
{
    while (lifter_log->words.capacity - lifter_log->words.count < MOST_WORDS)
        grow_lifter_log(store, lifter_log);
    return lifter_log->words.items + lifter_log->words.count;
}

static uint64_t bits_of(double value)
{
    uint64_t bits;
    memcpy(&bits, &value, sizeof bits);
    return bits;
}

/* Member by member: attributes put together to be compared as a whole would keep the processor waiting for its parts.
 */
static bool has_attributes(const struct attributes *attributes, const struct set *set)
{
    return bits_of(attributes->rpe) == bits_of(set->rpe) && bits_of(attributes->rir) == bits_of(set->rir) &&
           bits_of(attributes->bodyweight_kg) == bits_of(set->bodyweight_kg) && attributes->assumed == set->assumed &&
           attributes->reps == set->reps && attributes->kind == set->kind && attributes->focus == set->focus &&
           attributes->to_failure == set->to_failure && attributes->drop == set->drop &&
           attributes->ar_said == set->ar_said && attributes->ar_limit == set->ar_limit &&
           attributes->light == set->light && attributes->focus_noted == set->focus_noted;
}

static uint32_t add_attributes(struct set_store *store, const struct set *set)
{
    const struct attributes attributes = {set->rpe,      set->rir,   set->bodyweight_kg, set->assumed, set->reps,
                                          set->kind,     set->focus, set->to_failure,    set->drop,    set->ar_said,
                                          set->ar_limit, set->light, set->focus_noted,   {0}};
    store->notes_count |= set->ar_said == AR_SAID_IN_NOTE || set->focus_noted;
    uint32_t number = names_add(store->attribute_numbers, (const char *)&attributes, sizeof attributes);
    if (number == store->attribute_sets.count)
        *LIST_ADD(store->arena, &store->attribute_sets) = attributes;
    return number;
}

static uint32_t attributes_number(struct set_store *store, const struct set *set)
{
    /* Halves of an RPE differ in the first bits below the exponent; any other effort meets in one slot and is only
     * slower. */
    uint32_t *slot =
        &store->slots[((bits_of(set->rpe) >> 48) * 31 + set->reps * 131u + set->kind + set->ar_said * 67u) &
                      (ATTRIBUTES_SLOTS - 1)];
    if (*slot >= store->attribute_sets.count || !has_attributes(&store->attribute_sets.items[*slot], set))
        *slot = add_attributes(store, set);
    return *slot;
}

/* A lifter's part of a file begins with a place told from nowhere, so that it can be read by itself. */
static void begin_file(struct set_store *store, struct lifter_log *lifter_log, const struct set *set)
{
    *LIST_ADD(store->arena, &store->file_spans) = (struct file_span){set->lifter, lifter_log->spans.count};
    *LIST_ADD(store->arena, &lifter_log->spans) = (struct set_store_span){
        .file = set->file, .first = set->day, .last = set->day, .begin = lifter_log->words.count};
    lifter_log->at = (struct place_in_log){0};
}

static void see_day(struct lifter_log *lifter_log, day_number day)
{
    struct set_store_span *span = &lifter_log->spans.items[lifter_log->spans.count - 1];
    span->first = day < span->first ? day : span->first;
    span->last = day > span->last ? day : span->last;
}

/* Steps are taken round the whole range of 32 bits: days before 1970 are large numbers here. */
static void write_place(struct set_store *store, struct lifter_log *lifter_log, const struct set *set)
{
    if (!lifter_log->spans.count || lifter_log->spans.items[lifter_log->spans.count - 1].file != set->file)
        begin_file(store, lifter_log, set);
    uint32_t *words = words_room(store, lifter_log), day_step = (uint32_t)set->day - (uint32_t)lifter_log->at.day;
    if (set->lift >> LIFT_BITS == 0 && day_step == (uint32_t)(int16_t)day_step) {
        words[0] = day_step << 16 | set->lift << MARK_BITS | SHORT_PLACE;
        words[1] = set->line - lifter_log->at.line;
        lifter_log->words.count += 2;
    } else {
        words[0] = LONG_PLACE;
        words[1] = set->lift;
        words[2] = (uint32_t)set->day;
        words[3] = set->line;
        lifter_log->words.count += 4;
    }
    lifter_log->alike = NOTHING_ALIKE;
    lifter_log->at = (struct place_in_log){set->lift, set->file, set->line, set->day};
    see_day(lifter_log, set->day);
}

static void write_set(struct set_store *store, struct lifter_log *lifter_log, uint32_t weight, uint32_t ar,
                      uint32_t attributes)
{
    uint32_t *words = words_room(store, lifter_log), alike = ((weight << AR_BITS | ar) << ATTRIBUTES_BITS | attributes)
                                                             << TIMES_BITS;
    bool is_short = weight >> WEIGHT_BITS == 0 && ar >> AR_BITS == 0 && attributes >> ATTRIBUTES_BITS == 0;
    if (is_short && alike == lifter_log->alike && (words[-1] & MOST_TIMES) < MOST_TIMES) {
        words[-1]++;
    } else if (is_short) {
        words[0] = alike | 1;
        lifter_log->words.count++;
    } else {
        words[0] = LONG_SET;
        words[1] = weight;
        words[2] = ar;
        words[3] = attributes;
        lifter_log->words.count += 4;
    }
    lifter_log->alike = is_short ? alike : NOTHING_ALIKE;
}

/* Is the place that the set would share with those before it too far up: are its line, or that of the first with its
 * AR, asked for? */
static bool needs_line(struct set_store *store, const struct lifter_log *lifter_log, const struct set *set)
{
    bool of_body = set->weight->straight == STRAIGHT_BODYWEIGHT;
    if (!set->ar->ar_id)
        return of_body;
    while (store->ar_uses.count <= set->ar->ar_id)
        (void)LIST_ADD(store->arena, &store->ar_uses);
    struct ar_use *use = &store->ar_uses.items[set->ar->ar_id];
    bool is_new = use->file != set->file + 1;
    if (is_new)
        *use = (struct ar_use){set->file + 1, set->line};
    return is_new || lifter_log->at.line < use->line || of_body;
}

static inline struct lifter_log *lifter_log_of(struct set_store *store, uint32_t lifter)
{
    while (store->lifter_logs.count <= lifter)
        (void)LIST_ADD(store->arena, &store->lifter_logs);
    return &store->lifter_logs.items[lifter];
}

void set_store_add(struct set_store *store, const struct set *set)
{
    struct lifter_log *lifter_log = lifter_log_of(store, set->lifter);
    uint32_t attributes = attributes_number(store, set);
    bool same_place = lifter_log->spans.count && lifter_log->at.day == set->day && lifter_log->at.lift == set->lift &&
                      lifter_log->at.file == set->file;
    if (needs_line(store, lifter_log, set) || !same_place)
        write_place(store, lifter_log, set);
    write_set(store, lifter_log, set->weight->straight_id, set->ar->ar_id, attributes);
}

void set_store_drop_file(struct set_store *store, uint32_t file)
{
    for (; store->file_spans.count; store->file_spans.count--) {
        const struct file_span *file_span = &store->file_spans.items[store->file_spans.count - 1];
        struct lifter_log *lifter_log = &store->lifter_logs.items[file_span->lifter];
        if (lifter_log->spans.items[file_span->span].file != file)
            break;
        lifter_log->words.count = lifter_log->spans.items[file_span->span].begin;
        lifter_log->spans.count = file_span->span;
        lifter_log->at.file = UINT32_MAX; /* no file: the next set tells its place again */
    }
    for (size_t i = 0; i < store->ar_uses.count; i++)
        if (store->ar_uses.items[i].file == file + 1)
            store->ar_uses.items[i].file = 0;
}

/* --- joining ----------------------------------------------------------------------------------------------------- */

size_t set_store_file_spans(const struct set_store *part)
{
    return part->file_spans.count;
}

void set_store_join(struct set_store *store, const struct set_store *part, const struct set_store_numbers *numbers,
                    size_t first_span, size_t spans_end, uint32_t file, uint32_t lines)
{
    store->notes_count |= part->notes_count;
    for (size_t i = first_span; i < spans_end; i++) {
        const struct file_span *file_span = &part->file_spans.items[i];
        const struct lifter_log *from = &part->lifter_logs.items[file_span->lifter];
        struct set_store_span span = from->spans.items[file_span->span];
        bool last = file_span->span + 1 == from->spans.count;
        span.words = from->words.items + span.begin;
        span.end = from->words.items + (last ? from->words.count : from->spans.items[file_span->span + 1].begin);
        span.file = file;
        span.lines = lines;
        span.part = part;
        span.numbers = numbers;
        *LIST_ADD(store->arena, &lifter_log_of(store, numbers->lifters.items[file_span->lifter])->spans) = span;
    }
}

/* --- reading ----------------------------------------------------------------------------------------------------- */

static const uint32_t *read_place(const uint32_t *words, uint32_t lines, struct place_in_log *at)
{
    if (*words & LONG_PLACE) {
        *at = (struct place_in_log){words[1], at->file, lines + words[3], (day_number)words[2]};
        return words + 4;
    }
    at->lift = *words >> MARK_BITS & ((1 << LIFT_BITS) - 1);
    at->day = (day_number)((uint32_t)at->day + (uint32_t)((int32_t)*words >> 16));
    at->line += words[1];
    return words + 2;
}

/* Written member by member where it stays: what is put together elsewhere and copied in larger pieces at once keeps the
 * processor waiting. */
static void fill_set(struct set *set, const struct place_in_log *at, const struct load *weight, const struct load *ar,
                     const struct attributes *attributes, uint32_t lifter, uint32_t lift)
{
    set->weight = weight;
    set->ar = ar;
    set->note = NULL;
    set->rpe = attributes->rpe;
    set->rir = attributes->rir;
    set->velocity_ms = NAN;
    set->bodyweight_kg = attributes->bodyweight_kg;
    set->day = at->day;
    set->file = at->file;
    set->line = at->line;
    set->lifter = lifter;
    set->lift = lift;
    set->assumed = attributes->assumed;
    set->reps = attributes->reps;
    set->kind = attributes->kind;
    set->focus = attributes->focus;
    set->to_failure = attributes->to_failure;
    set->drop = attributes->drop;
    set->ar_said = attributes->ar_said;
    set->ar_limit = attributes->ar_limit;
    set->light = attributes->light;
    set->focus_noted = attributes->focus_noted;
}

static void read_span(const struct set_store *store, struct log *log, uint32_t lifter,
                      const struct set_store_span *span)
{
    const struct set_store_numbers *numbers = span->numbers;
    const struct set_store *from = span->part ? span->part : store;
    const struct load *const *weights = numbers ? numbers->weights.items : loads_weights(log->loads),
                             *const *ars = numbers ? numbers->ars.items : loads_ars(log->loads);
    struct place_in_log place = {.file = span->file, .line = span->lines};
    uint32_t lift = 0;
    for (const uint32_t *at = span->words; at < span->end;) {
        uint32_t word = *at, times = word & MOST_TIMES, attributes = word >> TIMES_BITS & ((1 << ATTRIBUTES_BITS) - 1),
                 ar = word >> (TIMES_BITS + ATTRIBUTES_BITS) & ((1 << AR_BITS) - 1),
                 weight = word >> (TIMES_BITS + ATTRIBUTES_BITS + AR_BITS);
        if (!times && !(word & LONG_SET)) {
            at = read_place(at, span->lines, &place);
            lift = numbers ? numbers->lifts.items[place.lift] : place.lift;
            continue;
        }
        if (!times) {
            weight = at[1];
            ar = at[2];
            attributes = at[3];
        }
        at += times ? 1 : 4;
        do
            fill_set(LIST_ROOM(log->arena, &log->sets), &place, weights[weight], ars[ar],
                     &from->attribute_sets.items[attributes], lifter, lift);
        while (times-- > 1);
    }
}

/* A span in the lifter's own log ends where the next one there begins. */
static size_t end_of_own(const struct lifter_log *lifter_log, size_t span)
{
    while (++span < lifter_log->spans.count)
        if (!lifter_log->spans.items[span].words)
            return lifter_log->spans.items[span].begin;
    return lifter_log->words.count;
}

void set_store_read(const struct set_store *store, struct log *log, uint32_t lifter)
{
    if (lifter >= store->lifter_logs.count)
        return;
    const struct lifter_log *lifter_log = &store->lifter_logs.items[lifter];
    for (size_t i = 0; i < lifter_log->spans.count; i++) {
        struct set_store_span span = lifter_log->spans.items[i];
        if (!span.words) {
            span.words = lifter_log->words.items + span.begin;
            span.end = lifter_log->words.items + end_of_own(lifter_log, i);
        }
        read_span(store, log, lifter, &span);
    }
}

bool set_store_notes_count(const struct set_store *store)
{
    return store->notes_count;
}

void set_store_replace(struct set_store *store, uint32_t lifter, const struct set *sets, size_t count)
{
    struct lifter_log *lifter_log = lifter_log_of(store, lifter);
    *lifter_log = (struct lifter_log){.alike = NOTHING_ALIKE};
    for (size_t i = 0; i < count; i++)
        set_store_add(store, &sets[i]);
}

const struct set_store_span *set_store_spans(const struct set_store *store, uint32_t lifter, size_t *count)
{
    const struct lifter_log *lifter_log = lifter < store->lifter_logs.count ? &store->lifter_logs.items[lifter] : NULL;
    *count = lifter_log ? lifter_log->spans.count : 0;
    return lifter_log ? lifter_log->spans.items : NULL;
}

/* --- the log's --------------------------------------------------------------------------------------------------- */

void log_compact_sets(struct log *log, size_t first)
{
    if (!log->set_store || log->percents.count)
        return;
    for (size_t i = first; i < log->sets.count; i++)
        set_store_add(log->set_store, &log->sets.items[i]);
    log->sets.count = first;
}

/* Sets by file; in one file as they are. */
static void sort_by_file(struct log *log)
{
    size_t files = 0;
    for (size_t i = 0; i < log->sets.count; i++)
        files = log->sets.items[i].file >= files ? log->sets.items[i].file + (size_t)1 : files;
    size_t *start = ARENA_ARRAY(log->arena, size_t, files + 1),
           *moved = ARENA_ARRAY(log->arena, size_t, log->sets.count);
    struct set *sorted = ARENA_ARRAY(log->arena, struct set, log->sets.count);
    for (size_t i = 0; i < log->sets.count; i++)
        start[log->sets.items[i].file + 1]++;
    for (size_t i = 1; i <= files; i++)
        start[i] += start[i - 1];
    for (size_t i = 0; i < log->sets.count; i++) {
        moved[i] = start[log->sets.items[i].file]++;
        sorted[moved[i]] = log->sets.items[i];
    }
    log->sets.items = sorted;
    log->sets.capacity = log->sets.count;
    for (size_t i = 0; i < log->percents.count; i++)
        log->percents.items[i].set = moved[log->percents.items[i].set];
}

void log_expand(struct log *log)
{
    if (!log->set_store)
        return;
    const struct set *staying = log->sets.items;
    size_t stay = log->sets.count;
    log->sets.items = NULL;
    log->sets.count = log->sets.capacity = 0;
    for (uint32_t i = 0; i < names_count(log->lifters); i++)
        set_store_read(log->set_store, log, i);
    for (size_t i = 0; i < log->percents.count; i++)
        log->percents.items[i].set += log->sets.count;
    for (size_t i = 0; i < stay; i++)
        *LIST_ADD(log->arena, &log->sets) = staying[i];
    log->set_store = NULL;
    sort_by_file(log);
}
