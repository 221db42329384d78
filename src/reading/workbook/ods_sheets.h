/* The sheets of an .ods workbook, one after the other from the one part that holds them all. OpenDocument 1.3, part
 * 3, 9 and 19.385. */
#ifndef TAUTLINE_READING_WORKBOOK_ODS_SHEETS_H
#define TAUTLINE_READING_WORKBOOK_ODS_SHEETS_H

#include "reading/workbook/archive.h"
#include "reading/workbook/sheet_rows.h"

struct ods_sheets;

/* NULL: see *why. */
struct ods_sheets *ods_sheets_open(struct arena *arena, struct archive *archive, const char **why, enum diag_id *id);
void ods_sheets_close(struct ods_sheets *sheets); /* NULL is allowed */

/* Moves to the next sheet, past the rest of the one before. False: there is none; *why is NULL at the end. `*name` is
 * owned by the arena. */
bool ods_sheets_next(struct ods_sheets *sheets, struct arena *arena, const char **name, bool *hidden, const char **why,
                     enum diag_id *id);
/* Where the rows of this sheet go; NULL: they are dropped. Borrowed until the next sheet. */
void ods_sheets_fill(struct ods_sheets *sheets, struct sheet_rows *rows);
/* Reads some more rows. False: there are no more; *why is NULL at the end of the sheet. */
bool ods_sheets_step(struct ods_sheets *sheets, struct arena *arena, const char **why, enum diag_id *id);

#endif
