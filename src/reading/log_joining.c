/* Files read by several readers at once, each with an arena, names, loads and diagnostics of its own, so that nothing needs a lock. What
 * they found is joined file by file in the order of the queue, as if one reader had read them so: names get their numbers and spellings,
 * loads their one pointer, diagnostics their limits in that order. */
#include "reading/log_queue.h"

#include "base/parallel.h"
#include "model/ledger.h"
#include "reading/tally.h"

#define BYTES_A_READER ((size_t)1024 * 1024) /* for less, a thread and its patterns cost more than they save */

struct part /* a reader and what its numbers are in the whole log */
{
    struct arena *arena;
    struct reading *reading; /* NULL: it has had no file so far */
    struct ledger_numbers numbers;
};

struct range
{
    size_t first, end;
};

struct part_file /* what a file gave its reader */
{
    struct part *part;
    enum found found;
    struct diags *diags;
    struct range files, sets, percents, visits; /* in the part's log and ledger */
    size_t loads, lifters, lifts;               /* how many the part knew after it */
    struct waiting_tallies tallies;
};

struct apart
{
    struct reading *whole;
    struct part *parts;
    struct log_entry **files;
};

/* --- reading, by many ---------------------------------------------------------------------------------------------- */

static struct part *part_of(struct apart *apart, unsigned worker)
{
    struct part *part = &apart->parts[worker];
    if (!part->reading) {
        const struct reading *whole = apart->whole;
        struct reading_options options = whole->options;
        options.jobs = 1;
        part->arena = arena_new();
        part->reading = reading_new(part->arena, whole->gym, whole->diags, &options);
        part->reading->log->ledger = whole->log->ledger ? ledger_new(part->arena) : NULL;
    }
    return part;
}

static void read_apart(void *context, unsigned worker, size_t index)
{
    struct apart *apart = context;
    struct part *part = part_of(apart, worker);
    struct reading *reading = part->reading;
    struct log *log = reading->log;
    struct part_file *file = ARENA_NEW(part->arena, struct part_file);
    file->part = part;
    file->diags = reading->diags = diags_part(part->arena, apart->whole->diags);
    file->files.first = log->files.count;
    file->sets.first = log->sets.count;
    file->percents.first = log->percents.count;
    file->visits.first = log->ledger ? ledger_visits(log->ledger) : 0;
    reading->waiting = &file->tallies;
    file->found = log_read_file(reading, apart->files[index]);
    file->files.end = log->files.count;
    file->sets.end = log->sets.count;
    file->percents.end = log->percents.count;
    file->visits.end = log->ledger ? ledger_visits(log->ledger) : 0;
    file->loads = loads_count(log->loads);
    file->lifters = names_count(log->lifters);
    file->lifts = names_count(log->lifts);
    apart->files[index]->part = file;
}

static unsigned readers_for(const struct reading *reading, size_t files, size_t bytes)
{
    size_t jobs = reading->options.jobs;
    if (!reading->options.jobs_said && jobs > 1 + bytes / BYTES_A_READER)
        jobs = 1 + bytes / BYTES_A_READER;
    return (unsigned)(jobs < files ? jobs : files);
}

void log_read_apart(struct reading *reading, struct log_queue *queue)
{
    struct apart apart = {.whole = reading};
    apart.files = ARENA_ARRAY(reading->arena, struct log_entry *, queue->entries.count);
    size_t count = 0, bytes = 0;
    for (size_t i = 0; i < queue->entries.count; i++)
        if (queue->entries.items[i].kind == ENTRY_FILE) {
            apart.files[count++] = &queue->entries.items[i];
            bytes += queue->entries.items[i].bytes;
        }
    unsigned readers = readers_for(reading, count, bytes);
    if (readers < 2)
        return;
    queue->parts = apart.parts = ARENA_ARRAY(reading->arena, struct part, readers);
    queue->part_count = readers;
    in_parallel(readers, count, read_apart, &apart);
    for (unsigned i = 0; i < readers; i++)
        if (apart.parts[i].reading && apart.parts[i].reading->log->ledger)
            ledger_close(apart.parts[i].reading->log->ledger);
}

/* --- joining, by one ----------------------------------------------------------------------------------------------- */

/* What the reader met in this file for the first time gets its number in the whole. */
static void adopt(struct reading *whole, const struct part_file *file)
{
    struct part *part = file->part;
    struct ledger_numbers *numbers = &part->numbers;
    const struct log *log = part->reading->log;
    for (size_t i = numbers->lifters.count; i < file->lifters; i++) {
        uint32_t number = lifter_adopt(whole, names_text(log->lifters, (uint32_t)i));
        *LIST_ADD(whole->arena, &numbers->lifters) = number;
    }
    for (size_t i = numbers->lifts.count; i < file->lifts; i++) {
        uint32_t number = lift_adopt(whole->lifts, names_text(log->lifts, (uint32_t)i));
        *LIST_ADD(whole->arena, &numbers->lifts) = number;
    }
    for (size_t i = numbers->loads.count; i < file->loads; i++) {
        const struct load *load = load_adopt(whole->log->loads, load_by_id(log->loads, (uint32_t)i));
        *LIST_ADD(whole->arena, &numbers->loads) = load;
    }
}

static void join_sets(struct log *log, const struct part_file *file, uint32_t number)
{
    const struct ledger_numbers *numbers = &file->part->numbers;
    const struct log *from = file->part->reading->log;
    size_t moved = log->sets.count - file->sets.first; /* round the range, if need be */
    for (size_t i = file->sets.first; i < file->sets.end; i++) {
        struct set *set = LIST_ADD(log->arena, &log->sets);
        *set = from->sets.items[i];
        set->load = numbers->loads.items[set->load->id];
        set->lifter = numbers->lifters.items[set->lifter];
        set->lift = numbers->lifts.items[set->lift];
        set->file = number;
    }
    for (size_t i = file->percents.first; i < file->percents.end; i++) {
        struct percent_use *use = LIST_ADD(log->arena, &log->percents);
        *use = from->percents.items[i];
        use->set += moved;
    }
}

enum found log_join(struct reading *reading, const struct log_entry *entry)
{
    const struct part_file *file = entry->part;
    const struct log *from = file->part->reading->log;
    struct log *log = reading->log;
    adopt(reading, file);
    diags_join(reading->diags, file->diags);
    if (file->files.first == file->files.end)
        return file->found;
    uint32_t number = (uint32_t)log->files.count;
    *LIST_ADD(log->arena, &log->files) = from->files.items[file->files.first];
    join_sets(log, file, number);
    if (log->ledger)
        ledger_join(log->ledger, from->ledger, &file->part->numbers, file->visits.first, file->visits.end, number);
    for (size_t i = 0; i < file->tallies.list.count; i++) {
        const struct waiting_tally *waiting = &file->tallies.list.items[i];
        tally_say_lift(reading, waiting->path, file->part->numbers.lifts.items[waiting->lift], &waiting->tally);
    }
    return file->found;
}

void log_end_parts(struct reading *reading, struct log_queue *queue)
{
    for (unsigned i = 0; i < queue->part_count; i++)
        if (queue->parts[i].reading) {
            reading_free(queue->parts[i].reading);
            arena_join(reading->arena, queue->parts[i].arena);
        }
    queue->part_count = 0;
}
