/* Dates written without their year. */
#ifndef TAUTLINE_READING_YEARS_H
#define TAUTLINE_READING_YEARS_H

#include "reading/day.h"

/* The last four separate digits that are a year of this century or the last, in the table's name, else in the last
 * part of its path. 0: none. `name` may be NULL. */
int year_of_names(const char *name, const char *path);

/* The day, or one of the two that it may be; NO_DAY: it is not a date. */
day_number written_any_day(const struct written_day *written);

/* The year of a date without one: that of `above`, the date before it, or the next year if the date would otherwise
 * be more than half a year earlier; if there is no date before it (NO_DAY), `named`. 0: there is none. */
int year_after(const char *text, day_number above, int named);

#endif
