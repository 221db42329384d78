/* One big export, read in stretches by several readers at once.
 *
 * The file is cut at line ends behind which a record seems to begin: so many cells, a date among them. A stretch that comes to its end
 * between two records shows that the cut behind it was right; stretches are joined in their order, as if one reader had read on. Whatever
 * one record may tell about others far from it (dates that only the whole file settles, the bodyweight of a lifter, bytes that are not
 * UTF-8, a file that is no log), a record too long to be shown in full wherever its stretch begins, and a cut within quotes, has the file
 * read again as a whole, and nothing is kept of the stretches. */
#include "reading/csv_log.h"

#include "base/parallel.h"
#include "model/ledger.h"
#include "reading/log_parts.h"

#include <string.h>

#define STRETCH_BYTES ((uint64_t)256 * 1024)
#define LEAST_BYTES ((uint64_t)1024) /* of a stretch, where the user asks for so many readers */
#define SPARE_BYTES ((size_t)64 * 1024) /* for stretches that are a little longer */
#define STRETCHES_A_FILE 4  /* at least this many for each reader, or it is not worth it */
#define STRETCHES_A_ROUND 3 /* for each reader: none waits long for the others */
#define MOST_NOTES 8192     /* that a reader remembers from stretch to stretch */

typedef LIST(struct set) set_list;

struct reader
{
    struct part part;
    LIST(set_list) spare; /* room for sets that were joined, to be used again */
    char *text;           /* room for the bytes of a stretch */
    size_t room;
};

struct stretch
{
    uint64_t first, end; /* bytes of the file */
    bool last;           /* it ends where the file ends, within a record or not */
    bool good;           /* it was read, and may be joined */
    struct reader *reader;
    struct part_news news;
    struct diags *diags;
    struct csv_log *log;
    uint32_t lines;
    set_list sets;
    LIST(struct percent_use) percents;
    struct log_file counts;
};

struct round
{
    struct stretch *stretches;
    size_t count;
};

struct stretches
{
    struct csv_log *log; /* the whole's */
    struct diags *said;  /* kept back until it is sure that the stretches count */
    int file;
    uint64_t bytes, at, stretch_bytes;
    uint32_t lines; /* those before the next stretch to join */
    unsigned reader_count;
    struct reader *readers;
    size_t most; /* stretches in a round */
    struct round rounds[2], *joined, *read;
    bool good;
};

/* --- reading, by many ---------------------------------------------------------------------------------------------- */

static void plan_round(struct stretches *stretches, struct round *round)
{
    for (round->count = 0; round->count < stretches->most && stretches->at < stretches->bytes; round->count++) {
        struct stretch *stretch = &round->stretches[round->count];
        uint64_t end = csv_cut_behind(stretches->log, stretches->file, stretches->bytes, stretches->at + stretches->stretch_bytes);
        if (end - stretches->at > CSV_MOST_STRETCH) {
            stretches->good = false;
            return;
        }
        *stretch = (struct stretch){.first = stretches->at, .end = end, .last = end == stretches->bytes};
        stretches->at = end;
    }
}

/* A reader's own file of the same name, begun anew: its counts are the stretch's. */
static uint32_t file_of(struct part *part, const struct csv_log *whole)
{
    struct log *log = part->reading->log;
    if (!log->files.count)
        (void)LIST_ADD(log->arena, &log->files);
    log->files.items[0] = (struct log_file){.path = whole->path, .first = NO_DAY, .last = NO_DAY};
    return 0;
}

/* Nothing in it waits for what other stretches say. */
static bool stands_alone(struct csv_log *log, const struct input *input)
{
    bool dates_sure = !log->dmy_line && !log->mdy_line && !log->either_line && !log->pending.count;
    return dates_sure && !log->failed && !log->added.count && !strcmp(input_encoding(input), "UTF-8") && !input_guessed(input) &&
           csv_file(log)->refused < REFUSED_AT_MOST / 2;
}

/* The reader's log gets other room for its sets, and the stretch takes what is in it. */
static void take_sets(struct stretch *stretch)
{
    struct reader *reader = stretch->reader;
    struct log *log = reader->part.reading->log;
    memcpy(&stretch->sets, &log->sets, sizeof stretch->sets); /* lists of one make */
    memcpy(&stretch->percents, &log->percents, sizeof stretch->percents);
    stretch->counts = log->files.items[0];
    memset(&log->sets, 0, sizeof log->sets);
    memset(&log->percents, 0, sizeof log->percents);
    if (reader->spare.count)
        memcpy(&log->sets, &reader->spare.items[--reader->spare.count], sizeof log->sets);
}

