#include "reading/log_reader.h"

#include "model/set_store.h"
#include "reading/corrections/corrected_input.h"
#include "reading/corrections/log_corrections.h"
#include "reading/csv/csv_detect.h"
#include "reading/csv/csv_log.h"
#include "reading/log_joining.h"
#include "reading/log_lifters.h"
#include "reading/log_queue.h"
#include "reading/table/table_log.h"
#include "reading/text/text_log.h"
#include "reading/text/text_patterns.h"
#include "reading/workbook/file_kind.h"
#include "reading/workbook/sheet_text.h"
#include "reading/workbook/workbook_log.h"

#include <string.h>

struct reading *reading_new(struct arena *arena, const struct gym *gym, struct diags *diags,
                            const struct reading_options *options)
{
    struct reading *reading = ARENA_NEW(arena, struct reading);
    reading->arena = arena;
    reading->scratch = arena_new();
    reading->diags = diags;
    reading->gym = gym;
    reading->log = log_new(arena);
    reading->loads = load_reader_new(arena, reading->log->loads, gym);
    reading->lifts = lift_names_new(arena, reading->log, gym);
    reading->options = *options;
    reading->queue = ARENA_NEW(arena, struct log_queue);
    reading->corrections = ARENA_NEW(arena, struct known_corrections);
    reading->corrections->by_folder = map_new(arena);
    reading->seen = ARENA_NEW(arena, struct seen);
    reading->seen->files = map_new(arena);
    reading->seen->folders = map_new(arena);
    reading->seen->lifters = map_new(arena);
    reading->seen->spellings = map_new(arena);
    return reading;
}

void reading_free(struct reading *reading)
{
    load_reader_free(reading->loads);
    text_patterns_free(reading->patterns);
    csv_memory_free(reading->csv_memory);
    arena_free(reading->scratch);
}

/* --- one file ---------------------------------------------------------------------------------------------------- */

static uint32_t add_file(struct reading *reading, struct input *input, const char *path)
{
    struct log *log = reading->log;
    struct arena *scratch = arena_new();
    const struct lifter *lifter = lifter_by_pattern(scratch, reading->gym, path);
    *LIST_ADD(log->arena, &log->files) = (struct log_file){.path = path,
                                                           .lifter = lifter ? lifter->name : NULL,
                                                           .modified_ns = input_modified_ns(input),
                                                           .first = NO_DAY,
                                                           .last = NO_DAY};
    arena_free(scratch);
    return (uint32_t)(log->files.count - 1);
}

/* One row per set, or another layout. False: it is not a table, and nothing was read. */
static bool read_table(struct reading *reading, struct input *input, const char *path)
{
    char delimiter;
    uint32_t header_line;
    if (csv_log_detect(reading, input, &delimiter, &header_line)) {
        bool wide = table_wanted(reading, input, delimiter, header_line);
        (wide ? read_table_log : read_csv_log)(reading, input, add_file(reading, input, path), delimiter, header_line);
        return true;
    }
    if (!table_detect(reading, input, &delimiter, &header_line))
        return false;
    read_table_log(reading, input, add_file(reading, input, path), delimiter, header_line);
    return true;
}

/* CSV or text, by its content. */
static enum found read_input(struct reading *reading, struct input *input, const char *path, bool strictly)
{
    if (read_table(reading, input, path))
        return input_failed(input) ? UNREADABLE : READ;
    if (!text_log_detect(reading, input, strictly))
        return NO_LOG;
    read_text_log(reading, input, add_file(reading, input, path));
    log_compact_sets(reading->log, 0);
    return input_failed(input) ? UNREADABLE : READ;
}

typedef enum found input_reader(struct reading *reading, struct input *input, const char *path, bool strictly);

/* With its corrections applied; NULL: there are none. */
static enum found read_corrected(struct reading *reading, struct input *raw, const char *path, bool strictly,
                                 struct file_corrections *corrections, input_reader *read)
{
    if (!corrections)
        return read(reading, raw, path, strictly);
    struct log *log = reading->log;
    size_t files = log->files.count;
    struct corrected_input *corrected = corrected_input_new(reading->arena, raw, corrections, reading->diags);
    struct input *input = corrected_input_text(corrected);
    enum found found = input ? read(reading, input, path, strictly) : UNREADABLE;
    if (log->files.count > files)
        log->files.items[files].corrected = corrected_input_count(corrected);
    corrected_input_close(corrected);
    return found;
}

/* A table, or its cells as the lines of a text log. */
static enum found read_rows(struct reading *reading, struct input *input, const char *path, bool strictly)
{
    if (read_table(reading, input, path))
        return input_failed(input) ? UNREADABLE : READ;
    struct arena *own = arena_new();
    struct input *text = sheet_as_text(own, input, reading->diags);
    enum found found = text ? read_input(reading, text, path, strictly) : UNREADABLE;
    input_close(text);
    arena_free(own);
    return found;
}

