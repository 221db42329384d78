/* Dates as people and exports write them, and the order that a whole file settles. */
#include "reading/day.h"

#include <check.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>

static day_number day_of(int year, int month, int day)
{
    day_number number = NO_DAY;
    ck_assert(date_make(year, month, day, &number));
    return number;
}

static const struct
{
    const char *text;
    int year, month, day;
} sure_days[] = {
    {"2026-01-12", 2026, 1, 12},
    {" 2026-01-12 ", 2026, 1, 12},
    {"2026-01-12T07:30:00Z", 2026, 1, 12},
    {"2026-01-12T23:30:00+02:00", 2026, 1, 12}, /* the zone is ignored: the date as written counts */
    {"2026-01-12 07:30", 2026, 1, 12},
    {"2026-01-12, 7:30 PM", 2026, 1, 12},
    {"2026-01-12Z", 2026, 1, 12},
    {"20260112", 2026, 1, 12},
    {"20260112T073000", 2026, 1, 12},
    {"2026-W03-1", 2026, 1, 12},
    {"2026W031", 2026, 1, 12},
    {"2026-012", 2026, 1, 12},
    {"2026012", 2026, 1, 12},
    {"2024-366", 2024, 12, 31},
    {"2026-1-5", 2026, 1, 5},
    {"2026/01/12", 2026, 1, 12},
    {"2026.01.12", 2026, 1, 12},
    {"12.1.2026", 2026, 1, 12},
    {"12.01.26", 2026, 1, 12},
    {"1.2.2026", 2026, 2, 1}, /* dotted dates are day first */
    {"12 Jan 2026", 2026, 1, 12},
    {"12 January 2026 18:00", 2026, 1, 12},
    {"12. Jan. 2026", 2026, 1, 12},
    {"12-Jan-26", 2026, 1, 12},
    {"12/jan/2026", 2026, 1, 12},
    {"12Jan2026", 2026, 1, 12},
    {"January 12, 2026", 2026, 1, 12},
    {"JANUARY 12 2026", 2026, 1, 12},
    {"Jan 12th, 2026, 6:05 am", 2026, 1, 12},
    {"1st of May 2026", 2026, 5, 1},
    {"Mon 12 January 2026", 2026, 1, 12},
    {"Monday, January 12, 2026", 2026, 1, 12},
    {"Sept 3 2026", 2026, 9, 3},
    {"2026 Jan 12", 2026, 1, 12},
    {"04/04/2026", 2026, 4, 4}, /* the same day both ways: nothing to settle */
    {"29.02.2024", 2024, 2, 29},
    {"12\xC2\xA0Jan\xC2\xA0"
     "2026",
     2026, 1, 12},
};

START_TEST(test_sure)
{
    struct written_day written = day_read(sure_days[_i].text);
    ck_assert_msg(written.kind == DAY_SURE, "'%s' is of kind %d", sure_days[_i].text, (int)written.kind);
    ck_assert_int_eq(written.day, day_of(sure_days[_i].year, sure_days[_i].month, sure_days[_i].day));
}
END_TEST

static const struct
{
    const char *text;
    enum written_day_kind kind;
} other_days[] = {
    {"", DAY_UNREADABLE},
    {"Date", DAY_UNREADABLE},
    {"yesterday", DAY_UNREADABLE},
    {"12", DAY_UNREADABLE},
    {"2026", DAY_UNREADABLE},
    {"2026-01", DAY_UNREADABLE},
    {"Jan 2026", DAY_UNREADABLE},
    {"12 13 2026", DAY_UNREADABLE},
    {"12-01/2026", DAY_UNREADABLE},
    {"3/4/026", DAY_UNREADABLE},
    {"3/4/20266", DAY_UNREADABLE},
    {"99999999999999999999", DAY_UNREADABLE},
    {"2026-01-12x", DAY_UNREADABLE},
    {"2026-W3-1", DAY_UNREADABLE}, /* no form of ISO 8601 */
    {"2026-02-30", DAY_IMPOSSIBLE},
    {"2025-02-29", DAY_IMPOSSIBLE},
    {"2026-13-01", DAY_IMPOSSIBLE},
    {"2004-W54-1", DAY_IMPOSSIBLE}, /* 2004 has 53 weeks */
    {"2026-W03-8", DAY_IMPOSSIBLE},
    {"2026-366", DAY_IMPOSSIBLE},
    {"2026-000", DAY_IMPOSSIBLE},
    {"31.02.2026", DAY_IMPOSSIBLE},
    {"30 Feb 2026", DAY_IMPOSSIBLE},
    {"13/13/2026", DAY_IMPOSSIBLE},
    {"1899-12-31", DAY_FAR},
    {"2200-01-01", DAY_FAR},
    {"9999-W01-1", DAY_FAR},
    {"10000101", DAY_FAR},
    {"12 Jan 1026", DAY_FAR},
    {"03/04/9026", DAY_FAR},
    {"25/04/1026", DAY_FAR},
    {"03/04/2026", DAY_EITHER},
    {"3-4-26", DAY_EITHER},
    {"3/4/2026 10:00", DAY_EITHER},
    {"25/04/2026", DAY_DMY_ONLY},
    {"4/25/26", DAY_MDY_ONLY},
};