/* Every reader comes to know most notes: what is known of them is forgotten before it weighs. */
static void forget_notes(struct reading *reading)
{
    if (reading->csv_memory && reading->csv_memory->note_count > MOST_NOTES) {
        csv_memory_free(reading->csv_memory);
        reading->csv_memory = NULL;
    }
}

static void read_text(struct stretch *stretch, const struct stretches *stretches, const char *text, size_t length)
{
    struct reading *reading = stretch->reader->part.reading;
    struct input *input = input_from_memory(reading->arena, stretches->log->path, text, length, reading->diags);
    if (!input)
        return;
    struct csv_log *log = stretch->log = csv_log_like(stretches->log, reading, input, file_of(&stretch->reader->part, stretches->log));
    bool whole = csv_rows_read_stretch(input, log->delimiter, stretch->last, reading->diags, csv_see_row, log);
    csv_hang(log);
    stretch->good = whole && stands_alone(log, input);
    stretch->lines = input_lines(input);
    arena_reset(reading->scratch);
    input_close(input);
}

static void read_stretch(struct stretches *stretches, unsigned worker, struct stretch *stretch)
{
    struct reader *reader = stretch->reader = &stretches->readers[worker];
    struct part *part = &reader->part;
    size_t length = (size_t)(stretch->end - stretch->first);
    part_begin(part, stretches->log->reading, false);
    forget_notes(part->reading);
    stretch->diags = part->reading->diags = diags_part(part->arena, stretches->said);
    if (length > reader->room)
        reader->text = arena_room(part->arena, reader->room = length + SPARE_BYTES);
    if (csv_read_at(stretches->file, reader->text, length, stretch->first) == length)
        read_text(stretch, stretches, reader->text, length);
    if (stretch->log)
        take_sets(stretch);
    stretch->news = part_news(part);
}

/* --- joining, by one ----------------------------------------------------------------------------------------------- */

static void join_tallies(struct stretches *stretches, const struct stretch *stretch)
{
    struct csv_log *log = stretches->log;
    const struct csv_log *from = stretch->log;
    const uint32_t *lifts = stretch->reader->part.numbers.lifts.items;
    if (from->unit_assumed.count)
        tally_add(&log->unit_assumed, from->unit_assumed.count, from->unit_assumed.line + stretches->lines);
    for (size_t i = 0; i < from->lifts.count; i++) {
        const struct lift_tally *tally = &from->lifts.items[i].tally;
        if (tally->unweighed.count)
            tally_add(&csv_lift(log, lifts[i])->tally.unweighed, tally->unweighed.count, tally->unweighed.line + stretches->lines);
        if (tally->aside.count)
            tally_add(&csv_lift(log, lifts[i])->tally.aside, tally->aside.count, tally->aside.line + stretches->lines);
    }
}

/* The sets of the records from set `first` on, until enough wait to be kept small: as many as one reader had let wait. */
static size_t records_end(const struct stretch *stretch, size_t first, size_t wanted)
{
    const struct set *sets = stretch->sets.items;
    size_t end = stretch->sets.count - first > wanted ? first + wanted : stretch->sets.count;
    while (end < stretch->sets.count && sets[end].line == sets[end - 1].line)
        end++;
    return end;
}

static void join_sets(struct stretches *stretches, const struct stretch *stretch)
{
    struct csv_log *log = stretches->log;
    struct log *all = log->reading->log;
    size_t percent = 0;
    for (size_t first = 0, end; first < stretch->sets.count; first = end) {
        size_t waiting = all->sets.count - log->first_set, moved = all->sets.count - first; /* round the range, if need be */
        end = records_end(stretch, first, waiting < CSV_SETS_WAITING ? CSV_SETS_WAITING - waiting : 1);
        part_join_sets(all, &stretch->reader->part, stretch->sets.items + first, end - first, log->file, stretches->lines);
        for (; percent < stretch->percents.count && stretch->percents.items[percent].set < end; percent++) {
            struct percent_use *use = LIST_ADD(all->arena, &all->percents);
            *use = stretch->percents.items[percent];
            use->set += moved;
        }
        if (all->sets.count - log->first_set >= CSV_SETS_WAITING)
            csv_keep_small(log);
    }
}

