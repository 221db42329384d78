/* The rows of a table, stored until their layout is known. */
#ifndef TAUTLINE_READING_TABLE_TABLE_ROWS_H
#define TAUTLINE_READING_TABLE_TABLE_ROWS_H

#include "reading/table/table_parts.h"

const char *table_cell(const struct table *table, size_t row,
                       size_t column); /* "" beyond the row's end, and for blanks and a single dash */
bool table_row_is_blank(const struct table *table, size_t row);

/* If the row holds only a date, with or without words after it: its column; NO_COLUMN: it is not such a row. */
size_t table_date_row(const struct table *table, size_t row);

#endif
