/* Statistics against published values. */
#include "analysis/statistics/statistics.h"

#include <check.h>
#include <gsl/gsl_sort.h>
#include <math.h>
#include <stdlib.h>

/* Sen 1968, J Am Stat Assoc 63:1379–1389. Slope 4 and 93 % limits 26/7 and 35/8 (ranks 4 and 18 of 21) as two
 * independent statistics packages' test texts have them; the interval printed in the paper rests on a list of slopes
 * with errors. */
static const double sen_t[] = {1, 2, 3, 4, 10, 12, 18}, sen_y[] = {9, 15, 19, 20, 45, 55, 78};

START_TEST(sen_1968)
{
    struct slope slope = theil_sen(sen_t, sen_y, 7, 0.93);
    ck_assert_double_eq(slope.slope, 4);
    ck_assert_double_eq_tol(slope.low, 26 / 7.0, 1e-12);
    ck_assert_double_eq_tol(slope.high, 35 / 8.0, 1e-12);
    ck_assert_str_eq(slope_direction(&slope), "up");
}
END_TEST

/* Mann 1945; Kendall 1975: worked out exactly for the same data. */
START_TEST(mann_kendall_on_sen_1968)
{
    struct mann_kendall test = mann_kendall(sen_y, 7);
    ck_assert_double_eq(test.s, 21);
    ck_assert_double_eq_tol(test.variance, 7 * 6 * 19 / 18.0, 1e-12);
    ck_assert_double_eq_tol(test.z, 3.003757, 5e-7);
    ck_assert_double_eq_tol(test.p, 0.0026667, 5e-8);
}
END_TEST

/* The small case of the same test texts: y = 0, 1, 1 has slope 0.5. */
START_TEST(small_case)
{
    const double x[] = {0, 1, 2}, y[] = {0, 1, 1};
    ck_assert_double_eq(theil_sen(x, y, 3, 0.95).slope, 0.5);
}
END_TEST

/* NIST StRD Norris (https://www.itl.nist.gov/div898/strd/lls/data/Norris.shtml): the data; the Theil–Sen slope over its
 * 629 pairs of unequal x was worked out in exact arithmetic, the certified least-squares slope is 1.00211681802045. */
static const double norris_x[] = {0.2, 337.4, 118.2, 884.6, 10.1,  226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4,
                                  0.6, 775.5, 666.9, 338.0, 447.5, 11.6,  556.0, 228.1, 995.8, 887.6, 120.2, 0.3,
                                  0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1,  118.3, 229.2, 669.1, 448.9, 0.5};
static const double norris_y[] = {0.1, 338.8, 118.1, 888.0, 9.2,   228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3,
                                  0.1, 778.1, 668.8, 339.3, 448.9, 10.8,  557.7, 228.3, 998.0, 888.8, 119.6, 0.3,
                                  0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2,  117.6, 228.9, 668.4, 449.2, 0.2};

START_TEST(norris)
{
    double x[36], y[36];
    for (int i = 0; i < 36; i++) {
        x[i] = norris_x[i];
        y[i] = norris_y[i];
    }
    gsl_sort2(x, 1, y, 1, 36);
    struct slope slope = theil_sen(x, y, 36, 0.95);
    ck_assert_double_eq_tol(slope.slope, 1.0021968365553602, 1e-13);
    ck_assert(slope.low < 1.00211681802045 && 1.00211681802045 < slope.high);
}
END_TEST

/* NIST StRD univariate NumAcc1 to NumAcc4: made to lose digits. n = 1001: `first`, then low and high by turns. */
static const struct
{
    size_t count;
    double first, low, high, mean, deviation, tolerance;
} num_acc[] = {
    {3, 10000001, 10000003, 10000002, 10000002, 1, 1e-14},
    {1001, 1.2, 1.1, 1.3, 1.2, 0.1, 1e-14},
    {1001, 1000000.2, 1000000.1, 1000000.3, 1000000.2, 0.1, 1e-9},
    {1001, 10000000.2, 10000000.1, 10000000.3, 10000000.2, 0.1, 1e-8},
};

START_TEST(numerical_accuracy)
{
    double values[1001];
    values[0] = num_acc[_i].first;
    for (size_t i = 1; i < num_acc[_i].count; i++)
        values[i] = i % 2 ? num_acc[_i].low : num_acc[_i].high;
    ck_assert_double_eq_tol(sample_mean(values, num_acc[_i].count) / num_acc[_i].mean, 1, 1e-14);
    ck_assert_double_eq_tol(sample_deviation(values, num_acc[_i].count, sample_mean(values, num_acc[_i].count)),
                            num_acc[_i].deviation, num_acc[_i].tolerance);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("statistics_sources");
    TCase *cases = tcase_create("published");
    tcase_add_test(cases, sen_1968);
    tcase_add_test(cases, mann_kendall_on_sen_1968);
    tcase_add_test(cases, small_case);
    tcase_add_test(cases, norris);
    tcase_add_loop_test(cases, numerical_accuracy, 0, sizeof num_acc / sizeof *num_acc);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
