#include "model/ledger.h"

#include <math.h>
#include <string.h>

/* A lifter's sets are words of 32 bits, of fixed width because measured: numbers of one to five bytes took as much room and twice the time.
 *
 *   load: 20 bits, manner: 10, times: 2      one to three sets alike, one behind the other
 *   day step: 16, lift: 12, SHORT_PLACE      line step          where the sets behind it stand, from the place before
 *   LONG_PLACE   lift   day   line           the same, not as steps
 *   LONG_SET     load   manner               one set
 *
 * The last four bits of the first word tell which: the times of sets are never 0, and where they are the other two bits count. */

enum mark
{
    SHORT_PLACE = 0 << 2,
    LONG_PLACE = 1 << 2,
    LONG_SET = 2 << 2
};

#define TIMES_BITS 2
#define MANNER_BITS 10
#define LOAD_BITS 20
#define MARK_BITS 4
#define LIFT_BITS 12
#define MOST_TIMES ((1u << TIMES_BITS) - 1)
#define MOST_WORDS 4 /* of one of these */

struct manner /* no padding: compared byte by byte */
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

struct book /* of one lifter */
{
    LIST(uint32_t) words;
    LIST(struct ledger_span) spans;
    struct place_in_log at;
    uint32_t alike; /* the last word but for its times, if it is one of sets; NOTHING_ALIKE: another may not join them */
};

#define NOTHING_ALIKE UINT32_MAX

struct ar_use /* where in a file AR is met first */
{
    uint32_t file, line; /* file + 1; 0: nowhere so far */
};

struct visit /* of a lifter in a file */
{
    uint32_t lifter;
    size_t span;
};

#define MANNER_SLOTS 256 /* a power of two */

struct ledger
{
    struct arena *arena;
    LIST(struct book) books; /* by lifter number */
    struct names *manner_numbers;
    LIST(struct manner) manners; /* by number */
    struct
    {
        struct manner manner;
        uint32_t number; /* + 1; 0: empty */
    } slots[MANNER_SLOTS];
    LIST(struct ar_use) ar_uses; /* by ar_id: in the file that had it last */
    LIST(struct visit) visits;
    bool notes_count; /* some set's AR or focus is from its note */
};

struct ledger *ledger_new(struct arena *arena)
{
    struct ledger *ledger = ARENA_NEW(arena, struct ledger);
    ledger->arena = arena;
    ledger->manner_numbers = names_new(arena);
    return ledger;
}

/* --- writing ----------------------------------------------------------------------------------------------------- */

/* A book that has outgrown the one gets the other at once: on the way up by doubling, what it left behind would weigh as much as the books. */
#define SMALL_BOOK ((size_t)256)
#define LARGE_BOOK ((size_t)4 * 1024) /* words: a piece of an arena that can be grown in place */

static void grow_book(struct ledger *ledger, struct book *book)
{
    if (book->words.capacity < SMALL_BOOK || book->words.capacity >= LARGE_BOOK) {
        book->words.items = list_room(ledger->arena, book->words.items, &book->words.capacity, sizeof *book->words.items);
        return;
    }
    uint32_t *large = arena_room(ledger->arena, LARGE_BOOK * sizeof *large);
    memcpy(large, book->words.items, book->words.count * sizeof *large);
    book->words.items = large;
    book->words.capacity = LARGE_BOOK;
}

/* Room for the words of one set or place. */
static uint32_t *words_room(struct ledger *ledger, struct book *book)
{
    while (book->words.capacity - book->words.count < MOST_WORDS)
        grow_book(ledger, book);
    return book->words.items + book->words.count;
}

static uint64_t bits_of(double value)
{
    uint64_t bits;
    memcpy(&bits, &value, sizeof bits);
    return bits;
}

/* Member by member: a manner put together to be compared as a whole would keep the processor waiting for its parts. */
static bool is_manner(const struct manner *manner, const struct set *set)
{
    return bits_of(manner->rpe) == bits_of(set->rpe) && bits_of(manner->rir) == bits_of(set->rir) &&
           bits_of(manner->bodyweight_kg) == bits_of(set->bodyweight_kg) && manner->assumed == set->assumed && manner->reps == set->reps &&
           manner->kind == set->kind && manner->focus == set->focus && manner->to_failure == set->to_failure && manner->drop == set->drop &&
           manner->ar_said == set->ar_said && manner->ar_limit == set->ar_limit && manner->light == set->light && manner->focus_noted == set->focus_noted;
}

