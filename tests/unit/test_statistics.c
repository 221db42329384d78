#include "analysis/statistics/statistics.h"

#include <check.h>
#include <math.h>
#include <stdbool.h>
#include <stdlib.h>

static const struct
{
    size_t count;
    double values[6];
    double median;
} medians[] = {
    {1, {7}, 7}, {2, {9, 4}, 6.5}, {3, {9, 1, 4}, 4}, {6, {6, 5, 4, 3, 2, 1}, 3.5}, {4, {2, 2, 2, 2}, 2},
};

START_TEST(median_is_the_middle)
{
    ck_assert_double_eq(median_of(medians[_i].values, medians[_i].count), medians[_i].median);
}
END_TEST

START_TEST(median_of_none_and_what_it_leaves_alone)
{
    const double values[] = {3, 1, 2};
    ck_assert(isnan(median_of(values, 0)));
    ck_assert_double_eq(median_of(values, 3), 2);
    ck_assert_double_eq(values[0], 3);
    ck_assert(isnan(sample_mean(values, 0)));
    ck_assert(isnan(sample_deviation(values, 1, sample_mean(values, 1))));
    ck_assert_double_eq(sample_deviation(values, 3, sample_mean(values, 3)), 1);
}
END_TEST

static const struct
{
    size_t count;
    double x[8], y[8];
    double slope;
    const char *direction;
    bool no_interval; /* Sen's lower rank is below 1 */
} lines[] = {
    {6, {0, 1, 2, 3, 4, 5}, {10, 12, 14, 16, 18, 20}, 2, "up", false},
    {6, {0, 1, 2, 3, 4, 5}, {20, 17, 14, 11, 8, 5}, -3, "down", false},
    {6, {0, 1, 2, 3, 4, 5}, {7, 7, 7, 7, 7, 7}, 0, "", false},
    {6, {0, 1, 2, 5, 6, 10}, {1, 2, 3, 6, 7, 11}, 1, "up", false},    /* weeks missing */
    {6, {0, 1, 2, 3, 4, 5}, {10, 12, 14, 160, 18, 20}, 2, "", false}, /* one wild week */
    {4, {0, 1, 2, 3}, {1, 2, 1, 2}, 1 / 6.0, "", true},
    {3, {0, 1, 2}, {1, 2, 3}, 1, "", true}, /* three points say a slope, and no trend */
    {2, {0, 4}, {1, 3}, 0.5, "", true},
};

START_TEST(slope_of_lines)
{
    struct slope slope = theil_sen(lines[_i].x, lines[_i].y, lines[_i].count, 0.95);
    ck_assert_uint_eq(slope.points, lines[_i].count);
    ck_assert_double_eq_tol(slope.slope, lines[_i].slope, 1e-12);
    ck_assert_str_eq(slope_direction(&slope), lines[_i].direction);
    ck_assert(lines[_i].no_interval ? isnan(slope.low) && isnan(slope.high)
                                    : slope.low <= slope.slope && slope.slope <= slope.high);
    ck_assert_int_eq(isnan(slope.p), lines[_i].count < 4);
}
END_TEST

START_TEST(too_few_points_have_no_slope)
{
    const double x[] = {5}, y[] = {90};
    struct slope none = theil_sen(x, y, 0, 0.95), one = theil_sen(x, y, 1, 0.95);
    ck_assert(isnan(none.slope) && isnan(none.low) && isnan(none.high) && isnan(none.p) && isnan(none.median));
    ck_assert(isnan(one.slope) && isnan(one.p));
    ck_assert_double_eq(one.median, 90);
    ck_assert_str_eq(slope_direction(&one), "");
}
END_TEST

START_TEST(all_alike_is_no_trend)
{
    const double y[] = {0, 0, 0, 0, 0};
    struct mann_kendall test = mann_kendall(y, 5);
    ck_assert_double_eq(test.s, 0);
    ck_assert_double_eq(test.variance, 0);
    ck_assert_double_eq(test.p, 1);
}
END_TEST

