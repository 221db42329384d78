/* Workbooks made in memory, member by member. */
#ifndef TAUTLINE_TESTS_MADE_WORKBOOK_H
#define TAUTLINE_TESTS_MADE_WORKBOOK_H

#include "base/arena.h"

struct made_member
{
    const char *name, *text; /* NULL: the list's end */
};

/* A zip archive of the members, deflated. The arena owns it. */
char *made_archive(struct arena *arena, const struct made_member *members, size_t *length);

/* An .xlsx with one sheet, March; `data` stands within <worksheet>. NULL: no such part. `properties`: of workbookPr,
 * such as date1904="1". */
char *made_xlsx(struct arena *arena, const char *data, const char *strings, const char *styles, const char *properties,
                size_t *length);
/* An .ods; `tables` stands within <office:spreadsheet>, `styles` within <office:automatic-styles>. */
char *made_ods(struct arena *arena, const char *tables, const char *styles, size_t *length);

#define MADE_MAIN "xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\""

#endif
