/* How a table is laid out: from its header, and if the header is not enough, from its cells. */
#ifndef TAUTLINE_READING_TABLE_LAYOUT_H
#define TAUTLINE_READING_TABLE_LAYOUT_H

#include "reading/table/table_parts.h"

/* Is there a header among the first rows, with rows below it that fit? Sets header, headings and map. */
bool table_find_header(struct table *table, size_t among);

/* Uses that row as the header; false: it is empty. */
bool table_map_header(struct table *table, size_t row);

/* Must the cells of a table with these headers be looked at? If not, it has one row per set. */
bool headings_need_table(const struct column_heading *headings, size_t count, const struct column_map *map);

/* Determines how the table is laid out. False: that is not certain, already reported. */
bool table_judge(struct table *table);

#endif
