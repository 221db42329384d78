/* Cells of tables as cells of a sheet. */
#ifndef TAUTLINE_WRITING_WORKBOOK_SHEET_CELLS_H
#define TAUTLINE_WRITING_WORKBOOK_SHEET_CELLS_H

#include "writing/table.h"

#include <xlsxwriter.h>

#define SHEET_DECIMALS 4

struct sheet_formats
{
    lxw_format *header, *heading, *paragraph, *day, *share;
    lxw_format *number[SHEET_DECIMALS + 1]; /* indexed by the number of decimals */
};

void sheet_formats_make(struct sheet_formats *formats, lxw_workbook *book);

/* A column's name as a sheet's header, with its unit: straight_kg becomes "Straight (kg)". Owned by the arena. */
char *sheet_title(struct arena *arena, const struct column *column, enum mass_unit unit);

/* Returns roughly how wide the cell is shown, in characters; an empty cell is not written. A week is written as the
 * date of its Monday. */
size_t sheet_put_cell(lxw_worksheet *sheet, const struct sheet_formats *formats, uint32_t row, lxw_col_t at,
                      const struct column *column, const struct cell *cell, enum mass_unit unit);
/* Text, cut to the limit of a cell. */
size_t sheet_put_text(lxw_worksheet *sheet, uint32_t row, lxw_col_t at, const char *text, lxw_format *format);

#endif