static void join_stretch(struct stretches *stretches, struct stretch *stretch)
{
    struct csv_log *log = stretches->log;
    struct log_file *file = csv_file(log);
    stretches->good = stretch->good && file->refused + stretch->counts.refused < REFUSED_AT_MOST;
    if (!stretches->good)
        return;
    part_adopt(log->reading, &stretch->reader->part, &stretch->news);
    diags_join(stretches->said, stretch->diags, stretches->lines);
    join_sets(stretches, stretch);
    join_tallies(stretches, stretch);
    file->refused += stretch->counts.refused;
    file->aside += stretch->counts.aside;
    if (stretch->log->last_line)
        log->last_line = stretches->lines + stretch->log->last_line;
    stretches->lines += stretch->lines;
}

/* Joins the round before, while others read the next: index 0 is the joining. */
static void work(void *context, unsigned worker, size_t index)
{
    struct stretches *stretches = context;
    if (index)
        read_stretch(stretches, worker, &stretches->read->stretches[index - 1]);
    else
        for (size_t i = 0; i < stretches->joined->count && stretches->good; i++)
            join_stretch(stretches, &stretches->joined->stretches[i]);
}

/* The room that stretches had their sets in serves their readers again. */
static void end_round(struct stretches *stretches, struct round *round)
{
    for (size_t i = 0; i < round->count; i++) {
        struct stretch *stretch = &round->stretches[i];
        if (!stretch->log)
            continue;
        stretch->sets.count = 0;
        memcpy(LIST_ADD(stretches->log->own, &stretch->reader->spare), &stretch->sets, sizeof stretch->sets);
        arena_free(stretch->log->own);
    }
    round->count = 0;
}

static void read_all(struct stretches *stretches)
{
    stretches->joined = &stretches->rounds[0];
    stretches->read = &stretches->rounds[1];
    do {
        plan_round(stretches, stretches->read);
        in_parallel(stretches->reader_count, stretches->read->count + 1, work, stretches);
        end_round(stretches, stretches->joined);
        struct round *spare = stretches->joined;
        stretches->joined = stretches->read;
        stretches->read = spare;
    } while (stretches->good && stretches->joined->count);
    end_round(stretches, stretches->joined);
}

/* --- all of it ----------------------------------------------------------------------------------------------------- */

/* Readers for so many bytes, and how large their stretches are; fewer than two: it is not worth it. */
static unsigned readers_for(const struct reading_options *options, uint64_t bytes, uint64_t *stretch_bytes)
{
    uint64_t share = bytes / STRETCHES_A_FILE / (options->jobs ? options->jobs : 1);
    *stretch_bytes = STRETCH_BYTES;
    if (share < STRETCH_BYTES && options->jobs_said)
        *stretch_bytes = share > LEAST_BYTES ? share : LEAST_BYTES;
    uint64_t worth = bytes / *stretch_bytes / STRETCHES_A_FILE;
    return worth < options->jobs ? (unsigned)worth : options->jobs;
}

bool csv_worth_stretches(const struct csv_log *log)
{
    uint64_t bytes, stretch_bytes;
    int file;
    return input_file(log->input, &file, &bytes) && readers_for(&log->reading->options, bytes, &stretch_bytes) > 1;
}

bool csv_read_stretches(struct csv_log *log, uint32_t lines)
{
    struct stretches stretches = {.log = log, .lines = lines, .good = true};
    struct reading *reading = log->reading;
    if (!input_file(log->input, &stretches.file, &stretches.bytes) || log->decimal_open || log->map.of[FIELD_BODYWEIGHT].count)
        return false;
    stretches.at = csv_behind_lines(stretches.file, lines);
    if (!stretches.at)
        return false;
    stretches.reader_count = readers_for(&reading->options, stretches.bytes, &stretches.stretch_bytes);
    stretches.readers = ARENA_ARRAY(log->own, struct reader, stretches.reader_count);
    stretches.most = STRETCHES_A_ROUND * stretches.reader_count;
    for (size_t i = 0; i < 2; i++)
        stretches.rounds[i].stretches = ARENA_ARRAY(log->own, struct stretch, stretches.most);
    stretches.said = diags_part(log->own, reading->diags);
    read_all(&stretches);
    if (stretches.good)
        diags_join(reading->diags, stretches.said, 0);
    for (unsigned i = 0; i < stretches.reader_count; i++)
        part_end(&stretches.readers[i].part, reading);
    return stretches.good;
}
