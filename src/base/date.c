#include "base/date.h"

#include "base/number.h"

#include <stdio.h>
#include <string.h>
#include <time.h>

static const int days_before[] = {0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365};

static bool is_leap(int year)
{
    return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
}

static int month_days(int year, int month)
{
    return days_before[month] - days_before[month - 1] + (month == 2 && is_leap(year));
}

/* Days from 0001-01-01 to the first of January of `year`. */
static int32_t days_to_year(int year)
{
    int32_t past = year - 1;
    return past * 365 + past / 4 - past / 100 + past / 400;
}

#define EPOCH_DAYS 719162 /* days_to_year(1970) */

bool date_make(int year, int month, int day, day_number *out)
{
    if (year < 1000 || year > 9999 || month < 1 || month > 12 || day < 1 || day > month_days(year, month))
        return false;
    *out = days_to_year(year) - EPOCH_DAYS + days_before[month - 1] + (month > 2 && is_leap(year)) + day - 1;
    return true;
}

/* The year that holds the day, and how many of its days are past. */
static int split_year(day_number day, int *past)
{
    int32_t since = day + EPOCH_DAYS;
    int year = (int)(since / 365.2425) + 1;
    while (days_to_year(year + 1) <= since)
        year++;
    while (days_to_year(year) > since)
        year--;
    *past = since - days_to_year(year);
    return year;
}

void date_split(day_number day, int *year, int *month, int *day_of_month)
{
    int past, m = 1;
    *year = split_year(day, &past);
    while (past >= month_days(*year, m))
        past -= month_days(*year, m++);
    *month = m;
    *day_of_month = past + 1;
}

int date_print(char buffer[16], day_number day)
{
    int year, month, day_of_month;
    date_split(day, &year, &month, &day_of_month);
    char *to = number_print_digits(buffer, (uint64_t)year, 4);
    *to++ = '-';
    to = number_print_digits(to, (uint64_t)month, 2);
    *to++ = '-';
    to = number_print_digits(to, (uint64_t)day_of_month, 2);
    *to = 0;
    return (int)(to - buffer);
}

int date_print_short(char buffer[16], day_number day)
{
    static const char months[][4] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                     "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    int year, month, day_of_month;
    date_split(day, &year, &month, &day_of_month);
    return snprintf(buffer, 16, "%d %s", day_of_month % 100, months[month - 1]);
}

int date_print_words(char buffer[16], day_number day)
{
    int year, month, day_of_month, used = date_print_short(buffer, day);
    date_split(day, &year, &month, &day_of_month);
    return used + snprintf(buffer + used, 16 - (size_t)used, " %d", year);
}

bool date_read_iso(const char *text, day_number *out)
{
    static const char form[] = "dddd-dd-dd";
    int parts[3] = {0}, part = 0;
    if (strlen(text) != sizeof form - 1)
        return false;
    for (size_t i = 0; form[i]; i++) {
        if (form[i] == '-' ? text[i] != '-' : text[i] < '0' || text[i] > '9')
            return false;
        if (form[i] == '-')
            part++;
        else
            parts[part] = parts[part] * 10 + (text[i] - '0');
    }
    return date_make(parts[0], parts[1], parts[2], out);
}

static int32_t floor_div(int32_t a, int32_t b)
{
    return a / b - (a % b != 0 && (a % b < 0) != (b < 0));
}

/* 1970-01-01 was a Thursday: its week began three days before. */
week_number week_of(day_number day)
{
    return floor_div(day + 3, 7);
}

day_number week_monday(week_number week)
{
    return week * 7 - 3;
}

int day_of_week(day_number day)
{
    return (int)(day - week_monday(week_of(day))) + 1;
}

/* A week belongs to the year that holds its Thursday (ISO 8601). */
void week_split(week_number week, int *iso_year, int *week_of_year)
{
    int past;
    *iso_year = split_year(week_monday(week) + 3, &past);
    *week_of_year = past / 7 + 1;
}

int week_print(char buffer[16], week_number week)
{
    int year, number;
    week_split(week, &year, &number);
    char *to = number_print_digits(buffer, (uint64_t)year, 4);
    *to++ = '-';
    *to++ = 'W';
    to = number_print_digits(to, (uint64_t)number, 2);
    *to = 0;
    return (int)(to - buffer);
}

bool week_make(int iso_year, int week_of_year, week_number *out)
{
    day_number fourth; /* the fourth of January is always in week 1 */
    int year, number;
    if (week_of_year < 1 || week_of_year > 53 || !date_make(iso_year, 1, 4, &fourth))
        return false;
    *out = week_of(fourth) + week_of_year - 1;
    week_split(*out, &year, &number);
    return year == iso_year;
}

day_number date_today(void)
{
    time_t now = time(NULL);
    struct tm local;
    day_number day = 0;
    if (localtime_r(&now, &local))
        date_make(local.tm_year + 1900, local.tm_mon + 1, local.tm_mday, &day);
    return day;
}
