/* The cells of one sheet of an .xlsx workbook as rows, a piece at a time. ECMA-376, part 1, 18.3. */
#ifndef TAUTLINE_READING_WORKBOOK_XLSX_SHEET_H
#define TAUTLINE_READING_WORKBOOK_XLSX_SHEET_H

#include "reading/workbook/archive.h"
#include "reading/workbook/sheet_rows.h"
#include "reading/workbook/xlsx_tables.h"

struct xlsx_sheet;

/* Gives the rows the ranges of merged cells: these come after the cells, so the part is first scanned once. False:
 * see *why. */
bool xlsx_sheet_find_merged(struct arena *arena, struct archive *archive, const char *part, struct sheet_rows *rows,
                            const char **why, enum diag_id *id);

/* NULL: see *why. The arguments are borrowed. */
struct xlsx_sheet *xlsx_sheet_open(struct arena *arena, struct archive *archive, const char *part,
                                   const struct xlsx_tables *tables, bool epoch_1904, struct sheet_rows *rows,
                                   const char **why, enum diag_id *id);
void xlsx_sheet_close(struct xlsx_sheet *sheet); /* NULL is allowed */
/* Reads more rows, until there are enough to be read. False: there are no more; *why is NULL at the end of the
 * sheet. */
bool xlsx_sheet_step(struct xlsx_sheet *sheet, struct arena *arena, const char **why, enum diag_id *id);

/* "C14": a cell's column and row, from 1. Returns what follows; NULL: not a cell. */
const char *cell_reference(const char *text, uint32_t *column, uint32_t *row);

#endif
