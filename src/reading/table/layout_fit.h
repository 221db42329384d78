/* How well the cells of a table fit a layout. */
#ifndef TAUTLINE_READING_TABLE_LAYOUT_FIT_H
#define TAUTLINE_READING_TABLE_LAYOUT_FIT_H

#include "reading/table/table_parts.h"

/* Finds the decimal sign, and whether a column headed "effort" holds RPE. */
void table_find_numbers(struct table *table);

struct layout_fit layout_fit(const struct table *table, const struct layout *layout);

/* For a column: how many of its cells are items, sessions, repetitions. */
struct layout_fit column_items(const struct table *table, size_t column);
struct layout_fit column_sessions(const struct table *table, size_t column);
struct layout_fit column_reps(const struct table *table, size_t column);

bool fit_is_good(const struct layout_fit *fit); /* at least 80 of 100, and at least two cells */

/* Where the dates of a table are; does not consider dates in the header. */
enum layout_dates table_find_dates(struct table *table);

#endif
