/* Tables as people keep them: a stage between rows of cells and sets.
 *
 * Whoever reads a table gives its rows in order, and the stage finds the header, judges how the table is laid out
 * (layout.h) and reads its sets: one row at a time it makes rows of one set each (sets.h), which the reader of exports
 * takes like rows of an export (csv/csv_log.h). Columns, cells and loads need not know of layouts. Tables of one row
 * per set in a text file do not come here unless a word of their header asks for a look at the cells: they go from
 * record to set at once (csv/csv_log.c).
 *
 * A sheet of a workbook is given like this; a cell's text is what a person reads in it:
 *
 *     struct table_origin origin = {.path = "year.xlsx:March", .name = "March", .sheet = true, .decimal = '.'};
 *     struct table *table = table_new(reading, &origin);
 *     for each row that is not empty:    table_add(table, &row);
 *     if (table_is_log(table))           table_read(table, file);   -- file: the number of its entry in
 * reading->log->files else                               ... no table: a text log of its lines, or no log
 *     table_free(table);
 *
 * Places in messages: `line` is the row's number and `column` that of the cell, from 1, with `sheet` set in struct
 * place, so that they are printed as year.xlsx:March!C14. */
#ifndef TAUTLINE_READING_TABLE_TABLE_H
#define TAUTLINE_READING_TABLE_TABLE_H

#include "reading/log_reader.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct table_origin
{
    const char *path;     /* names the table in messages; lives as long as the diagnostics */
    const char *name;     /* the sheet's, which may hold a year; NULL: the path's last part may */
    const char *encoding; /* of a text file; NULL: none to tell */
    char delimiter;       /* of a text file; 0: the rows were never text */
    char decimal;         /* '.' or ',' where it is known; 0: the numbers tell */
    bool sheet;           /* places are those of a sheet: row and column, no characters */
};

struct table_row
{
    uint32_t line;  /* in messages: the record's first physical line, or the sheet's row; rises from row to row, and a
                       gap is blank rows */
    uint32_t lines; /* physical lines it takes; 1 in a sheet */
    size_t count;   /* cells; trailing empty ones may be left out */
    const char *const *cells; /* UTF-8, NUL-terminated; "" is an empty cell. A date is YYYY-MM-DD; line breaks are LF */
    const size_t *lengths;    /* bytes, more than strlen where a NUL byte is in the cell; NULL: there is none */
    const char *record; /* the row as messages and corrections show it: all its physical lines, or its cells as CSV */
    bool open_quote;    /* of a text file: its last record, whose quote never closes */
    bool too_long;      /* of a text file: a line beyond INPUT_LINE_LIMIT, without cells */
};

struct table;

struct table *table_new(struct reading *reading, const struct table_origin *origin);
void table_free(struct table *table);

/* Everything is copied. */
void table_add(struct table *table, const struct table_row *row);

/* Is one of the first 20 rows a header of a log, with rows below it that agree? Says nothing. */
bool table_is_log(struct table *table);

/* Reads the table into reading->log. False: refused as a whole, already reported. */
bool table_read(struct table *table, uint32_t file);

/* The header's row, from 0; SIZE_MAX: none was found. */
size_t table_header_row(const struct table *table);

/* Every cell below the header that is not empty is counted in one of these, and in one only. */
struct table_cells
{
    size_t read, aside, ignored, refused;
};
struct table_cells table_cells(const struct table *table); /* after table_read() */

#endif