static uint32_t manner_number(struct ledger *ledger, const struct set *set)
{
    /* Halves of an RPE differ in the first bits below the exponent; any other effort meets in one slot and is only slower. */
    size_t slot = ((bits_of(set->rpe) >> 48) * 31 + set->reps * 5u + set->kind + set->ar_said * 67u) & (MANNER_SLOTS - 1);
    if (!ledger->slots[slot].number || !is_manner(&ledger->slots[slot].manner, set)) {
        struct manner manner = {set->rpe,  set->rir,        set->bodyweight_kg, set->assumed, set->reps,     set->kind,
                                set->focus, set->to_failure, set->drop,         set->ar_said, set->ar_limit, set->light,
                                set->focus_noted, {0}};
        ledger->notes_count |= set->ar_said == AR_SAID_IN_NOTE || set->focus_noted;
        uint32_t number = names_add(ledger->manner_numbers, (const char *)&manner, sizeof manner);
        if (number == ledger->manners.count)
            *LIST_ADD(ledger->arena, &ledger->manners) = manner;
        ledger->slots[slot].manner = manner;
        ledger->slots[slot].number = number + 1;
    }
    return ledger->slots[slot].number - 1;
}

/* A lifter's part of a file begins with a place told from nowhere, so that it can be read by itself. */
static void begin_file(struct ledger *ledger, struct book *book, const struct set *set)
{
    *LIST_ADD(ledger->arena, &ledger->visits) = (struct visit){set->lifter, book->spans.count};
    *LIST_ADD(ledger->arena, &book->spans) =
        (struct ledger_span){.file = set->file, .first = set->day, .last = set->day, .begin = book->words.count};
    book->at = (struct place_in_log){0};
}

static void see_day(struct book *book, day_number day)
{
    struct ledger_span *span = &book->spans.items[book->spans.count - 1];
    span->first = day < span->first ? day : span->first;
    span->last = day > span->last ? day : span->last;
}

/* Steps are taken round the whole range of 32 bits: days before 1970 are large numbers here. */
static void write_place(struct ledger *ledger, struct book *book, const struct set *set)
{
    if (!book->spans.count || book->spans.items[book->spans.count - 1].file != set->file)
        begin_file(ledger, book, set);
    uint32_t *words = words_room(ledger, book), day_step = (uint32_t)set->day - (uint32_t)book->at.day;
    if (set->lift >> LIFT_BITS == 0 && day_step == (uint32_t)(int16_t)day_step) {
        words[0] = day_step << 16 | set->lift << MARK_BITS | SHORT_PLACE;
        words[1] = set->line - book->at.line;
        book->words.count += 2;
    } else {
        words[0] = LONG_PLACE;
        words[1] = set->lift;
        words[2] = (uint32_t)set->day;
        words[3] = set->line;
        book->words.count += 4;
    }
    book->alike = NOTHING_ALIKE;
    book->at = (struct place_in_log){set->lift, set->file, set->line, set->day};
    see_day(book, set->day);
}

static void write_set(struct ledger *ledger, struct book *book, uint32_t load, uint32_t manner)
{
    uint32_t *words = words_room(ledger, book), alike = load << (MANNER_BITS + TIMES_BITS) | manner << TIMES_BITS;
    bool is_short = load >> LOAD_BITS == 0 && manner >> MANNER_BITS == 0;
    if (is_short && alike == book->alike && (words[-1] & MOST_TIMES) < MOST_TIMES) {
        words[-1]++;
    } else if (is_short) {
        words[0] = alike | 1;
        book->words.count++;
    } else {
        words[0] = LONG_SET;
        words[1] = load;
        words[2] = manner;
        book->words.count += 3;
    }
    book->alike = is_short ? alike : NOTHING_ALIKE;
}

