/* Turns a row of a table into rows of one set each. */
#ifndef TAUTLINE_READING_TABLE_SETS_H
#define TAUTLINE_READING_TABLE_SETS_H

#include "reading/table/made_row.h"

/* Is a column of this field, without a number, used in the table's layout? */
bool table_uses_field(const struct table *table, enum log_field field);

/* Reads all rows below the header into the log. */
void table_read_sets(struct table *table, struct csv_log *log);

#endif
