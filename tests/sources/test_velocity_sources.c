/* The line of load on velocity against published numbers. */
#include "analysis/load_velocity.h"

#include <check.h>
#include <stdlib.h>

/* NIST StRD Norris (https://www.itl.nist.gov/div898/strd/lls/data/Norris.shtml): data and certified values. */
static const double norris_x[] = {0.2, 337.4, 118.2, 884.6, 10.1,  226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4,
                                  0.6, 775.5, 666.9, 338.0, 447.5, 11.6,  556.0, 228.1, 995.8, 887.6, 120.2, 0.3,
                                  0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1,  118.3, 229.2, 669.1, 448.9, 0.5};
static const double norris_y[] = {0.1, 338.8, 118.1, 888.0, 9.2,   228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3,
                                  0.1, 778.1, 668.8, 339.3, 448.9, 10.8,  557.7, 228.3, 998.0, 888.8, 119.6, 0.3,
                                  0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2,  117.6, 228.9, 668.4, 449.2, 0.2};

static struct line_fit norris(void)
{
    return line_fit(norris_x, norris_y, sizeof norris_x / sizeof *norris_x);
}

#define CERTIFIED(got, value) ck_assert_double_eq_tol((got) / (value), 1, 1e-11) /* eleven digits */

START_TEST(certified)
{
    struct line_fit fit = norris();
    ck_assert_uint_eq(fit.points, 36);
    CERTIFIED(fit.intercept, -0.262323073774029);
    CERTIFIED(fit.slope, 1.00211681802045);
    CERTIFIED(fit.intercept_se, 0.232818234301152);
    CERTIFIED(fit.slope_se, 0.429796848199937E-03);
    CERTIFIED(fit.residual_sd, 0.884796396144373);
    CERTIFIED(fit.r2, 0.999993745883712);
}
END_TEST

/* At x = 0 the interval of the mean is that of the intercept; its half width is t times the certified deviation.
 * t(34, 0.975) = 2.0322445 is in every printed table to four digits (2.032). */
START_TEST(interval_at_zero)
{
    struct line_fit fit = norris();
    struct interval interval = line_at(&fit, 0, 0.95);
    CERTIFIED(interval.at, -0.262323073774029);
    ck_assert_double_eq_tol(interval.high - interval.at, 2.0322445 * 0.232818234301152, 1e-7);
    ck_assert_double_eq_tol(interval.at - interval.low, 2.0322445 * 0.232818234301152, 1e-7);
}
END_TEST

/* At the mean of x the deviation of the mean is s / sqrt(n), and nowhere less. */
START_TEST(interval_at_the_mean)
{
    struct line_fit fit = norris();
    struct interval middle = line_at(&fit, fit.x_mean, 0.95), beside = line_at(&fit, fit.x_mean + 100, 0.95);
    ck_assert_double_eq_tol(middle.high - middle.at, 2.0322445 * 0.884796396144373 / 6, 1e-7);
    ck_assert_double_gt(beside.high - beside.at, middle.high - middle.at);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("velocity sources");
    TCase *cases = tcase_create("norris");
    tcase_add_test(cases, certified);
    tcase_add_test(cases, interval_at_zero);
    tcase_add_test(cases, interval_at_the_mean);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
