/* Workbooks (.xlsx, .ods) as inputs, one for each sheet: its rows are CSV records, one per line
 * (workbook/sheet_rows.h).
 *
 * Values are read, not formulas; dates and times by number format. A workbook is read a piece at a time: for an .xlsx
 * its shared strings are kept in memory, for an .ods only what was not read yet. A fault is reported where it is
 * noticed, in one line. */
#ifndef TAUTLINE_READING_WORKBOOK_WORKBOOK_H
#define TAUTLINE_READING_WORKBOOK_WORKBOOK_H

#include "base/diag.h"
#include "reading/input/input.h"
#include "reading/workbook/file_kind.h"

struct workbook;

struct sheet
{
    const char *name;
    bool hidden;
    struct input *input; /* the workbook's: valid until the next sheet. NULL: it cannot be read, already reported */
    const char *path;    /* year.xlsx:March, which is the input's name */
};

/* `path`: of a zip archive. NULL: it is something else, see `*other`; or it cannot be read, which was reported, and
 * `other->what` is NULL. */
struct workbook *book_open(struct arena *arena, const char *path, struct diags *diags, struct file_kind *other);
/* The same for bytes in memory, borrowed until book_close. */
struct workbook *book_from_memory(struct arena *arena, const char *path, const char *bytes, size_t length,
                                  struct diags *diags, struct file_kind *other);
void book_close(struct workbook *workbook); /* NULL is allowed */

/* False: there are no more, or the workbook is damaged from here on: see book_failed(). */
bool book_next_sheet(struct workbook *workbook, struct sheet *sheet);
bool book_failed(const struct workbook *workbook); /* already reported */
/* For the current sheet: rows refused so far, which their reader has not seen. */
uint32_t book_refused(const struct workbook *workbook);

#endif
