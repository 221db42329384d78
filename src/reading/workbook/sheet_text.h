/* A sheet as the lines of a text log: each row's cells, joined by blanks. */
#ifndef TAUTLINE_READING_WORKBOOK_SHEET_TEXT_H
#define TAUTLINE_READING_WORKBOOK_SHEET_TEXT_H

#include "reading/input/input.h"

/* `sheet`: an input of a sheet, from which nothing was read yet; borrowed until the result is closed. NULL: it
 * failed, already reported. */
struct input *sheet_as_text(struct arena *arena, struct input *sheet, struct diags *diags);

#endif
