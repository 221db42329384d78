/* How a table is laid out: by its header, and where the header alone does not tell, by its cells. */
#ifndef TAUTLINE_READING_TABLE_LAYOUT_H
#define TAUTLINE_READING_TABLE_LAYOUT_H

#include "reading/table/table_parts.h"

/* Is there a header among the first rows, with rows below it that agree? Sets header, headings and map. */
bool table_find_header(struct table *table, size_t among);

/* Takes that row for the header; false: it is empty. */
bool table_map_header(struct table *table, size_t row);

/* Does a table with these headers need a look at its cells? No: it is one row per set, as it is. */
bool headings_need_table(const struct column_heading *headings, size_t count, const struct column_map *map);

/* Sets how the table is laid out. False: that is not sure, already reported. */
bool table_judge(struct table *table);

#endif
