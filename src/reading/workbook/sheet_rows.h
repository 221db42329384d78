/* The rows of one sheet as CSV records, one line each, so that all code that reads exports can read sheets too: a
 * line's number is its row's.
 *
 * Cells come in the order of rows and columns. A line break within a cell is written as U+2028 (LINE SEPARATOR),
 * which keeps a row on one line; csv_rows turns it back into a line break. Rows that were left out are empty lines;
 * so is a row whose values are not known, which is refused here. Records have as many cells as the widest row so far,
 * up to SHEET_PADDED, so that a row whose last cells are empty is not too short.
 *
 * Merged cells: the value of the first one applies to the cells below it, in rows that are not empty; those to its
 * right stay empty, because a title over several columns does not describe each of them. */
#ifndef TAUTLINE_READING_WORKBOOK_SHEET_ROWS_H
#define TAUTLINE_READING_WORKBOOK_SHEET_ROWS_H

#include "base/arena.h"
#include "base/diag.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define SHEET_ROWS ((uint32_t)1048576)           /* rows of a sheet */
#define SHEET_COLUMNS ((uint32_t)4096)           /* highest column in which a cell may hold something */
#define SHEET_CELLS ((uint64_t)16 * 1024 * 1024) /* cells that hold something, counting repeated ones separately */
#define SHEET_TEXT_BYTES ((uint64_t)256 * 1024 * 1024)    /* of all rows */
#define SHEET_ROW_BYTES ((size_t)1024 * 1024 - 64 * 1024) /* of one row: within INPUT_LINE_LIMIT after quoting */
#define SHEET_MERGED ((size_t)100000)                     /* ranges of merged cells */
#define SHEET_PADDED ((uint32_t)128)
#define SHEET_LINE_BREAK "\xE2\x80\xA8"

struct merged_cells /* one range; rows and columns from 1 */
{
    uint32_t first_row, last_row, column; /* its first column */
};

struct sheet_rows;

/* `name`: the sheet's, as in messages (year.xlsx:March); borrowed. */
struct sheet_rows *sheet_rows_new(const char *name, struct diags *diags);
void sheet_rows_free(struct sheet_rows *rows); /* NULL is allowed */

/* Adds a range, in the order of first rows, before its first row ends. */
void sheet_merge(struct sheet_rows *rows, const struct merged_cells *range);

/* Each returns false if something is wrong with the sheet; none of it may be used then: see sheet_failure(). */
bool sheet_begin_row(struct sheet_rows *rows, uint32_t row);
/* Adds a cell to the row, in rising order of columns; empty ones may be left out. `repeated`: how many copies there
 * are, side by side. */
bool sheet_add_cell(struct sheet_rows *rows, uint32_t column, uint32_t repeated, const char *text, size_t length);
/* The cell in this column is a formula without a stored value: its row is refused. */
void sheet_unknown_value(struct sheet_rows *rows, uint32_t column);
bool sheet_end_row(struct sheet_rows *rows, uint32_t repeated);
const char *sheet_failure(const struct sheet_rows *rows, enum diag_id *id);

/* Bytes that can be read; if there are more than SHEET_WAITING, read them before adding more rows. */
#define SHEET_WAITING ((size_t)128 * 1024)
size_t sheet_waiting(const struct sheet_rows *rows);
size_t sheet_take(struct sheet_rows *rows, char *to, size_t room);

uint32_t sheet_refused(const struct sheet_rows *rows); /* rows refused so far, already reported */
uint32_t sheet_filled(const struct sheet_rows *rows);  /* rows so far in which a cell got the value of a merged one */

#endif