START_TEST(test_other)
{
    struct written_day written = day_read(other_days[_i].text);
    ck_assert_msg(written.kind == other_days[_i].kind, "'%s' is of kind %d", other_days[_i].text, (int)written.kind);
}
END_TEST

START_TEST(test_both_readings)
{
    struct written_day either = day_read("03/04/2026"), dmy = day_read("25/04/2026"), mdy = day_read("4/25/26");
    ck_assert_int_eq(either.dmy, day_of(2026, 4, 3));
    ck_assert_int_eq(either.mdy, day_of(2026, 3, 4));
    ck_assert_int_eq(dmy.dmy, day_of(2026, 4, 25));
    ck_assert_int_eq(dmy.mdy, NO_DAY);
    ck_assert_int_eq(mdy.mdy, day_of(2026, 4, 25));
    ck_assert_int_eq(mdy.dmy, NO_DAY);
}
END_TEST

static const struct
{
    const char *days[5];
    enum day_settled settled;
} files[] = {
    {{NULL}, SETTLED_ISO},
    {{"2026-01-12", "2026-01-01"}, SETTLED_ISO},
    {{"04/04/2026", "05/05/2026"}, SETTLED_ISO},
    {{"03/04/2026", "25/04/2026"}, SETTLED_DMY},
    {{"4/25/2026", "5/1/2026"}, SETTLED_MDY},
    {{"25/04/2026", "04/25/2026"}, SETTLED_BOTH},
    /* in order under one reading only */
    {{"05/01/2026", "08/01/2026", "02/02/2026"}, SETTLED_DMY_BY_ORDER},
    {{"02/02/2026", "08/01/2026", "05/01/2026"}, SETTLED_DMY_BY_ORDER},
    {{"01/05/2026", "01/08/2026", "02/02/2026"}, SETTLED_MDY_BY_ORDER},
    {{"05/01/2026", "05/01/2026", "08/01/2026", "02/02/2026"}, SETTLED_DMY_BY_ORDER},
    /* in order under both, or under none */
    {{"05/01/2026", "06/01/2026"}, SETTLED_NOT},
    {{"05/01/2026"}, SETTLED_NOT},
    {{"05/01/2026", "05/01/2026"}, SETTLED_NOT},
    {{"05/01/2026", "02/02/2026", "08/01/2026"}, SETTLED_NOT},
    /* a sure day stands in the order too */
    {{"05/01/2026", "2026-01-31", "03/02/2026"}, SETTLED_DMY_BY_ORDER},
};

START_TEST(test_order)
{
    struct day_order order;
    day_order_begin(&order);
    for (size_t i = 0; i < 5 && files[_i].days[i]; i++) {
        struct written_day written = day_read(files[_i].days[i]);
        day_order_see(&order, &written);
    }
    ck_assert_int_eq(day_order_settle(&order), files[_i].settled);
}
END_TEST

#define COUNT(list) ((int)(sizeof list / sizeof *list))

int main(void)
{
    Suite *suite = suite_create("day");
    TCase *cases = tcase_create("day");
    tcase_add_loop_test(cases, test_sure, 0, COUNT(sure_days));
    tcase_add_loop_test(cases, test_other, 0, COUNT(other_days));
    tcase_add_test(cases, test_both_readings);
    tcase_add_loop_test(cases, test_order, 0, COUNT(files));
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
