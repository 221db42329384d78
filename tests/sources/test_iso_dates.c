/* ISO 8601 week dates: rows of 2005 to 2007 as published in several public code texts, the others computed with a
 * proleptic Gregorian calendar library. */
#include "base/date.h"
#include "reading/day.h"

#include <check.h>
#include <stdio.h>
#include <stdlib.h>

static const struct
{
    const char *date, *week_date;
} rows[] = {
    {"2005-01-01", "2004-W53-6"}, {"2005-01-02", "2004-W53-7"}, {"2005-12-31", "2005-W52-6"},
    {"2006-01-01", "2005-W52-7"}, {"2006-01-02", "2006-W01-1"}, {"2006-12-31", "2006-W52-7"},
    {"2007-01-01", "2007-W01-1"}, {"2007-12-30", "2007-W52-7"}, {"2007-12-31", "2008-W01-1"},
    {"2008-01-01", "2008-W01-2"}, {"2008-12-28", "2008-W52-7"}, {"2008-12-29", "2009-W01-1"},
    {"2008-12-30", "2009-W01-2"}, {"2008-12-31", "2009-W01-3"}, {"2009-01-01", "2009-W01-4"},
    {"2009-12-31", "2009-W53-4"}, {"2010-01-01", "2009-W53-5"}, {"2010-01-02", "2009-W53-6"},
    {"2010-01-03", "2009-W53-7"}, {"2020-12-31", "2020-W53-4"}, {"2021-01-01", "2020-W53-5"},
    {"2021-01-03", "2020-W53-7"}, {"2021-01-04", "2021-W01-1"}, {"2024-12-30", "2025-W01-1"},
    {"2026-12-31", "2026-W53-4"}, {"2027-01-03", "2026-W53-7"},
};

START_TEST(test_weeks_print)
{
    day_number day;
    char week[16], week_date[20];
    ck_assert(date_read_iso(rows[_i].date, &day));
    week_print(week, week_of(day));
    snprintf(week_date, sizeof week_date, "%s-%d", week, day_of_week(day));
    ck_assert_str_eq(week_date, rows[_i].week_date);
}
END_TEST

START_TEST(test_weeks_read)
{
    day_number day;
    ck_assert(date_read_iso(rows[_i].date, &day));
    struct written_day written = day_read(rows[_i].week_date), plain = day_read(rows[_i].date);
    ck_assert_int_eq(written.kind, DAY_SURE);
    ck_assert_int_eq(written.day, day);
    ck_assert_int_eq(plain.day, day);
}
END_TEST

/* "2004-W54 must be rejected (2004 has 53 weeks)". */
START_TEST(test_no_such_week)
{
    week_number week;
    ck_assert(week_make(2004, 53, &week));
    ck_assert(!week_make(2004, 54, &week));
    ck_assert(!week_make(2005, 53, &week));
    ck_assert(!week_make(2005, 0, &week));
    ck_assert_int_eq(day_read("2004-W54-1").kind, DAY_IMPOSSIBLE);
}
END_TEST

/* A whole Gregorian cycle has 146097 days. Every day that a log may name goes out and comes back as date, week date and
 * ordinal date. */
START_TEST(test_round_trip)
{
    day_number first, last;
    ck_assert(date_make(1900, 1, 1, &first) && date_make(2299, 12, 31, &last));
    ck_assert_int_eq(last - first + 1, 146097);
    ck_assert(date_make(FIRST_YEAR, 1, 1, &first) && date_make(LAST_YEAR, 12, 31, &last));
    for (day_number day = first; day <= last; day++) {
        char text[16], week_date[32], ordinal[32];
        int year, month, day_of_month;
        day_number new_year;
        date_print(text, day);
        week_print(week_date, week_of(day));
        snprintf(week_date + 8, sizeof week_date - 8, "-%d", day_of_week(day));
        date_split(day, &year, &month, &day_of_month);
        date_make(year, 1, 1, &new_year);
        snprintf(ordinal, sizeof ordinal, "%04d-%03d", year, (int)(day - new_year + 1));
        if (day_read(text).day != day || day_read(week_date).day != day || day_read(ordinal).day != day)
            ck_abort_msg("%s, %s, %s do not name one day", text, week_date, ordinal);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("ISO 8601 dates");
    TCase *cases = tcase_create("published");
    tcase_add_loop_test(cases, test_weeks_print, 0, (int)(sizeof rows / sizeof *rows));
    tcase_add_loop_test(cases, test_weeks_read, 0, (int)(sizeof rows / sizeof *rows));
    tcase_add_test(cases, test_no_such_week);
    tcase_add_test(cases, test_round_trip);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
