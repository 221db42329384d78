/* Tables as people keep them: a stage between rows of cells and sets.
 *
 * The caller passes on a table's rows in order. This stage finds the header, determines how the table is laid out
 * (layout.h) and reads its sets: one row at a time it makes rows of one set each (sets.h), which the reader of exports
 * treats like rows of an export (csv/csv_log.h). Columns, cells and loads need not know about layouts. A table with one
 * row per set in a text file does not come here unless a word of its header makes a look at the cells necessary: its
 * records are turned into sets directly (csv/csv_log.c).
 *
 * A sheet of a workbook is passed on like this; a cell's text is what a person would read in it:
 *
 *     struct table_origin origin = {.path = "year.xlsx:March", .name = "March", .sheet = true, .decimal = '.'};
 *     struct table *table = table_new(reading, &origin);
 *     table_add(table, &row);                                for each row that is not empty
 *     if (table_is_log(table)) table_read(table, file);      file: the number of its entry in reading->log->files
 *     else ...                                               not a table: a text log of its lines, or not a log
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
    const char *path;     /* names the table in messages; must live as long as the diagnostics */
    const char *name;     /* the sheet's, which may contain a year; NULL: use the last part of the path */
    const char *encoding; /* of a text file; NULL: not a text file */
    char delimiter;       /* of a text file; 0: the rows did not come from text */
    char decimal;         /* '.' or ',' if known; 0: determined from the numbers */
    bool sheet;           /* places are given as in a sheet: row and column, without characters */
};

struct table_row
{
    uint32_t line;  /* in messages: the record's first physical line, or the sheet's row; rises from row to row, and a
                       gap means blank rows */
    uint32_t lines; /* number of physical lines; 1 in a sheet */
    size_t count;   /* cells; trailing empty ones may be left out */
    const char *const *cells; /* UTF-8, NUL-terminated; "" is an empty cell. A date is YYYY-MM-DD; line breaks are LF */
    const size_t *lengths;    /* bytes, more than strlen if the cell contains a NUL; NULL: none does */
    const char *record; /* the row as messages and corrections show it: all its physical lines, or its cells as CSV */
    bool open_quote;    /* of a text file: its last record, whose quote never closes */
    bool too_long;      /* of a text file: a line beyond INPUT_LINE_LIMIT, without cells */
};

struct table;

struct table *table_new(struct reading *reading, const struct table_origin *origin);
void table_free(struct table *table);

/* Copies everything. */
void table_add(struct table *table, const struct table_row *row);

/* Is one of the first 20 rows a header of a log, with rows below it that fit? Reports nothing. */
bool table_is_log(struct table *table);

/* Reads the table into reading->log. False: refused as a whole, already reported. */
bool table_read(struct table *table, uint32_t file);

/* Index of the header's row; SIZE_MAX: none was found. */
size_t table_header_row(const struct table *table);

/* Every cell below the header that is not empty is counted in exactly one of these. */
struct table_cells
{
    size_t read, aside, ignored, refused;
};
struct table_cells table_cells(const struct table *table); /* valid after table_read() */

#endif
