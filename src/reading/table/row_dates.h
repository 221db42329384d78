/* The date of a row of a table: of its column, or of a week and a day. */
#ifndef TAUTLINE_READING_TABLE_ROW_DATES_H
#define TAUTLINE_READING_TABLE_ROW_DATES_H

#include "reading/table/made_row.h"

/* The Monday of week 1, as the user or the gym file says. */
day_number table_first_monday(const struct table *table);

const char *row_day_text(struct maker *maker, day_number day); /* YYYY-MM-DD, until the next row */

/* Gives the made row its date; that of dates across is the column's, and that of date rows the reader's to remember.
 * False: a week or day cannot be read, already reported. */
bool row_take_date(struct maker *maker);

#endif
