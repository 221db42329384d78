/* Access to a record's cells, and messages about them. */
#ifndef TAUTLINE_READING_CSV_SAY_H
#define TAUTLINE_READING_CSV_SAY_H

#include "reading/csv/csv_log.h"

struct log_file *csv_file(struct csv_log *log);
const char *csv_skip_blanks(const char *text);
bool csv_is_empty(const char *text); /* only blanks, or a single dash */
bool csv_find_cell(const struct csv_log *log, enum log_field field, struct csv_cell *cell);

/* The first non-empty cell of a field's columns; false: none. A single dash counts as empty. This is called for
 * twenty fields per record: fields without a column, empty cells of the only column, and cells that begin with a
 * letter or digit are handled inline. */
static inline bool csv_cell(const struct csv_log *log, enum log_field field, struct csv_cell *cell)
{
    const struct csv_row *row = log->row;
    size_t columns = log->map.of[field].count;
    if (!columns)
        return false;
    const struct column_use *use = log->map.of[field].items;
    if (use->index >= row->count)
        return csv_find_cell(log, field, cell);
    const char *text = row->cells[use->index];
    if (!*text && columns == 1)
        return false;
    if ((signed char)*text <= '-') /* empty, blank, a dash, or not ASCII */
        return csv_find_cell(log, field, cell);
    *cell = (struct csv_cell){text, row->lengths[use->index], use->index, use};
    return true;
}

void csv_memo_fill(struct csv_memo *memo, const struct csv_cell *cell); /* does not remember a cell that is too long */
struct csv_lift *csv_new_lift(struct csv_log *log, uint32_t number);

static inline struct csv_lift *csv_lift(struct csv_log *log, uint32_t number)
{
    bool known = number < log->lifts.count && log->lifts.items[number].asked;
    return known ? &log->lifts.items[number] : csv_new_lift(log, number);
}

struct csv_lifter *csv_lifter(struct csv_log *log, uint32_t number);

/* The place of a made row's cell, in the original row. */
struct place csv_place(const struct csv_log *log, size_t cell);

/* All physical lines of a record of the input; NULL: no longer available. A quote that is never closed extends to the
 * end of the available text. */
const char *csv_record_text(struct input *input, struct arena *scratch, const struct csv_row *row);

/* Reports a message about the record, at one of its cells; `hint` NULL: the usual one. */
void csv_say(struct csv_log *log, enum diag_id id, size_t cell, const char *hint, const char *format, ...)
    __attribute__((format(printf, 5, 6)));

/* The same for a message that is reported once per `text` of a cell in a file, however many workers read chunks of
 * it. */
void csv_say_once(struct csv_log *log, const char *text, enum diag_id id, size_t cell, const char *format, ...)
    __attribute__((format(printf, 5, 6)));

/* The same for a message that refuses the record; returns false. */
bool csv_refuse(struct csv_log *log, enum diag_id id, size_t cell, const char *hint, const char *format, ...)
    __attribute__((format(printf, 5, 6)));

/* The same with a load reader's fault, at its place within the cell. */
bool csv_refuse_fault(struct csv_log *log, size_t cell, const struct load_fault *fault);

/* Refuses the file as a whole. */
void csv_fail(struct csv_log *log, enum diag_id id, uint32_t line, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

#endif
