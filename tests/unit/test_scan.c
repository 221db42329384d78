/* JSON of our own, read in one pass: texts, numbers, what is skipped, and what is not JSON. */
#include "commands/team/team_scan.h"

#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static char text[512];

static struct scan scan_copy(const char *json)
{
    snprintf(text, sizeof text, "%s", json);
    return scan_of(text, strlen(json));
}

START_TEST(values_are_read_and_others_skipped)
{
    struct scan scan = scan_copy("{\"a\":\"O\\\"dd\\\\ \\u0007\\n\", \"b\" : [1, -2.5, 1.5e+3, null, true, \"x\"],\n"
                                 "\"c\": {\"d\": [[], {}, {\"e\": false}]}, \"f\": true, \"g\": \"\"}");
    const double wanted[] = {1, -2.5, 1500, 0, 0, 0};
    size_t members = 0, numbers = 0;
    for (bool any = scan_begin(&scan, '{'); any && scan_more(&scan, '}'); members++) {
        const char *name = scan_name(&scan);
        if (*name == 'a')
            ck_assert_str_eq(scan_text(&scan), "O\"dd\\ \a\n");
        else if (*name == 'b')
            for (bool more = scan_begin(&scan, '['); more && scan_more(&scan, ']'); numbers++)
                ck_assert_double_eq(scan_number(&scan), wanted[numbers]);
        else if (*name == 'f')
            ck_assert(scan_true(&scan));
        else if (*name == 'g')
            ck_assert_str_eq(scan_text(&scan), "");
        else
            ck_assert(!scan_begin(&scan, '[')); /* it is an object, and skipped */
    }
    ck_assert(scan_end(&scan));
    ck_assert_uint_eq(members, 5);
    ck_assert_uint_eq(numbers, 6);
}
END_TEST

static const char *const bad[] = {
    "",        "{",        "{\"a\"", "{\"a\":", "{\"a\":1",    "{\"a\" 1}",
    "{a:1}",   "{\"a\":}", "[1,2",   "[tru]",   "\"\\u00e9\"", "\"\\u0000\"",
    "\"\\x\"", "\"open",   "{} {}",  "[1]]",    "\"\xff\"",    "\"\xc3\"",
    "[1.2.3]", "[--1]",    "nul",    "\"\\",    "\"\\u00",     "[[[[[[[[[[[[[[[[[[[[]]]]]]]]]]]]]]]]]]]]"};

START_TEST(what_is_not_json_is_noticed)
{
    struct scan scan = scan_copy(bad[_i]);
    scan_skip(&scan);
    ck_assert(!scan_end(&scan));
}
END_TEST

START_TEST(a_byte_of_zero_is_noticed)
{
    char bytes[] = "{\"a\": \"b\0c\"}";
    struct scan scan = scan_of(bytes, sizeof bytes - 1);
    scan_skip(&scan);
    ck_assert(!scan_end(&scan));
}
END_TEST

/* Cut anywhere, it is not taken for whole. */
START_TEST(a_cut_text_is_noticed)
{
    static const char whole[] = "{\"a\":[1,\"two\",{\"b\":true}],\"c\":null}";
    for (size_t length = 0; length < sizeof whole - 1; length++) {
        snprintf(text, sizeof text, "%.*s", (int)length, whole);
        struct scan scan = scan_of(text, length);
        scan_skip(&scan);
        ck_assert(!scan_end(&scan));
    }
    struct scan scan = scan_copy(whole);
    scan_skip(&scan);
    ck_assert(scan_end(&scan));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("scan");
    TCase *tests = tcase_create("scan");
    tcase_add_test(tests, values_are_read_and_others_skipped);
    tcase_add_loop_test(tests, what_is_not_json_is_noticed, 0, sizeof bad / sizeof *bad);
    tcase_add_test(tests, a_byte_of_zero_is_noticed);
    tcase_add_test(tests, a_cut_text_is_noticed);
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
