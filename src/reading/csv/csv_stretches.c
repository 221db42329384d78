#include "reading/csv/csv_stretches.h"

#include "reading/csv/csv_log.h"

#include "base/parallel.h"
#include "model/ledger.h"
#include "reading/log_parts.h"
#include "reading/csv/csv_cuts.h"
#include "reading/csv/csv_loads.h"
#include "reading/csv/csv_say.h"

#include <stdatomic.h>
#include <string.h>

#define LEAST_BYTES ((uint64_t)1024 * 1024) /* of a stretch, or it is not worth it */
#define LEAST_BYTES_SAID ((uint64_t)4096)   /* where the user asks for so many readers */

struct stretch
{
    struct stretches *all;
    uint64_t first, end; /* bytes of the file */
    bool last;           /* it ends where the file ends, within a record or not */
    struct part part;    /* its reader; the whole's own reads the first */
    struct csv_log *log;
    struct diags *diags;
    uint32_t lines;
    bool stopped, good;
};

struct stretches
{
    struct csv_log *log; /* the whole's, and the first's */
    struct input *input; /* of the file as a whole */
    struct diags *said;  /* kept back until it is sure that the stretches count */
    uint32_t first_line; /* of the records */
    struct stretch *items;
    size_t count;
    atomic_bool given_up;
};

/* --- reading, by many ---------------------------------------------------------------------------------------------- */

/* Nothing in it waits for what other stretches say. */
static bool stands_alone(struct csv_log *log)
{
    const struct log *all = log->reading->log;
    bool dates_sure = !log->dmy_line && !log->mdy_line && !log->either_line && !log->pending.count;
    bool in_ledger = !all->ledger || !all->percents.count; /* as other stretches' sets are */
    return dates_sure && in_ledger && !log->failed && !log->added.count && !log->above.looked;
}

#define ROWS_A_LOOK 32 /* lines at which it is asked whether to go on: what is in vain is soon known, and the rest is cheap */

/* Where all is well nothing is written here: other readers look beside. */
static bool see_row(void *context, const struct csv_row *row)
{
    struct stretch *stretch = context;
    bool go_on = csv_see_row(stretch->log, row);
    if (go_on && row->line % ROWS_A_LOOK)
        return true;
    go_on = go_on && stands_alone(stretch->log);
    if (!go_on)
        atomic_store_explicit(&stretch->all->given_up, true, memory_order_relaxed);
    if (go_on && !atomic_load_explicit(&stretch->all->given_up, memory_order_relaxed))
        return true;
    stretch->stopped = true;
    return false;
}

static void read_records(struct stretch *stretch, struct input *input)
{
    struct csv_log *log = stretch->log;
    uint32_t first_line = stretch->first ? 1 : stretch->all->first_line;
    log->input = input;
    bool read = csv_rows_read_stretch(input, log->delimiter, first_line, stretch->last, stretch->diags, see_row, stretch);
    csv_hang(log);
    csv_keep_small(log);
    stretch->lines = input_lines(input);
    bool utf8 = !strcmp(input_encoding(input), "UTF-8") && !input_guessed(input);
    bool whole = read && !stretch->stopped && !input_ended_early(input);
    stretch->good = whole && utf8 && stands_alone(log) && stretch->lines + 1 >= first_line; /* not cut before the header's end */
    log->input = stretch->all->input;
}

/* A reader's own file of the same name: its counts are the stretch's. */
static struct reading *reading_of(struct stretch *stretch)
{
    const struct csv_log *whole = stretch->all->log;
    if (!stretch->first)
        return whole->reading;
    struct part *part = &stretch->part;
    part_begin(part, whole->reading);
    part->reading->notes_go = whole->reading->log->ledger;
    struct log *log = part->reading->log;
    *LIST_ADD(log->arena, &log->files) = (struct log_file){.path = whole->path};
    return part->reading;
}

static void read_stretch(void *context, unsigned worker, size_t index)
{
    struct stretches *stretches = context;
    struct stretch *stretch = &stretches->items[index];
    struct reading *reading = reading_of(stretch);
    (void)worker;
    stretch->diags = index ? reading->diags = diags_part(reading->arena, stretches->said) : stretches->said;
    struct input *input = input_open_part(reading->arena, stretches->input, stretch->first, stretch->end, stretch->diags);
    if (input) {
        stretch->log = index ? csv_log_like(stretches->log, reading, input, 0) : stretches->log;
        read_records(stretch, input);
    }
    if (!stretch->good)
        atomic_store_explicit(&stretches->given_up, true, memory_order_relaxed);
    input_close(input);
}

