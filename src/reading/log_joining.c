#include "reading/log_joining.h"

#include "reading/log_queue.h"

#include "base/parallel.h"
#include "reading/log_reader.h"
#include "reading/log_worker.h"
#include "reading/tally.h"

#define BYTES_A_READER ((size_t)1024 * 1024) /* with less, a thread and its patterns cost more than they save */

struct file_read /* the result of reading a file */
{
    struct log_worker *worker;
    enum found found;
    struct diags *diags;
    struct log_range files; /* in the worker's log */
    struct log_ranges sets;
    struct new_symbols symbols;
    struct waiting_tallies tallies;
};

struct apart
{
    struct reading *whole;
    struct log_worker *workers;
    struct log_entry **files;
};

/* --- reading, by the workers -------------------------------------------------------------------------------------- */

static void read_apart(void *context, unsigned number, size_t index)
{
    struct apart *apart = context;
    struct log_worker *worker = &apart->workers[number];
    log_worker_begin(worker, apart->whole);
    struct reading *reading = worker->reading;
    struct log *log = reading->log;
    struct file_read *file = ARENA_NEW(worker->arena, struct file_read);
    file->worker = worker;
    file->diags = reading->diags = diags_part(worker->arena, apart->whole->diags);
    file->files.first = log->files.count;
    file->sets = log_ranges_from(worker);
    reading->waiting = &file->tallies;
    file->found = log_read_file(reading, apart->files[index]);
    file->files.end = log->files.count;
    log_ranges_end(worker, &file->sets);
    file->symbols = new_symbols(worker);
    apart->files[index]->read = file;
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
    queue->workers = apart.workers = ARENA_ARRAY(reading->arena, struct log_worker, readers);
    queue->worker_count = readers;
    in_parallel(readers, count, read_apart, &apart);
}

/* --- merging, by the main reader ---------------------------------------------------------------------------------- */

enum found log_join(struct reading *reading, const struct log_entry *entry)
{
    const struct file_read *file = entry->read;
    const struct log *from = file->worker->reading->log;
    struct log *log = reading->log;
    remap_ids(reading, file->worker, &file->symbols);
    diags_join(reading->diags, file->diags, 0);
    if (file->files.first == file->files.end)
        return file->found;
    uint32_t number = (uint32_t)log->files.count;
    *LIST_ADD(log->arena, &log->files) = from->files.items[file->files.first];
    log_worker_join_sets(log, file->worker, &file->sets, number, 0);
    for (size_t i = 0; i < file->tallies.list.count; i++) {
        const struct waiting_tally *waiting = &file->tallies.list.items[i];
        tally_say_lift(reading, waiting->path, file->worker->numbers.lifts.items[waiting->lift], &waiting->tally);
    }
    return file->found;
}

void log_end_workers(struct reading *reading, struct log_queue *queue)
{
    for (unsigned i = 0; i < queue->worker_count; i++)
        log_worker_end(&queue->workers[i], reading, true);
    queue->worker_count = 0;
}
