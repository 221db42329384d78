#include "reading/csv/csv_chunks.h"

#include "reading/csv/csv_log.h"

#include "base/parallel.h"
#include "model/set_store.h"
#include "reading/csv/csv_cuts.h"
#include "reading/csv/csv_loads.h"
#include "reading/csv/csv_say.h"
#include "reading/log_worker.h"

#include <stdatomic.h>
#include <string.h>

#define LEAST_BYTES ((uint64_t)1024 * 1024) /* a smaller chunk is not worth a worker */
#define LEAST_BYTES_SAID ((uint64_t)4096)   /* if the user asks for several workers */

struct chunk
{
    struct chunks *all;
    uint64_t first, end;      /* range of bytes in the file */
    bool last;                /* it ends where the file ends, whether within a record or not */
    struct log_worker worker; /* not used for the first chunk, which the main reader reads */
    struct csv_log *log;
    struct diags *diags;
    uint32_t lines;
    bool stopped, good;
};

struct chunks
{
    struct csv_log *log; /* of the whole file, and of the first chunk */
    struct input *input; /* of the whole file */
    struct diags *said;  /* held back until all chunks are known to be good */
    uint32_t first_line; /* of the records */
    struct chunk *items;
    size_t count;
    atomic_bool given_up;
};

/* --- reading, by the workers -------------------------------------------------------------------------------------- */

/* True if nothing in the chunk depends on what other chunks hold. */
static bool stands_alone(struct csv_log *log)
{
    const struct log *all = log->reading->log;
    bool dates_sure = !log->dmy_line && !log->mdy_line && !log->either_line && !log->pending.count;
    bool in_set_store = !all->set_store || !all->percents.count; /* so must be the sets of other chunks */
    return dates_sure && in_set_store && !log->failed && !log->added.count && !log->above.looked;
}

#define ROWS_A_LOOK                                                                                                    \
    32 /* lines between two checks of given_up: often enough to stop early, rarely enough to cost nothing */

/* As long as all is well, given_up is only read, so that it stays shared in the workers' caches. */
static bool see_row(void *context, const struct csv_row *row)
{
    struct chunk *chunk = context;
    bool go_on = csv_see_row(chunk->log, row);
    if (go_on && row->line % ROWS_A_LOOK)
        return true;
    go_on = go_on && stands_alone(chunk->log);
    if (!go_on)
        atomic_store_explicit(&chunk->all->given_up, true, memory_order_relaxed);
    if (go_on && !atomic_load_explicit(&chunk->all->given_up, memory_order_relaxed))
        return true;
    chunk->stopped = true;
    return false;
}

static void read_records(struct chunk *chunk, struct input *input)
{
    struct csv_log *log = chunk->log;
    uint32_t first_line = chunk->first ? 1 : chunk->all->first_line;
    log->input = input;
    bool read = csv_rows_read_chunk(input, log->delimiter, first_line, chunk->last, chunk->diags, see_row, chunk);
    csv_compact_sets(log);
    chunk->lines = input_lines(input);
    bool utf8 = !strcmp(input_encoding(input), "UTF-8") && !input_guessed(input);
    bool whole = read && !chunk->stopped && !input_ended_early(input);
    chunk->good = whole && utf8 && stands_alone(log) &&
                  chunk->lines + 1 >= first_line; /* false: the cut is within the header */
    log->input = chunk->all->input;
}

/* Gives a worker its own file of the same name, whose counts are the chunk's. */
static struct reading *reading_of(struct chunk *chunk)
{
    const struct csv_log *whole = chunk->all->log;
    if (!chunk->first)
        return whole->reading;
    struct log_worker *worker = &chunk->worker;
    log_worker_begin(worker, whole->reading);
    worker->reading->notes_go = whole->reading->log->set_store;
    struct log *log = worker->reading->log;
    *LIST_ADD(log->arena, &log->files) = (struct log_file){.path = whole->path};
    return worker->reading;
}

static void read_chunk(void *context, unsigned worker, size_t index)
{
    struct chunks *chunks = context;
    struct chunk *chunk = &chunks->items[index];
    struct reading *reading = reading_of(chunk);
    (void)worker;
    chunk->diags = index ? reading->diags = diags_part(reading->arena, chunks->said) : chunks->said;
    struct input *input = input_open_part(reading->arena, chunks->input, chunk->first, chunk->end, chunk->diags);
    if (input) {
        chunk->log = index ? csv_log_like(chunks->log, reading, input, 0) : chunks->log;
        read_records(chunk, input);
    }
    if (!chunk->good)
        atomic_store_explicit(&chunks->given_up, true, memory_order_relaxed);
    input_close(input);
}

/* --- merging, by the main reader ---------------------------------------------------------------------------------- */

static bool all_good(const struct chunks *chunks)
{
    size_t refused = 0;
    uint64_t lines = 0;
    for (size_t i = 0; i < chunks->count; i++) {
        if (!chunks->items[i].good)
            return false;
        refused += csv_file(chunks->items[i].log)->refused;
        lines += chunks->items[i].lines;
    }
    /* So many may be too many, which depends on where they are. */
    return refused < REFUSED_AT_MOST && lines < UINT32_MAX;
}

