/* Days and ISO 8601 weeks, proleptic Gregorian. A day is a number: 0 is 1970-01-01. Years 1000 to 9999. */
#ifndef TAUTLINE_BASE_DATE_H
#define TAUTLINE_BASE_DATE_H

#include <stdbool.h>
#include <stdint.h>

typedef int32_t day_number; /* days since 1970-01-01 */
typedef int32_t
    week_number; /* ISO weeks since the one that holds 1970-01-01 (1970-W01); consecutive weeks differ by 1 */

#define NO_DAY INT32_MIN

bool date_make(int year, int month, int day, day_number *out); /* false: no such day */
void date_split(day_number day, int *year, int *month, int *day_of_month);
int date_print(char buffer[16], day_number day);       /* 2026-01-12 */
int date_print_words(char buffer[16], day_number day); /* 9 Sep 2026 */
int date_print_short(char buffer[16], day_number day); /* 9 Sep */
bool date_read_iso(const char *text, day_number *out); /* YYYY-MM-DD and nothing after it */

week_number week_of(day_number day);
day_number week_monday(week_number week);
int day_of_week(day_number day); /* 1 Monday to 7 Sunday, as ISO 8601 */
void week_split(week_number week, int *iso_year, int *week_of_year);
int week_print(char buffer[16], week_number week);                /* 2026-W03 */
bool week_make(int iso_year, int week_of_year, week_number *out); /* false: that year has no such week */

day_number date_today(void); /* by the clock, local time */

#endif
