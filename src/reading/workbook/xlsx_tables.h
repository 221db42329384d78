/* What the cells of an .xlsx workbook refer to: its shared strings and its number formats. ECMA-376, part 1, 18.4 and
 * 18.8. */
#ifndef TAUTLINE_READING_WORKBOOK_XLSX_TABLES_H
#define TAUTLINE_READING_WORKBOOK_XLSX_TABLES_H

#include "reading/workbook/number_format.h"
#include "reading/workbook/xlsx_parts.h"

#define XLSX_STRING_BYTES ((size_t)32 * 1024 * 1024)
#define XLSX_STRINGS ((size_t)2 * 1024 * 1024)
#define XLSX_STYLES ((size_t)65536)

struct xlsx_tables
{
    struct
    {
        char *bytes;
        size_t used, room;
    } text;
    LIST(uint32_t) ends;                /* end of each string in `text`: it begins where the one before ends */
    LIST(struct number_format) formats; /* of each cell style */
};

/* If a workbook lacks one of the parts, its table is empty. False: see *why. */
bool xlsx_tables_read(struct arena *arena, struct archive *archive, const struct xlsx_parts *parts,
                      struct xlsx_tables *tables, const char **why, enum diag_id *id);

/* NULL: there is no such string. Not NUL-terminated. */
const char *xlsx_string(const struct xlsx_tables *tables, size_t number, size_t *length);

/* Decodes the notation of OOXML for characters that XML does not allow: _x000D_ is a carriage return. In place;
 * returns the length. */
size_t xlsx_unescape(char *text, size_t length);

#endif
