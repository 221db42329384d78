/* Tables, written as aligned text, CSV (RFC 4180) or JSON (RFC 8259, one object a line) from one list of columns. */
#ifndef TAUTLINE_WRITING_TABLE_H
#define TAUTLINE_WRITING_TABLE_H

#include "base/date.h"
#include "base/unit.h"
#include "writing/output.h"

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
    CELL_EMPTY,
    CELL_TEXT,
    CELL_NUMBER, /* NAN is empty */
    CELL_COUNT,
    CELL_DAY,
    CELL_WEEK
};

struct cell
{
    enum cell_kind kind;
    const char *text;
    double number;
    long count;
    int decimals; /* for text output; -1: the column's */
};

enum quantity
{
    QUANTITY_PLAIN, /* as it is */
    QUANTITY_LOAD,  /* kg, shown in the output's unit; the column's name ends in _kg, which becomes _lb */
    QUANTITY_SHARE  /* fraction; text shows per cent */
};

struct column
{
    const char *name;
    const char *title; /* for text; NULL: not shown in text */
    enum quantity quantity;
    int decimals; /* in text */
    void (*get)(const void *row, struct cell *cell); /* cell comes as CELL_EMPTY */
};

struct table_style
{
    enum format format;
    enum mass_unit unit;
    bool spreadsheet_safe; /* a text cell that begins with = + - @ tab or CR gets an apostrophe before it */
    size_t width;          /* of the terminal, for text; 0: do not cut */
    bool colour;
};

struct table_writer;
struct table_writer *table_open(struct arena *arena, struct output *output, const struct column *columns, size_t count,
                                const struct table_style *style);
void table_row(struct table_writer *writer, const void *row);
void table_close(struct table_writer *writer); /* text is laid out here */

void cell_text(struct cell *cell, const char *text); /* NULL or "": empty */
void cell_number(struct cell *cell, double value);   /* NAN: empty */
void cell_count(struct cell *cell, long value);
void cell_day(struct cell *cell, day_number day);    /* NO_DAY: empty */
void cell_week(struct cell *cell, week_number week);

#endif
