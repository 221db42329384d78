/* Messages about a table's layout. */
#ifndef TAUTLINE_READING_TABLE_LAYOUT_SAY_H
#define TAUTLINE_READING_TABLE_LAYOUT_SAY_H

#include "reading/table/table_parts.h"

const char *layout_name(enum layout_kind kind, enum layout_dates dates);

/* Each of these reports why the table is refused, and returns false. */
bool layout_say_two(struct table *table, const struct layout *one, const struct layout *other);
bool layout_say_none(struct table *table, const struct layout *layouts, size_t count);
bool layout_say_no_start(struct table *table);

const char *layout_describe(struct table *table); /* column by column; owned by the log */

/* Reports columns that are not recognised but whose headers name chains or bands: call it after the table is read. */
void layout_say_unread(const struct table *table);

#endif
