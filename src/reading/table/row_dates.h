/* The date of a table's row: from its column, or from a week and a day. */
#ifndef TAUTLINE_READING_TABLE_ROW_DATES_H
#define TAUTLINE_READING_TABLE_ROW_DATES_H

#include "reading/table/made_row.h"

/* The Monday of week 1, from the user or the gym file. */
day_number table_first_monday(const struct table *table);

const char *row_day_text(struct maker *maker, day_number day); /* YYYY-MM-DD, valid until the next row */

/* Gives the made row its date; if dates are column headers, the column gives it, and if dates have rows of their own,
 * the CSV reader remembers it. False: a week or day cannot be read, already reported. */
bool row_take_date(struct maker *maker);

#endif
