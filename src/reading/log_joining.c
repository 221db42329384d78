#include "reading/log_joining.h"

#include "reading/log_queue.h"

#include "base/parallel.h"
#include "reading/log_parts.h"
#include "reading/tally.h"
#include "reading/log_reader.h"

#define BYTES_A_READER ((size_t)1024 * 1024) /* for less, a thread and its patterns cost more than they save */

struct part_file /* what a file gave its reader */
{
    struct part *part;
    enum found found;
    struct diags *diags;
    struct part_range files; /* in the part's log */
    struct part_sets sets;
    struct part_news news;
    struct waiting_tallies tallies;
};

struct apart
{
    struct reading *whole;
    struct part *parts;
    struct log_entry **files;
};

/* --- reading, by many ---------------------------------------------------------------------------------------------- */

static void read_apart(void *context, unsigned worker, size_t index)
{
    struct apart *apart = context;
    struct part *part = &apart->parts[worker];
    part_begin(part, apart->whole);
    struct reading *reading = part->reading;
    struct log *log = reading->log;
    struct part_file *file = ARENA_NEW(part->arena, struct part_file);
    file->part = part;
    file->diags = reading->diags = diags_part(part->arena, apart->whole->diags);
    file->files.first = log->files.count;
    file->sets = part_sets_from(part);
    reading->waiting = &file->tallies;
    file->found = log_read_file(reading, apart->files[index]);
    file->files.end = log->files.count;
    part_sets_end(part, &file->sets);
    file->news = part_news(part);
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
}

/* --- joining, by one ----------------------------------------------------------------------------------------------- */

enum found log_join(struct reading *reading, const struct log_entry *entry)
{
    const struct part_file *file = entry->part;
    const struct log *from = file->part->reading->log;
    struct log *log = reading->log;
    part_adopt(reading, file->part, &file->news);
    diags_join(reading->diags, file->diags, 0);
    if (file->files.first == file->files.end)
        return file->found;
    uint32_t number = (uint32_t)log->files.count;
    *LIST_ADD(log->arena, &log->files) = from->files.items[file->files.first];
    part_join_sets(log, file->part, &file->sets, number, 0);
    for (size_t i = 0; i < file->tallies.list.count; i++) {
        const struct waiting_tally *waiting = &file->tallies.list.items[i];
        tally_say_lift(reading, waiting->path, file->part->numbers.lifts.items[waiting->lift], &waiting->tally);
    }
    return file->found;
}

void log_end_parts(struct reading *reading, struct log_queue *queue)
{
    for (unsigned i = 0; i < queue->part_count; i++)
        part_end(&queue->parts[i], reading, true);
    queue->part_count = 0;
}
