#include "model/ledger.h"

#include <math.h>
#include <string.h>

/* A lifter's sets are numbers of 7 bits a byte, the low ones first; the high bit of a byte says that more follow.
 *
 *   0  lift  day  line  file     where the sets behind it stand; day and line as steps from those before, file as it is
 *   load + 1  manner * 2         one set
 *   load + 1  manner * 2 + 1  n  n + 2 sets alike, one behind the other */

struct manner /* no padding: compared byte by byte */
{
    double rpe, rir, bodyweight_kg;
    uint16_t assumed, reps;
    uint8_t kind, focus, to_failure, drop;
};

struct place_in_log
{
    uint32_t lift, file, line;
    day_number day;
};

struct book /* of one lifter */
{
    LIST(unsigned char) bytes;
    LIST(struct ledger_span) spans;
    struct place_in_log at;
    uint32_t load, manner, times; /* the sets not yet written; times 0: none */
};

struct visit /* of a lifter in a file */
{
    uint32_t lifter;
    size_t span;
};

#define AHEAD 12 /* sets whose loads, far away in memory, are sent for before they are needed */
#define MANNER_SLOTS 256 /* a power of two */

struct ledger
{
    struct arena *arena;
    LIST(struct book) books; /* by lifter number */
    struct names *manners;
    struct
    {
        struct manner manner;
        uint32_t number; /* + 1; 0: empty */
    } slots[MANNER_SLOTS];
    LIST(uint32_t) ar_files; /* by ar_id: the file that had it last, + 1 */
    LIST(struct visit) visits;
};

struct ledger *ledger_new(struct arena *arena)
{
    struct ledger *ledger = ARENA_NEW(arena, struct ledger);
    ledger->arena = arena;
    ledger->manners = names_new(arena);
    return ledger;
}

/* --- numbers ----------------------------------------------------------------------------------------------------- */

#define NUMBER_BYTES 5 /* the longest */

/* A book that has outgrown the one gets the other at once: on the way up by doubling, what it left behind would weigh as much as the books. */
#define SMALL_BOOK ((size_t)1024)
#define LARGE_BOOK ((size_t)16 * 1024) /* a piece of an arena that can be grown in place */

static void grow_book(struct ledger *ledger, struct book *book)
{
    if (book->bytes.capacity < SMALL_BOOK || book->bytes.capacity >= LARGE_BOOK) {
        book->bytes.items = list_room(ledger->arena, book->bytes.items, &book->bytes.capacity, 1);
        return;
    }
    unsigned char *large = arena_room(ledger->arena, LARGE_BOOK);
    memcpy(large, book->bytes.items, book->bytes.count);
    book->bytes.items = large;
    book->bytes.capacity = LARGE_BOOK;
}

/* Room for a place, a set and their numbers; bytes are then put without asking again. */
static unsigned char *bytes_room(struct ledger *ledger, struct book *book)
{
    while (book->bytes.capacity - book->bytes.count < 8 * NUMBER_BYTES)
        grow_book(ledger, book);
    return book->bytes.items + book->bytes.count;
}

static unsigned char *put_number(unsigned char *to, uint32_t number)
{
    for (; number > 0x7F; number >>= 7)
        *to++ = (unsigned char)(number | 0x80);
    *to++ = (unsigned char)number;
    return to;
}

static uint32_t get_number(const unsigned char **at)
{
    uint32_t number = **at & 0x7Fu;
    for (int shift = 7; *(*at)++ & 0x80; shift += 7)
        number |= (**at & 0x7Fu) << shift;
    return number;
}

/* Steps go both ways: even numbers forwards, odd ones back. They are taken round the whole range of 32 bits, so that each value is reached
 * from each: days before 1970 are large numbers here. */
static uint32_t step_number(uint32_t from, uint32_t to)
{
    uint32_t forward = to - from, back = from - to;
    return forward <= INT32_MAX ? forward << 1 : (back - 1) << 1 | 1;
}

static uint32_t stepped(uint32_t from, uint32_t number)
{
    return number & 1 ? from - (number >> 1) - 1 : from + (number >> 1);
}

/* --- writing ----------------------------------------------------------------------------------------------------- */

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
           manner->kind == set->kind && manner->focus == set->focus && manner->to_failure == set->to_failure && manner->drop == set->drop;
}