/* Is the place that the set would share with those before it too far up: are its line, or that of the first with its AR, asked for? */
static bool needs_line(struct ledger *ledger, const struct book *book, const struct set *set)
{
    if (!set->load->piece_count)
        return set->load->straight == STRAIGHT_BODYWEIGHT;
    while (ledger->ar_uses.count <= set->load->ar_id)
        (void)LIST_ADD(ledger->arena, &ledger->ar_uses);
    struct ar_use *use = &ledger->ar_uses.items[set->load->ar_id];
    bool is_new = use->file != set->file + 1;
    if (is_new)
        *use = (struct ar_use){set->file + 1, set->line};
    return is_new || book->at.line < use->line || set->load->straight == STRAIGHT_BODYWEIGHT;
}

static inline struct book *book_of(struct ledger *ledger, uint32_t lifter)
{
    while (ledger->books.count <= lifter)
        (void)LIST_ADD(ledger->arena, &ledger->books);
    return &ledger->books.items[lifter];
}

void ledger_add(struct ledger *ledger, const struct set *set)
{
    struct book *book = book_of(ledger, set->lifter);
    uint32_t manner = manner_number(ledger, set);
    bool same_place = book->spans.count && book->at.day == set->day && book->at.lift == set->lift && book->at.file == set->file;
    if (needs_line(ledger, book, set) || !same_place)
        write_place(ledger, book, set);
    write_set(ledger, book, set->load->id, manner);
}

void ledger_drop_file(struct ledger *ledger, uint32_t file)
{
    for (; ledger->visits.count; ledger->visits.count--) {
        const struct visit *visit = &ledger->visits.items[ledger->visits.count - 1];
        struct book *book = &ledger->books.items[visit->lifter];
        if (book->spans.items[visit->span].file != file)
            break;
        book->words.count = book->spans.items[visit->span].begin;
        book->spans.count = visit->span;
        book->at.file = UINT32_MAX; /* no file: the next set tells its place anew */
    }
    for (size_t i = 0; i < ledger->ar_uses.count; i++)
        if (ledger->ar_uses.items[i].file == file + 1)
            ledger->ar_uses.items[i].file = 0;
}

/* --- joining ----------------------------------------------------------------------------------------------------- */

size_t ledger_visits(const struct ledger *part)
{
    return part->visits.count;
}

