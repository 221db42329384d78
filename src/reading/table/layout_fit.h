/* How well the cells of a table agree with a layout. */
#ifndef TAUTLINE_READING_TABLE_LAYOUT_FIT_H
#define TAUTLINE_READING_TABLE_LAYOUT_FIT_H

#include "reading/table/table_parts.h"

/* The decimal sign, and whether a column headed "effort" holds RPE. */
void table_find_numbers(struct table *table);

struct layout_fit layout_fit(const struct table *table, const struct layout *layout);

/* Of a column: how many of its cells are items, sessions, repetitions. */
struct layout_fit column_items(const struct table *table, size_t column);
struct layout_fit column_sessions(const struct table *table, size_t column);
struct layout_fit column_reps(const struct table *table, size_t column);

bool fit_is_good(const struct layout_fit *fit); /* 80 of 100, and two cells at least */

/* Where the dates of a table are; a header full of dates is not looked for. */
enum layout_dates table_find_dates(struct table *table);

#endif
