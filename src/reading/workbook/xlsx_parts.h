/* The structure of an .xlsx workbook: its sheets, its epoch, and where its other parts are. ECMA-376, part 1, 18.2
 * and 12.3; part 2, 9.3. */
#ifndef TAUTLINE_READING_WORKBOOK_XLSX_PARTS_H
#define TAUTLINE_READING_WORKBOOK_XLSX_PARTS_H

#include "reading/workbook/archive.h"

#define XLSX_SHEETS ((size_t)256)

struct xlsx_sheet_part
{
    const char *name, *part; /* as it is shown; the member's name. NULL: not a sheet of cells, for example a chart */
    bool hidden;
};

struct xlsx_parts
{
    LIST(struct xlsx_sheet_part) sheets;
    const char *styles, *strings; /* members' names; NULL: there is none */
    bool epoch_1904;
};

/* False: see *why. All text is owned by the arena. */
bool xlsx_parts_read(struct arena *arena, struct archive *archive, struct xlsx_parts *parts, const char **why,
                     enum diag_id *id);

/* Resolves a target in the part `base` to a member's name: "../sheets/a.xml" in "xl/workbook.xml" is "sheets/a.xml". */
char *part_path(struct arena *arena, const char *base, const char *target);

#endif
