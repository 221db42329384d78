/* A workbook (.xlsx) of tables, through libxlsxwriter: a sheet for each, with numbers as numbers, days as dates,
 * frozen headers with filters, and the settings for printing: A4 landscape, one page wide. Text stays text, whatever
 * it begins with.
 *
 * The library can only write to a named file: the workbook is made as a temporary file, in TMPDIR or /tmp, and then
 * copied to an output, so that it is whole or absent like all output. */
#ifndef TAUTLINE_WRITING_WORKBOOK_BOOK_FILE_H
#define TAUTLINE_WRITING_WORKBOOK_BOOK_FILE_H

#include "base/date.h"
#include "writing/table.h"

struct book_file;
struct book_sheet;

struct book_about
{
    const char *title, *program; /* "tautline 1.0.0" */
    day_number made;             /* a fixed date, so that the same logs make the same bytes */
    bool large;                  /* has many rows: they are kept in temporary files, not in memory */
};

/* NULL: no temporary file can be made; errno says why. */
struct book_file *book_file_new(struct arena *arena, const struct book_about *about);
/* Copies the workbook to the output. False: it could not be written, errno says why. Either way, no temporary file is
 * left behind. */
bool book_file_end(struct book_file *file, struct output *output);

/* A sheet of rows, for table_style. Rows beyond its limit go into another sheet, "Sets 2". */
struct book_sheet *book_sheet_new(struct book_file *file, const char *name);
struct table_sink book_sheet_sink(struct book_sheet *sheet);
/* Sets the last sheet's filters, widths and print options: call it when it has all of its rows. */
void book_sheet_end(struct book_sheet *sheet);

/* Finds runs of rows in which the first `columns` cells have the same text. Call it before adding rows; applies to
 * the first sheet only. */
void book_sheet_group_by(struct book_sheet *sheet, size_t columns);
struct book_group
{
    const char *key; /* "Oda, squat, speed" */
    uint32_t first, last;
};
const struct book_group *book_sheet_groups(const struct book_sheet *sheet, size_t *count);

/* A sheet for people: headings, rows of a few cells, paragraphs, charts. */
struct book_page;
struct book_page *book_page_new(struct book_file *file, const char *name);
void book_page_heading(struct book_page *page, const char *text);
#define BOOK_PAGE_COLUMNS 8 /* the first two are wide */
void book_page_row(struct book_page *page, const struct cell *cells, size_t count, enum mass_unit unit);
void book_page_paragraph(struct book_page *page, const char *text);

struct book_chart
{
    const char *title, *unit;
    bool bars;                   /* false: lines */
    const struct book_sheet *of; /* the sheet that has its numbers */
    struct book_group rows;
    size_t category;       /* the column for the horizontal axis */
    const size_t *columns; /* one series each */
    size_t count;
};
void book_page_chart(struct book_page *page, const struct book_chart *chart);

#endif