static uint32_t manner_number(struct ledger *ledger, const struct set *set)
{
    /* Halves of an RPE differ in the first bits below the exponent; any other effort meets in one slot and is only slower. */
    size_t slot = ((bits_of(set->rpe) >> 48) * 31 + set->reps * 5u + set->kind) & (MANNER_SLOTS - 1);
    if (!ledger->slots[slot].number || !is_manner(&ledger->slots[slot].manner, set)) {
        struct manner manner = {set->rpe, set->rir, set->bodyweight_kg, set->assumed, set->reps, set->kind, set->focus, set->to_failure, set->drop};
        ledger->slots[slot].manner = manner;
        ledger->slots[slot].number = names_add(ledger->manners, (const char *)&manner, sizeof manner) + 1;
    }
    return ledger->slots[slot].number - 1;
}

static void write_alike(struct ledger *ledger, struct book *book)
{
    if (!book->times)
        return;
    unsigned char *to = put_number(bytes_room(ledger, book), book->load + 1);
    to = put_number(to, book->manner << 1 | (book->times > 1));
    if (book->times > 1)
        to = put_number(to, book->times - 2);
    book->bytes.count = (size_t)(to - book->bytes.items);
    book->times = 0;
}

/* A lifter's part of a file begins with a place told from nowhere, so that it can be read by itself. */
static void begin_file(struct ledger *ledger, struct book *book, const struct set *set)
{
    *LIST_ADD(ledger->arena, &ledger->visits) = (struct visit){set->lifter, book->spans.count};
    *LIST_ADD(ledger->arena, &book->spans) =
        (struct ledger_span){.file = set->file, .first = set->day, .last = set->day, .begin = book->bytes.count};
    book->at = (struct place_in_log){0};
}

static void see_day(struct book *book, day_number day)
{
    struct ledger_span *span = &book->spans.items[book->spans.count - 1];
    span->first = day < span->first ? day : span->first;
    span->last = day > span->last ? day : span->last;
}

static void write_place(struct ledger *ledger, struct book *book, const struct set *set)
{
    write_alike(ledger, book);
    if (!book->spans.count || book->spans.items[book->spans.count - 1].file != set->file)
        begin_file(ledger, book, set);
    unsigned char *to = put_number(bytes_room(ledger, book), 0);
    to = put_number(to, set->lift);
    to = put_number(to, step_number((uint32_t)book->at.day, (uint32_t)set->day));
    to = put_number(to, step_number(book->at.line, set->line));
    book->bytes.count = (size_t)(to - book->bytes.items);
    book->at = (struct place_in_log){set->lift, set->file, set->line, set->day};
    see_day(book, set->day);
}

static bool ar_is_new(struct ledger *ledger, const struct set *set)
{
    while (ledger->ar_files.count <= set->load->ar_id)
        (void)LIST_ADD(ledger->arena, &ledger->ar_files);
    uint32_t *file = &ledger->ar_files.items[set->load->ar_id];
    bool is_new = *file != set->file + 1;
    *file = set->file + 1;
    return is_new;
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
    bool pointed_at = (set->load->piece_count && ar_is_new(ledger, set)) || set->load->straight == STRAIGHT_BODYWEIGHT;
    if (pointed_at || !book->spans.count || book->at.day != set->day || book->at.lift != set->lift || book->at.file != set->file)
        write_place(ledger, book, set);
    if (!book->times || book->load != set->load->id || book->manner != manner) {
        write_alike(ledger, book);
        book->load = set->load->id;
        book->manner = manner;
    }
    book->times++;
}

void ledger_drop_file(struct ledger *ledger, uint32_t file)
{
    for (; ledger->visits.count; ledger->visits.count--) {
        const struct visit *visit = &ledger->visits.items[ledger->visits.count - 1];
        struct book *book = &ledger->books.items[visit->lifter];
        if (book->spans.items[visit->span].file != file)
            break;
        book->bytes.count = book->spans.items[visit->span].begin;
        book->spans.count = visit->span;
        book->times = 0;
        book->at.file = UINT32_MAX; /* no file: the next set tells its place anew */
    }
    for (size_t i = 0; i < ledger->ar_files.count; i++)
        if (ledger->ar_files.items[i] == file + 1)
            ledger->ar_files.items[i] = 0;
}

