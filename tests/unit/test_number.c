#include "base/number.h"

#include <check.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const struct
{
    const char *text;
    char decimal;
    size_t used; /* 0: no number */
    double value;
} prefixes[] = {
    {"12", '.', 2, 12},
    {"12.5 kg", '.', 4, 12.5},
    {".5", '.', 2, 0.5},
    {"7,5", ',', 3, 7.5},
    {"7,5", '.', 1, 7},
    {"0x10", '.', 1, 0},
    {"1e400", '.', 1, 1},
    {"5x3", '.', 1, 5},
    {"12.", '.', 2, 12},
    {"-3", '.', 0, 0},
    {"", '.', 0, 0},
    {"inf", '.', 0, 0},
    {"nan", '.', 0, 0},
    {".", '.', 0, 0},
    {"1.2.3", '.', 3, 1.2},
    {"123456789012345678", '.', 18, 123456789012345678.0},
    {"0.1234567890123456789", '.', 21, 0.1234567890123456789},
};

START_TEST(a_prefix_is_the_longest_plain_decimal)
{
    double value = 0;
    ck_assert_uint_eq(number_prefix(prefixes[_i].text, strlen(prefixes[_i].text), prefixes[_i].decimal, &value),
                      prefixes[_i].used);
    if (prefixes[_i].used)
        ck_assert(value == prefixes[_i].value);
}
END_TEST

START_TEST(a_prefix_equals_strtod_to_the_bit)
{
    uint64_t seed = 20260112;
    for (int i = 0; i < 200000; i++) {
        char text[40];
        seed = seed * 6364136223846793005u + 1442695040888963407u;
        double made = (double)(seed >> 20) / pow(10, (double)(seed % 17));
        snprintf(text, sizeof text, "%.*f", (int)(seed >> 8 & 15), made);
        double value = -1;
        ck_assert_uint_eq(number_prefix(text, strlen(text), '.', &value), strlen(text));
        ck_assert_msg(value == strtod(text, NULL), "%s", text);
    }
}
END_TEST

static const struct
{
    const char *text;
    char decimal;
    bool read;
    double value;
} wholes[] = {
    {"1,234.5", '.', true, 1234.5},
    {"1.234,5", ',', true, 1234.5},
    {"1 234 567", '.', true, 1234567},
    {"1'234", '.', true, 1234},
    {"1\xC2\xA0"
     "234,25",
     ',', true, 1234.25},
    {" 12 ", '.', true, 12},
    {"-3.5", '.', true, -3.5},
    {"+3", '.', true, 3},
    {"1e3", '.', true, 1000},
    {"1e400", '.', false, 0},
    {"1,23", '.', false, 0},
    {"12,34,567", '.', false, 0},
    {"1,2345", '.', false, 0},
    {"12 kg", '.', false, 0},
    {"0x1F", '.', false, 0},
    {"inf", '.', false, 0},
    {"nan", '.', false, 0},
    {"", '.', false, 0},
    {"-", '.', false, 0},
    {".", '.', false, 0},
    {"1..2", '.', false, 0},
};

START_TEST(a_whole_text_is_one_number)
{
    double value = 0;
    ck_assert_msg(number_whole(wholes[_i].text, wholes[_i].decimal, &value) == wholes[_i].read, "'%s'",
                  wholes[_i].text);
    if (wholes[_i].read)
        ck_assert(value == wholes[_i].value);
}
END_TEST

static uint64_t seed = 1944;

static uint64_t chance(void)
{
    seed = seed * 6364136223846793005u + 1442695040888963407u;
    return seed >> 11;
}

static void prints_as_snprintf(double value)
{
    char ours[32], theirs[32];
    snprintf(theirs, sizeof theirs, "%.9g", value == 0 ? 0.0 : value);
    ck_assert_int_eq(number_print(ours, value), (int)strlen(theirs));
    ck_assert_str_eq(ours, theirs);
}

START_TEST(printing_equals_snprintf)
{
    for (int i = 0; i < 500000; i++) {
        double value = ((double)chance() / 9007199254740992.0 - 0.5) * pow(10, (double)(chance() % 16) - 5);
        if (i % 3 == 0)
            value = round(value * 4) / 4;
        else if (i % 7 == 0)
            value = round(value);
        prints_as_snprintf(value);
    }
}
END_TEST

/* Decimals as people write them, 1 to 12 of them, and the doubles beside each. */
START_TEST(printing_of_decimals_equals_snprintf)
{
    for (int i = 0; i < 200000; i++) {
        double value = (double)(chance() % (uint64_t)pow(10, (double)(chance() % 13 + 1))) /
                       pow(10, (double)(chance() % 13));
        prints_as_snprintf(value);
        prints_as_snprintf(-nextafter(value, INFINITY));
        prints_as_snprintf(nextafter(value, 0));
    }
}
END_TEST