enum found read_sheet(struct reading *reading, struct input *input, const char *root)
{
    const char *path = arena_copy(reading->arena, input_name(input));
    size_t files = reading->log->files.count;
    enum found found = read_corrected(reading, input, path, true, corrections_for_log(reading, path, root), read_rows);
    if (reading->log->files.count > files)
        reading->log->files.items[files].is_sheet = true;
    return input_failed(input) ? UNREADABLE : found;
}

struct opening /* of a file that may not be text */
{
    bool is_zip;
    struct file_kind kind;
};

static bool is_no_text(void *context, const unsigned char *bytes, size_t length)
{
    struct opening *opening = context;
    opening->is_zip = file_is_zip(bytes, length);
    opening->kind = file_kind_of(bytes, length);
    return opening->is_zip || opening->kind.what;
}

/* A file that was named gets a line that says what it is; in a folder it only counts as one that is not a log. */
static enum found pass_over(struct reading *reading, const struct log_entry *entry, const struct file_kind *kind)
{
    if (entry->in_folder)
        return NO_LOG;
    diag_add(reading->diags, DIAG_NOT_A_LOG, (struct place){.file = entry->path}, NULL, kind->hint,
             "%s: nothing in it was used", kind->what);
    return READ;
}

static enum found read_zip(struct reading *reading, const struct log_entry *entry)
{
    static const struct file_kind standard = {"a workbook or another archive on standard input",
                                              "save it to a file and pass the file's name"};
    struct file_kind other;
    if (reading->waiting)
        return LATER;
    if (!strcmp(entry->path, "-"))
        return pass_over(reading, entry, &standard);
    switch (read_workbook(reading, entry->path, entry->in_folder, entry->root, &other)) {
    case WORKBOOK_READ:
        return READ;
    case WORKBOOK_HOLDS_NONE:
        return entry->in_folder ? NO_LOG : READ;
    case WORKBOOK_OTHER:
        return pass_over(reading, entry, &other);
    case WORKBOOK_UNREADABLE:
        break;
    }
    return UNREADABLE;
}

enum found log_read_file(struct reading *reading, const struct log_entry *entry)
{
    struct opening opening = {0};
    struct input *input = input_open_unless(reading->arena, entry->path, reading->diags, is_no_text, &opening);
    if (opening.is_zip)
        return read_zip(reading, entry);
    if (opening.kind.what)
        return pass_over(reading, entry, &opening.kind);
    if (!input)
        return UNREADABLE;
    enum found found = read_corrected(reading, input, entry->path, entry->in_folder, entry->corrections, read_input);
    input_close(input);
    return found;
}

/* --- all of them ------------------------------------------------------------------------------------------------- */

static void say_skipped(struct reading *reading, const struct log_entry *folder, const struct log_entry *first)
{
    const char *skipped = NULL;
    size_t count = 0;
    for (const struct log_entry *entry = first; entry < folder; entry++)
        if (entry->kind == ENTRY_NO_FILE || (entry->kind == ENTRY_FILE && entry->found == NO_LOG))
            skipped = count++ ? skipped : entry->path;
    if (count > 1)
        diag_add(reading->diags, DIAG_SKIPPED_FILE, (struct place){.file = folder->path}, NULL, NULL,
                 "%zu files that are not logs were skipped, the first of them %s", count, skipped);
    else if (count)
        diag_add(reading->diags, DIAG_SKIPPED_FILE, (struct place){.file = folder->path}, NULL, NULL,
                 "%s is not a log: skipped", skipped);
}

static bool do_file(struct reading *reading, struct log_entry *entry)
{
    entry->found = entry->read ? log_join(reading, entry) : LATER;
    if (entry->found == LATER)
        entry->found = log_read_file(reading, entry);
    if (entry->found == NO_LOG && !entry->in_folder)
        diag_add(reading->diags, DIAG_NOT_A_LOG, (struct place){.file = entry->path}, NULL, NULL,
                 "neither a CSV export nor a text log: nothing in it was used");
    return entry->found != UNREADABLE;
}

bool read_queued_logs(struct reading *reading)
{
    bool readable = !reading->corrections->unreadable;
    log_read_apart(reading, reading->queue);
    for (size_t i = 0; i < reading->queue->entries.count; i++) {
        struct log_entry *entry = &reading->queue->entries.items[i];
        if (entry->kind == ENTRY_FILE) {
            readable &= do_file(reading, entry);
        } else if (entry->kind == ENTRY_SAY) {
            diag_add(reading->diags, entry->id, (struct place){.file = entry->path}, NULL, NULL, "%s", entry->message);
            readable &= entry->id != DIAG_CANNOT_READ;
        } else if (entry->kind == ENTRY_END_FOLDER) {
            say_skipped(reading, entry, &reading->queue->entries.items[entry->first]);
        }
    }
    log_end_workers(reading, reading->queue);
    reading->queue->entries.count = 0;
    return readable;
}

bool read_log(struct reading *reading, const char *argument)
{
    queue_log(reading, argument);
    return read_queued_logs(reading);
}