/* Ten weeks of the same training, whose mean came out one bit higher from the sixth on. */
START_TEST(last_bits_are_no_trend)
{
    double x[10], y[10];
    for (int i = 0; i < 10; i++) {
        x[i] = i;
        y[i] = i < 5 ? 0.7 : nextafter(0.7, 1);
    }
    struct slope slope = theil_sen(x, y, 10, 0.95);
    ck_assert_double_eq(slope.slope, 0);
    ck_assert_double_eq(slope.low, 0);
    ck_assert_double_eq(slope.high, 0);
    ck_assert_str_eq(slope_direction(&slope), "");
}
END_TEST

static const struct
{
    double a, b, difference;
} differences[] = {
    {110.28461538461538, 88, 22.284615384615378},
    {0.1 + 0.2, 0.3, 0}, /* one bit apart */
    {-0.3, -0.1 - 0.2, 0},
    {0, 0, 0},
    {1e-9, 0, 1e-9}, /* small, and no last bits of anything */
    {110.28461538461538, 110.28461538, 110.28461538461538 - 110.28461538},
};

START_TEST(difference_of_last_bits_is_none)
{
    ck_assert_double_eq(difference(differences[_i].a, differences[_i].b), differences[_i].difference);
    ck_assert_double_eq(difference(differences[_i].b, differences[_i].a), -differences[_i].difference);
    ck_assert(isnan(difference(NAN, 1)) && isnan(difference(1, NAN)));
}
END_TEST

START_TEST(ties_shrink_the_variance)
{
    const double y[] = {1, 1, 2, 3, 3, 3};
    struct mann_kendall test = mann_kendall(y, 6);
    ck_assert_double_eq(test.s, 15 - 1 - 3);
    /* (6·5·17 − 2·1·9 − 3·2·11) / 18 */
    ck_assert_double_eq_tol(test.variance, 426 / 18.0, 1e-12);
    ck_assert_double_eq_tol(test.z, 10 / sqrt(426 / 18.0), 1e-12);
}
END_TEST

START_TEST(mirrored_series_have_mirrored_slopes)
{
    double x[30], y[30], mirrored[30];
    unsigned state = 7;
    for (int i = 0; i < 30; i++) {
        state = state * 1103515245u + 12345u;
        x[i] = i;
        y[i] = i * 0.1 + (state >> 16) % 100 / 25.0;
        mirrored[i] = -y[i];
    }
    struct slope slope = theil_sen(x, y, 30, 0.95), mirror = theil_sen(x, mirrored, 30, 0.95);
    ck_assert_double_eq_tol(slope.slope, -mirror.slope, 1e-12);
    ck_assert_double_eq_tol(slope.p, mirror.p, 1e-12);
    ck_assert_double_lt(slope.low, slope.high);
}
END_TEST

START_TEST(longer_series_keep_their_newest_points)
{
    static double x[SLOPE_MOST_POINTS + 400], y[SLOPE_MOST_POINTS + 400];
    for (int i = 0; i < SLOPE_MOST_POINTS + 400; i++) {
        x[i] = i;
        y[i] = i < 400 ? -50.0 * i : 2.0 * i;
    }
    struct slope slope = theil_sen(x, y, SLOPE_MOST_POINTS + 400, 0.95);
    ck_assert_uint_eq(slope.points, SLOPE_MOST_POINTS);
    ck_assert_double_eq(slope.low, 2);
    ck_assert_double_eq(slope.high, 2);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("statistics");
    TCase *cases = tcase_create("statistics");
    tcase_add_loop_test(cases, median_is_the_middle, 0, sizeof medians / sizeof *medians);
    tcase_add_test(cases, median_of_none_and_what_it_leaves_alone);
    tcase_add_loop_test(cases, slope_of_lines, 0, sizeof lines / sizeof *lines);
    tcase_add_test(cases, too_few_points_have_no_slope);
    tcase_add_test(cases, all_alike_is_no_trend);
    tcase_add_test(cases, last_bits_are_no_trend);
    tcase_add_loop_test(cases, difference_of_last_bits_is_none, 0, sizeof differences / sizeof *differences);
    tcase_add_test(cases, ties_shrink_the_variance);
    tcase_add_test(cases, mirrored_series_have_mirrored_slopes);
    tcase_add_test(cases, longer_series_keep_their_newest_points);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