/* Nine digits and exactly half of the ninth: a tie, which goes to the even digit, and the doubles beside it. */
START_TEST(printing_of_ties_equals_snprintf)
{
    for (int i = 0; i < 200000; i++) {
        double value = ((double)(chance() % 900000000 + 100000000) + 0.5) /
                       pow(2, (double)(chance() % 30)); /* some are such */
        prints_as_snprintf(value);
        prints_as_snprintf(nextafter(value, INFINITY));
        prints_as_snprintf(nextafter(value, 0));
    }
}
END_TEST

/* Where the number of digits changes. */
START_TEST(printing_beside_powers_of_ten_equals_snprintf)
{
    for (int power = -8; power < 13; power++)
        for (int step = -60; step <= 60; step++) {
            prints_as_snprintf(pow(10, power) + step * pow(10, power - 10));
            prints_as_snprintf(-pow(10, power) * (1 + step * 0x1p-52));
        }
}
END_TEST

START_TEST(whole_numbers_print_as_snprintf)
{
    for (int i = 0; i < 500000; i++) {
        char ours[32], theirs[32];
        long value = (long)((chance() << 11 | chance() >> 42) >> chance() % 64) * (chance() % 2 ? 1 : -1);
        if (i < 200)
            value = i - 100;
        snprintf(theirs, sizeof theirs, "%ld", value);
        ck_assert_int_eq(number_print_whole(ours, value), (int)strlen(theirs));
        ck_assert_str_eq(ours, theirs);
    }
}
END_TEST

static const struct
{
    double value;
    const char *text;
} printed[] = {
    {0, "0"},
    {-0.0, "0"},
    {100, "100"},
    {102.5, "102.5"},
    {0.55, "0.55"},
    {-2.5, "-2.5"},
    {1.0 / 3, "0.333333333"},
    {99999999.96, "100000000"},
    {1e-5, "1e-05"},
    {123456789012.0, "1.23456789e+11"},
    {0.0001, "0.0001"},
};

START_TEST(printing_is_plain)
{
    char text[32];
    number_print(text, printed[_i].value);
    ck_assert_str_eq(text, printed[_i].text);
}
END_TEST

static void fixed_as_snprintf(double value, int decimals)
{
    char text[64], expected[64];
    int length = number_fixed(text, sizeof text, value, decimals);
    snprintf(expected, sizeof expected, "%.*f", decimals, value);
    bool zero = expected[0] == '-' && strspn(expected + 1, "0.") == strlen(expected + 1);
    ck_assert_str_eq(text, expected + zero);
    ck_assert_int_eq(length, (int)strlen(text));
}

START_TEST(fixed_decimals_equal_snprintf)
{
    for (int i = 0; i < 300000; i++) {
        int decimals = (int)(chance() % 5);
        double value = (double)(chance() % (uint64_t)pow(10, (double)(chance() % 13 + 1))) / pow(10, decimals),
               tie = value + 0.5 / pow(10, decimals);
        fixed_as_snprintf(value, decimals);
        fixed_as_snprintf(-tie, decimals);
        fixed_as_snprintf(nextafter(tie, INFINITY), decimals);
        fixed_as_snprintf(-nextafter(tie, 0), decimals);
    }
    static const double others[] = {0, -0.0, 999999999.9996, 1e9, 1e15, 1e-300, -0.0004, NAN, INFINITY, -INFINITY};
    for (size_t i = 0; i < sizeof others / sizeof *others; i++)
        for (int decimals = 0; decimals < 5; decimals++)
            fixed_as_snprintf(others[i], decimals);
}
END_TEST

START_TEST(fixed_has_no_negative_zero)
{
    char text[32];
    number_fixed(text, sizeof text, -0.04, 1);
    ck_assert_str_eq(text, "0.0");
    number_fixed(text, sizeof text, -0.06, 1);
    ck_assert_str_eq(text, "-0.1");
    ck_assert_int_eq(number_decimals("102.50 kg", 9, '.'), 2);
    ck_assert_int_eq(number_decimals("102", 3, '.'), 0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("numbers");
    TCase *tests = tcase_create("numbers");
    tcase_set_timeout(tests, 120);
    tcase_add_loop_test(tests, a_prefix_is_the_longest_plain_decimal, 0, sizeof prefixes / sizeof *prefixes);
    tcase_add_test(tests, a_prefix_equals_strtod_to_the_bit);
    tcase_add_loop_test(tests, a_whole_text_is_one_number, 0, sizeof wholes / sizeof *wholes);
    tcase_add_test(tests, printing_equals_snprintf);
    tcase_add_test(tests, printing_of_decimals_equals_snprintf);
    tcase_add_test(tests, printing_of_ties_equals_snprintf);
    tcase_add_test(tests, printing_beside_powers_of_ten_equals_snprintf);
    tcase_add_test(tests, whole_numbers_print_as_snprintf);
    tcase_add_loop_test(tests, printing_is_plain, 0, sizeof printed / sizeof *printed);
    tcase_add_test(tests, fixed_has_no_negative_zero);
    tcase_add_test(tests, fixed_decimals_equal_snprintf);
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