/* --- joining, by one ----------------------------------------------------------------------------------------------- */

static bool all_good(const struct stretches *stretches)
{
    size_t refused = 0;
    for (size_t i = 0; i < stretches->count; i++) {
        if (!stretches->items[i].good)
            return false;
        refused += csv_file(stretches->items[i].log)->refused;
    }
    return refused < REFUSED_AT_MOST; /* so many may be too many, which depends on where they stand */
}

static void join_tallies(struct csv_log *log, const struct stretch *stretch, uint32_t lines)
{
    const struct csv_log *from = stretch->log;
    const uint32_t *lifts = stretch->part.numbers.lifts.items;
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

static void join_stretch(struct csv_log *log, struct stretch *stretch, uint32_t lines)
{
    struct reading *whole = log->reading;
    struct log *from = stretch->part.reading->log;
    struct part_sets sets = {0}; /* all of them */
    struct part_news news = part_news(&stretch->part);
    part_adopt(whole, &stretch->part, &news);
    diags_join(whole->diags, stretch->diags, lines);
    part_sets_end(&stretch->part, &sets);
    part_join_sets(whole->log, &stretch->part, &sets, log->file, lines);
    join_tallies(log, stretch, lines);
    join_counts(csv_file(log), &from->files.items[0]);
    if (stretch->log->last_line)
        log->last_line = lines + stretch->log->last_line;
}

static void join_all(struct stretches *stretches)
{
    uint32_t lines = stretches->items[0].lines;
    for (size_t i = 1; i < stretches->count; i++) {
        join_stretch(stretches->log, &stretches->items[i], lines);
        lines += stretches->items[i].lines;
    }
}

/* --- all of it ----------------------------------------------------------------------------------------------------- */

static uint64_t readers_for(const struct reading_options *options, uint64_t bytes)
{
    uint64_t worth = bytes / (options->jobs_said ? LEAST_BYTES_SAID : LEAST_BYTES);
    return worth < options->jobs ? worth : options->jobs;
}

bool csv_worth_stretches(const struct csv_log *log)
{
    uint64_t bytes;
    int file;
    return input_file(log->input, &file, &bytes) && readers_for(&log->reading->options, bytes) > 1;
}

/* Equal shares of the file, each from a cut to the next; the last one takes all that is left. */
static void plan(struct stretches *stretches, int file, uint64_t bytes, uint64_t readers)
{
    uint64_t at = 0;
    for (uint64_t i = 1; i <= readers && at < bytes; i++) {
        uint64_t share_end = i < readers ? bytes / readers * i : bytes;
        if (share_end <= at) /* the cut before was further down */
            continue;
        uint64_t end = i < readers ? csv_cut_behind(stretches->log, file, bytes, share_end) : bytes;
        stretches->items[stretches->count++] = (struct stretch){.all = stretches, .first = at, .end = end, .last = end == bytes};
        at = end;
    }
}

bool csv_read_stretches(struct csv_log *log, uint32_t header_end)
{
    struct stretches stretches = {.log = log, .input = log->input, .first_line = header_end + 1};
    struct reading *reading = log->reading;
    struct diags *diags = reading->diags;
    uint64_t bytes;
    int file;
    bool keeps_all = reading->log->ledger && reading->log->percents.count; /* another file has sets that wait in their order */
    if (!input_file(log->input, &file, &bytes) || log->decimal_open || log->map.of[FIELD_BODYWEIGHT].count || keeps_all)
        return false;
    uint64_t readers = readers_for(&reading->options, bytes);
    stretches.items = ARENA_ARRAY(reading->arena, struct stretch, (size_t)readers); /* the numbers of their parts outlive the file */
    plan(&stretches, file, bytes, readers);
    reading->diags = stretches.said = diags_part(log->own, diags);
    in_parallel((unsigned)readers, stretches.count, read_stretch, &stretches);
    bool good = all_good(&stretches);
    if (good)
        join_all(&stretches);
    reading->diags = diags;
    if (good)
        diags_join(diags, stretches.said, 0);
    for (size_t i = 1; i < stretches.count; i++) {
        if (stretches.items[i].log)
            arena_free(stretches.items[i].log->own);
        part_end(&stretches.items[i].part, reading, good);
    }
    return good;
}