void ledger_join(struct ledger *ledger, const struct ledger *part, const struct ledger_numbers *numbers, size_t first_visit, size_t visits_end,
                 uint32_t file, uint32_t lines)
{
    ledger->notes_count |= part->notes_count;
    for (size_t i = first_visit; i < visits_end; i++) {
        const struct visit *visit = &part->visits.items[i];
        const struct book *from = &part->books.items[visit->lifter];
        struct ledger_span span = from->spans.items[visit->span];
        bool last = visit->span + 1 == from->spans.count;
        span.words = from->words.items + span.begin;
        span.end = from->words.items + (last ? from->words.count : from->spans.items[visit->span + 1].begin);
        span.file = file;
        span.lines = lines;
        span.part = part;
        span.numbers = numbers;
        *LIST_ADD(ledger->arena, &book_of(ledger, numbers->lifters.items[visit->lifter])->spans) = span;
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

/* Written member by member where it stays: what is put together elsewhere and copied in larger pieces at once keeps the processor waiting. */
static void fill_set(struct set *set, const struct place_in_log *at, const struct load *load, const struct manner *manner, uint32_t lifter,
                     uint32_t lift)
{
    set->load = load;
    set->note = NULL;
    set->rpe = manner->rpe;
    set->rir = manner->rir;
    set->velocity_ms = NAN;
    set->bodyweight_kg = manner->bodyweight_kg;
    set->day = at->day;
    set->file = at->file;
    set->line = at->line;
    set->lifter = lifter;
    set->lift = lift;
    set->assumed = manner->assumed;
    set->reps = manner->reps;
    set->kind = manner->kind;
    set->focus = manner->focus;
    set->to_failure = manner->to_failure;
    set->drop = manner->drop;
    set->ar_said = manner->ar_said;
    set->ar_limit = manner->ar_limit;
    set->light = manner->light;
    set->focus_noted = manner->focus_noted;
}

static void read_span(const struct ledger *ledger, struct log *log, uint32_t lifter, const struct ledger_span *span)
{
    const struct ledger_numbers *numbers = span->numbers;
    const struct ledger *from = span->part ? span->part : ledger;
    const struct load *const *loads = numbers ? numbers->loads.items : loads_by_id(log->loads);
    struct place_in_log place = {.file = span->file, .line = span->lines};
    uint32_t lift = 0;
    for (const uint32_t *at = span->words; at < span->end;) {
        uint32_t word = *at, times = word & MOST_TIMES, load = word >> (MANNER_BITS + TIMES_BITS), manner = word >> TIMES_BITS & ((1 << MANNER_BITS) - 1);
        if (!times && !(word & LONG_SET)) {
            at = read_place(at, span->lines, &place);
            lift = numbers ? numbers->lifts.items[place.lift] : place.lift;
            continue;
        }
        if (!times) {
            load = at[1];
            manner = at[2];
        }
        at += times ? 1 : 3;
        do
            fill_set(LIST_ROOM(log->arena, &log->sets), &place, loads[load], &from->manners.items[manner], lifter, lift);
        while (times-- > 1);
    }
}

/* A span in the lifter's own book ends where the next one there begins. */
static size_t end_of_own(const struct book *book, size_t span)
{
    while (++span < book->spans.count)
        if (!book->spans.items[span].words)
            return book->spans.items[span].begin;
    return book->words.count;
}

void ledger_read(const struct ledger *ledger, struct log *log, uint32_t lifter)
{
    if (lifter >= ledger->books.count)
        return;
    const struct book *book = &ledger->books.items[lifter];
    for (size_t i = 0; i < book->spans.count; i++) {
        struct ledger_span span = book->spans.items[i];
        if (!span.words) {
            span.words = book->words.items + span.begin;
            span.end = book->words.items + end_of_own(book, i);
        }
        read_span(ledger, log, lifter, &span);
    }
}

bool ledger_notes_count(const struct ledger *ledger)
{
    return ledger->notes_count;
}

void ledger_replace(struct ledger *ledger, uint32_t lifter, const struct set *sets, size_t count)
{
    struct book *book = book_of(ledger, lifter);
    *book = (struct book){.alike = NOTHING_ALIKE};
    for (size_t i = 0; i < count; i++)
        ledger_add(ledger, &sets[i]);
}

const struct ledger_span *ledger_spans(const struct ledger *ledger, uint32_t lifter, size_t *count)
{
    const struct book *book = lifter < ledger->books.count ? &ledger->books.items[lifter] : NULL;
    *count = book ? book->spans.count : 0;
    return book ? book->spans.items : NULL;
}

/* --- the log's --------------------------------------------------------------------------------------------------- */

void log_keep_small(struct log *log, size_t first)
{
    if (!log->ledger || log->percents.count)
        return;
    for (size_t i = first; i < log->sets.count; i++)
        ledger_add(log->ledger, &log->sets.items[i]);
    log->sets.count = first;
}

/* Sets by file; in one file as they stand. */
static void sort_by_file(struct log *log)
{
    size_t files = 0;
    for (size_t i = 0; i < log->sets.count; i++)
        files = log->sets.items[i].file >= files ? log->sets.items[i].file + (size_t)1 : files;
    size_t *start = ARENA_ARRAY(log->arena, size_t, files + 1), *moved = ARENA_ARRAY(log->arena, size_t, log->sets.count);
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
    if (!log->ledger)
        return;
    const struct set *staying = log->sets.items;
    size_t stay = log->sets.count;
    log->sets.items = NULL;
    log->sets.count = log->sets.capacity = 0;
    for (uint32_t i = 0; i < names_count(log->lifters); i++)
        ledger_read(log->ledger, log, i);
    for (size_t i = 0; i < log->percents.count; i++)
        log->percents.items[i].set += log->sets.count;
    for (size_t i = 0; i < stay; i++)
        *LIST_ADD(log->arena, &log->sets) = staying[i];
    log->ledger = NULL;
    sort_by_file(log);
}