static void join_tallies(struct csv_log *log, const struct chunk *chunk, uint32_t lines)
{
    const struct csv_log *from = chunk->log;
    const uint32_t *lifts = chunk->worker.numbers.lifts.items;
    if (from->unit_assumed.count)
        tally_add(&log->unit_assumed, from->unit_assumed.count, from->unit_assumed.line + lines);
    for (size_t i = 0; i < from->lifts.count; i++) {
        const struct lift_tally *tally = &from->lifts.items[i].tally;
        if (tally->unweighed.count)
            tally_add(&csv_lift(log, lifts[i])->tally.unweighed, tally->unweighed.count, tally->unweighed.line + lines);
        if (tally->aside.count)
            tally_add(&csv_lift(log, lifts[i])->tally.aside, tally->aside.count, tally->aside.line + lines);
    }
}

static void join_counts(struct log_file *file, const struct log_file *from)
{
    file->sets += from->sets;
    file->refused += from->refused;
    file->aside += from->aside;
    if (from->first != NO_DAY) {
        tally_day(file, from->first);
        tally_day(file, from->last);
    }
}

static void join_chunk(struct csv_log *log, struct chunk *chunk, uint32_t lines)
{
    struct reading *whole = log->reading;
    struct log *from = chunk->worker.reading->log;
    struct log_ranges sets = {0}; /* everything in the log */
    struct new_symbols symbols = new_symbols(&chunk->worker);
    remap_ids(whole, &chunk->worker, &symbols);
    diags_join(whole->diags, chunk->diags, lines);
    log_ranges_end(&chunk->worker, &sets);
    log_worker_join_sets(whole->log, &chunk->worker, &sets, log->file, lines);
    join_tallies(log, chunk, lines);
    join_counts(csv_file(log), &from->files.items[0]);
    if (chunk->log->last_line)
        log->last_line = lines + chunk->log->last_line;
}

static void join_all(struct chunks *chunks)
{
    uint32_t lines = chunks->items[0].lines;
    for (size_t i = 1; i < chunks->count; i++) {
        join_chunk(chunks->log, &chunks->items[i], lines);
        lines += chunks->items[i].lines;
    }
}

/* --- all of it ----------------------------------------------------------------------------------------------------- */

static uint64_t readers_for(const struct reading_options *options, uint64_t bytes)
{
    uint64_t worth = bytes / (options->jobs_said ? LEAST_BYTES_SAID : LEAST_BYTES);
    return worth < options->jobs ? worth : options->jobs;
}

bool csv_worth_chunks(const struct csv_log *log)
{
    uint64_t bytes;
    int file;
    return input_file(log->input, &file, &bytes) && readers_for(&log->reading->options, bytes) > 1;
}

/* Divides the file into equal shares, each from one cut to the next; the last one takes all that is left. */
static void plan(struct chunks *chunks, int file, uint64_t bytes, uint64_t readers)
{
    uint64_t at = 0;
    for (uint64_t i = 1; i <= readers && at < bytes; i++) {
        uint64_t share_end = i < readers ? bytes / readers * i : bytes;
        if (share_end <= at) /* the previous cut was further on */
            continue;
        uint64_t end = i < readers ? csv_cut_behind(chunks->log, file, bytes, share_end) : bytes;
        chunks->items[chunks->count++] = (struct chunk){.all = chunks, .first = at, .end = end, .last = end == bytes};
        at = end;
    }
}

bool csv_read_chunks(struct csv_log *log, uint32_t header_end)
{
    struct chunks chunks = {.log = log, .input = log->input, .first_line = header_end + 1};
    struct reading *reading = log->reading;
    struct diags *diags = reading->diags;
    uint64_t bytes;
    int file;
    bool keeps_all = reading->log->set_store &&
                     reading->log->percents.count; /* another file's sets must keep their order in log->sets */
    if (!input_file(log->input, &file, &bytes) || log->decimal_open || log->map.of[FIELD_BODYWEIGHT].count ||
        log->unread.count || keeps_all)
        return false;
    uint64_t readers = readers_for(&reading->options, bytes);
    chunks.items = ARENA_ARRAY(reading->arena, struct chunk,
                               (size_t)readers); /* symbols from the chunks outlive the file */
    plan(&chunks, file, bytes, readers);
    reading->diags = chunks.said = diags_part(log->own, diags);
    in_parallel((unsigned)readers, chunks.count, read_chunk, &chunks);
    bool good = all_good(&chunks);
    if (good)
        join_all(&chunks);
    reading->diags = diags;
    if (good)
        diags_join(diags, chunks.said, 0);
    for (size_t i = 1; i < chunks.count; i++) {
        if (chunks.items[i].log)
            arena_free(chunks.items[i].log->own);
        log_worker_end(&chunks.items[i].worker, reading, good);
    }
    return good;
}