void ledger_close(struct ledger *ledger)
{
    for (size_t i = 0; i < ledger->books.count; i++)
        write_alike(ledger, &ledger->books.items[i]);
}

/* --- joining ----------------------------------------------------------------------------------------------------- */

size_t ledger_visits(const struct ledger *part)
{
    return part->visits.count;
}

void ledger_join(struct ledger *ledger, const struct ledger *part, const struct ledger_numbers *numbers, size_t first_visit, size_t visits_end,
                 uint32_t file, uint32_t lines)
{
    for (size_t i = first_visit; i < visits_end; i++) {
        const struct visit *visit = &part->visits.items[i];
        const struct book *from = &part->books.items[visit->lifter];
        struct ledger_span span = from->spans.items[visit->span];
        bool last = visit->span + 1 == from->spans.count;
        span.bytes = from->bytes.items + span.begin;
        span.end = from->bytes.items + (last ? from->bytes.count : from->spans.items[visit->span + 1].begin);
        span.file = file;
        span.lines = lines;
        span.part = part;
        span.numbers = numbers;
        *LIST_ADD(ledger->arena, &book_of(ledger, numbers->lifters.items[visit->lifter])->spans) = span;
    }
}

/* --- reading ----------------------------------------------------------------------------------------------------- */

static const struct manner *manner_of(const struct ledger *ledger, uint32_t number)
{
    return (const struct manner *)(const void *)names_text(ledger->manners, number);
}

static void read_place(const unsigned char **bytes, struct place_in_log *at)
{
    at->lift = get_number(bytes);
    at->day = (day_number)stepped((uint32_t)at->day, get_number(bytes));
    at->line = stepped(at->line, get_number(bytes));
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
}

static void read_span(const struct ledger *ledger, struct log *log, uint32_t lifter, const struct ledger_span *span)
{
    const struct ledger_numbers *numbers = span->numbers;
    const struct ledger *from = span->part ? span->part : ledger;
    struct place_in_log place = {.file = span->file, .line = span->lines};
    uint32_t lift = 0;
    for (const unsigned char *at = span->bytes; at < span->end;) {
        uint32_t load = get_number(&at);
        if (!load) {
            read_place(&at, &place);
            lift = numbers ? numbers->lifts.items[place.lift] : place.lift;
            continue;
        }
        uint32_t manner = get_number(&at), times = manner & 1 ? get_number(&at) + 2 : 1;
        const struct load *known = numbers ? numbers->loads.items[load - 1] : load_by_id(log->loads, load - 1);
        __builtin_prefetch(known); /* whoever asked for the sets will ask what they weighed */
        for (; times; times--)
            fill_set(LIST_ROOM(log->arena, &log->sets), &place, known, manner_of(from, manner >> 1), lifter, lift);
    }
}

/* A span in the lifter's own book ends where the next one there begins. */
static size_t end_of_own(const struct book *book, size_t span)
{
    while (++span < book->spans.count)
        if (!book->spans.items[span].bytes)
            return book->spans.items[span].begin;
    return book->bytes.count;
}

void ledger_read(const struct ledger *ledger, struct log *log, uint32_t lifter)
{
    if (lifter >= ledger->books.count)
        return;
    const struct book *book = &ledger->books.items[lifter];
    for (size_t i = 0; i < book->spans.count; i++) {
        struct ledger_span span = book->spans.items[i];
        if (!span.bytes) {
            span.bytes = book->bytes.items + span.begin;
            span.end = book->bytes.items + end_of_own(book, i);
        }
        read_span(ledger, log, lifter, &span);
    }
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
    for (size_t i = first; i < log->sets.count; i++) {
        __builtin_prefetch(log->sets.items[i + AHEAD < log->sets.count ? i + AHEAD : i].load);
        ledger_add(log->ledger, &log->sets.items[i]);
    }
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
    ledger_close(log->ledger);
    for (uint32_t i = 0; i < names_count(log->lifters); i++)
        ledger_read(log->ledger, log, i);
    for (size_t i = 0; i < log->percents.count; i++)
        log->percents.items[i].set += log->sets.count;
    for (size_t i = 0; i < stay; i++)
        *LIST_ADD(log->arena, &log->sets) = staying[i];
    log->ledger = NULL;
    sort_by_file(log);
}
