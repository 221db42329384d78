/* Tables, written as aligned text, CSV (RFC 4180) or JSON (RFC 8259, one object per line) from one list of columns.
 *
 * CSV and JSON rows go straight to the output: a row takes no memory. Text is collected and laid out at the end.
 *
 * CSV is quoted exactly as RFC 4180 says, but lines end in LF, not CRLF: the reader is a Unix script, in which a CR
 * would stick to the last cell. Line breaks inside a cell are kept. */
#ifndef TAUTLINE_WRITING_TABLE_H
#define TAUTLINE_WRITING_TABLE_H

#include "base/date.h"
#include "base/unit.h"
#include "writing/output.h"

#include <math.h>
#include <stdbool.h>
#include <stddef.h>

enum format
{
    FORMAT_TEXT,
    FORMAT_CSV,
    FORMAT_JSON
};

enum cell_kind
{
    CELL_EMPTY, /* nothing in CSV, null in JSON, a middle dot in text */
    CELL_TEXT,
    CELL_NAME,   /* a text that is not freed or changed: in the next row, the same address means the same text */
    CELL_NUMBER, /* "%.9g" in CSV and JSON, fixed decimals in text; empty unless it is finite */
    CELL_COUNT,
    CELL_DAY,
    CELL_WEEK
};

enum quantity
{
    QUANTITY_PLAIN,  /* as it is */
    QUANTITY_LOAD,   /* kg, shown in the output's unit; `kg` in the column's name and title becomes lb. A text cell is
                        taken  for a column's name and renamed alike (the measure of a slope) */
    QUANTITY_SHARE,  /* fraction; text shows per cent, with the sign: 55.0% */
    QUANTITY_SERIES, /* text, a sparkline: shown whole */
    QUANTITY_GEAR    /* text, a load in the notation: people get its masses and lengths in the output's unit */
};

union cell_value
{
    const char *text;
    double number;
    long count; /* or day, or week */
};

struct cell
{
    enum cell_kind kind;
    enum quantity quantity; /* the column's, unless the getter sets another for this row */
    int decimals;           /* in text output; -1: the column's */
    union cell_value value;
};

struct column
{
    const char *name;
    const char *title; /* header in text, in one or more lines; NULL: not shown in text */
    enum quantity quantity;
    int decimals; /* in text */
    /* Fills in this cell, which arrives as CELL_EMPTY. Adjacent columns with the same getter are filled in by a
     * single call. */
    void (*get)(const void *row, struct cell *cell);
};

/* Takes rows instead of an output: a sheet of a workbook. */
struct table_sink
{
    void *context;
    void (*begin)(void *context, const struct column *columns, size_t count,
                  enum mass_unit unit); /* the columns must outlive the sink */
    void (*row)(void *context, const struct cell *cells);
};

struct table_style
{
    enum format format;
    enum mass_unit unit;
    bool spreadsheet_safe; /* a text cell that begins with = + - @ tab or CR gets an apostrophe before it */
    size_t width;          /* of the terminal, for text: the widest text columns are cut to fit; 0: do not cut */
    bool colour;
    const size_t *chosen; /* indexes of the columns to show, in this order; NULL: all. Not for text */
    size_t chosen_count;
    const size_t *spare; /* columns by their place that text leaves out, one after the other, where it is too narrow; a
                            last line names them. The place of --wide, which a user may ask for then */
    size_t spare_count;
    const struct table_sink *sink; /* NULL: rows go to the output, in the format */
};

struct table_writer;
struct table_writer *table_open(struct arena *arena, struct output *output, const struct column *columns, size_t count,
                                const struct table_style *style);
/* Another writer of the same rows in CSV or JSON, without a header, into an output of its own: for one part of the
 * rows. */
struct table_writer *table_part(struct arena *arena, struct output *output, const struct table_writer *whole);
void table_row(struct table_writer *writer, const void *row);
void table_close(struct table_writer *writer); /* text is laid out here */

/* The cells of one row, one per column; valid until the next row. */
struct row_cells;
struct row_cells *row_cells_new(struct arena *arena, const struct column *columns, size_t count);
const struct cell *row_cells_get(struct row_cells *cells, const void *row);
/* A cell as text for people: "" where it is empty, else borrowed from the row, the arena or the buffer. */
#define CELL_BYTES 400 /* a double has at most 309 digits before its decimal point */
const char *cell_for_people(struct arena *arena, const struct column *column, const struct cell *cell,
                            enum mass_unit unit, char buffer[CELL_BYTES], bool *is_number);

/* NULL or "": empty. Borrowed until the row is written; for names see CELL_NAME. */
static inline void cell_text(struct cell *cell, const char *text)
{
    cell->kind = text && *text ? CELL_TEXT : CELL_EMPTY;
    cell->value.text = cell->kind == CELL_TEXT ? text : NULL;
}

static inline void cell_name(struct cell *cell, const char *text)
{
    cell->kind = text && *text ? CELL_NAME : CELL_EMPTY;
    cell->value.text = text;
}

static inline void cell_number(struct cell *cell, double value) /* NAN: empty */
{
    cell->kind = isfinite(value) ? CELL_NUMBER : CELL_EMPTY;
    cell->value.number = value;
}

static inline void cell_count(struct cell *cell, long value)
{
    cell->kind = CELL_COUNT;
    cell->value.count = value;
}

static inline void cell_day(struct cell *cell, day_number day) /* NO_DAY: empty */
{
    cell->kind = day == NO_DAY ? CELL_EMPTY : CELL_DAY;
    cell->value.count = day;
}

static inline void cell_week(struct cell *cell, week_number week)
{
    cell->kind = CELL_WEEK;
    cell->value.count = week;
}

/* The column's name as it is written; owned by the arena or the column. */
const char *column_name(struct arena *arena, const struct column *column, enum mass_unit unit);
/* Replaces each separate `kg` in a name or title (not within a word; `_` separates words) with the unit's name. */
char *name_in_unit(struct arena *arena, const char *name, enum mass_unit unit);

#endif
