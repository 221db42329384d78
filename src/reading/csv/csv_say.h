/* A record's cells, and what is said about them. */
#ifndef TAUTLINE_READING_CSV_SAY_H
#define TAUTLINE_READING_CSV_SAY_H

#include "reading/csv/csv_log.h"

struct log_file *csv_file(struct csv_log *log);
const char *csv_skip_blanks(const char *text);
bool csv_is_empty(const char *text); /* blanks only, or a lone dash */
bool csv_find_cell(const struct csv_log *log, enum log_field field, struct csv_cell *cell);

/* The first non-empty cell of a field's columns; false: none. A lone dash is empty. A record asks for twenty fields:
 * those without a column, empty cells of the only one, and what begins with a letter or digit are seen here without a
 * call. */
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
    if ((signed char)*text <= '-') /* empty, blank, a dash, or no ASCII */
        return csv_find_cell(log, field, cell);
    *cell = (struct csv_cell){text, row->lengths[use->index], use->index, use};
    return true;
}

void csv_memo_fill(struct csv_memo *memo, const struct csv_cell *cell); /* not with a cell that is too long for it */
struct csv_lift *csv_new_lift(struct csv_log *log, uint32_t number);

static inline struct csv_lift *csv_lift(struct csv_log *log, uint32_t number)
{
    bool known = number < log->lifts.count && log->lifts.items[number].asked;
    return known ? &log->lifts.items[number] : csv_new_lift(log, number);
}

struct csv_lifter *csv_lifter(struct csv_log *log, uint32_t number);

/* The place of a cell of a made row in the row that it was made of. */
struct place csv_place(const struct csv_log *log, size_t cell);

/* All physical lines of a record of the input; NULL: no longer there. A quote that never closes takes all there is of
 * the file at hand. */
const char *csv_record_text(struct input *input, struct arena *scratch, const struct csv_row *row);

/* Says something about the record at one of its cells; `hint` NULL: the list's. */
void csv_say(struct csv_log *log, enum diag_id id, size_t cell, const char *hint, const char *format, ...)
    __attribute__((format(printf, 5, 6)));

/* The same for what is said once in the file of a cell's `text`, however many workers read chunks of it. */
void csv_say_once(struct csv_log *log, const char *text, enum diag_id id, size_t cell, const char *format, ...)
    __attribute__((format(printf, 5, 6)));

/* The same, for what refuses the record; returns false. */
bool csv_refuse(struct csv_log *log, enum diag_id id, size_t cell, const char *hint, const char *format, ...)
    __attribute__((format(printf, 5, 6)));

/* The same for a load reader's reason, at its place within the cell. */
bool csv_refuse_fault(struct csv_log *log, size_t cell, const struct load_fault *fault);

/* Refuses the file as a whole. */
void csv_fail(struct csv_log *log, enum diag_id id, uint32_t line, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

#endif
