#include "analysis/statistics/seasonal.h"

#include "analysis/statistics/statistics.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>

#define MOST 9
#define NEAR(a, b) ck_assert_double_eq_tol(a, b, 1e-9)

struct made /* seasons over the same waves: value[season][wave] */
{
    size_t seasons, waves;
    double value[3][MOST];
};

static struct seasonal of(const struct made *made)
{
    struct seasonal_point points[3 * MOST];
    size_t count = 0;
    for (size_t g = 0; g < made->seasons; g++)
        for (size_t i = 0; i < made->waves; i++)
            points[count++] = (struct seasonal_point){g, (double)i, made->value[g][i]};
    return seasonal_kendall(points, count, 0.95);
}

static double s_of(const struct made *made, const size_t *order)
{
    double s = 0;
    for (size_t g = 0; g < made->seasons; g++)
        for (size_t i = 0; i < made->waves; i++)
            for (size_t j = i + 1; j < made->waves; j++) {
                double from = made->value[g][order[i]], to = made->value[g][order[j]];
                s += (to > from) - (to < from);
            }
    return s;
}

struct permuted /* over all orders of whole waves */
{
    double orders, squares, as_far; /* how many; Σ S²; those with |S| at least as large as the observed */
};

static void permute(const struct made *made, size_t *order, size_t fixed, double observed, struct permuted *result)
{
    if (fixed == made->waves) {
        double s = s_of(made, order);
        result->orders++;
        result->squares += s * s;
        result->as_far += fabs(s) >= fabs(observed);
        return;
    }
    for (size_t i = fixed; i < made->waves; i++) {
        size_t kept = order[fixed];
        order[fixed] = order[i];
        order[i] = kept;
        permute(made, order, fixed + 1, observed, result);
        order[i] = order[fixed];
        order[fixed] = kept;
    }
}

static struct permuted all_orders(const struct made *made)
{
    size_t order[MOST];
    struct permuted result = {0, 0, 0};
    for (size_t i = 0; i < made->waves; i++)
        order[i] = i;
    double observed = s_of(made, order);
    permute(made, order, 0, observed, &result);
    return result;
}

/* Worked by hand. S: 10 of the first season; of the second 8 pairs rise and 2 fall: 6. Each σ² is 5·4·15/18 = 50/3. K =
 * 6, Σ R R' = 1·2 + 2·1 + 3·3 + 4·5 + 5·4 = 53, the covariance (6 + 4·53 − 5·36)/3 = 38/3, var S = 100/3 + 76/3 =
 * 176/3, z = 15/√(176/3). Slopes of the first: all 1; of the second: −1, 1/2, 1, 2/3, 2, 2, 1, 2, 1/2, −1. Of the 20,
 * sorted, the 10th and 11th are 1. */
START_TEST(two_seasons_by_hand)
{
    struct seasonal test = of(&(struct made){2, 5, {{1, 2, 3, 4, 5}, {2, 1, 3, 5, 4}}});
    ck_assert_uint_eq(test.points, 10);
    ck_assert_uint_eq(test.pairs, 20);
    NEAR(test.s, 16);
    NEAR(test.variance, 176.0 / 3);
    NEAR(test.p, all_orders(&(struct made){2, 5, {{1, 2, 3, 4, 5}, {2, 1, 3, 5, 4}}}).as_far / 120);
    NEAR(test.slope, 1);
}
END_TEST

/* Three waves of 100, 105, 110 kg and one more of 101, 106, 111: each step has three ties, var S_g = (4·3·13 −
 * 3·2·11)/18 = 5; S = 3·3. */
START_TEST(ties_by_hand)
{
    struct seasonal test = of(&(struct made){3, 4, {{100, 100, 100, 101}, {105, 105, 105, 106}, {110, 110, 110, 111}}});
    NEAR(test.s, 9);
    NEAR(test.variance, 15);   /* four waves are too few for covariances */
    NEAR(test.slope, 1.0 / 6); /* of each step's slopes 0, 0, 0, 1/3, 1/2, 1 */
}
END_TEST

START_TEST(one_season_is_mann_kendall_and_theil_sen)
{
    const double x[] = {0, 1, 2, 3, 4, 5, 6, 7, 8}, y[] = {3, 1, 4, 1, 5, 9, 2, 6, 5};
    struct made made = {1, 9, {{3, 1, 4, 1, 5, 9, 2, 6, 5}}};
    struct seasonal test = of(&made);
    struct slope slope = theil_sen(x, y, 9, 0.95);
    struct mann_kendall kendall = mann_kendall(y, 9);
    NEAR(test.s, kendall.s);
    NEAR(test.variance, kendall.variance);
    NEAR(test.p, kendall.p);
    NEAR(test.slope, slope.slope);
    NEAR(test.low, slope.low);
    NEAR(test.high, slope.high);
}
END_TEST

static const struct made samples[] = {
    {2, 5, {{1, 2, 3, 4, 5}, {2, 1, 3, 5, 4}}},
    {2, 6, {{100, 102.5, 100, 105, 102.5, 107.5}, {110, 112.5, 107.5, 112.5, 115, 112.5}}},
    {3, 7, {{60, 61, 61, 60, 62, 63, 62}, {66, 66, 67, 65, 68, 69, 70}, {72, 73, 72, 72, 74, 73, 75}}},
    {3, 6, {{0, 1, 2, 3, 4, 5}, {1, 1, 1, 1, 1, 2}, {3, 1, 4, 1, 5, 9}}},
};

/* Were the waves in any order, S would have just this variance: Σ S² over all orders of whole waves, divided by their
 * number. */
START_TEST(variance_is_that_of_all_orders_of_whole_waves)
{
    const struct made *made = &samples[_i];
    struct permuted exact = all_orders(made);
    NEAR(of(made).variance, exact.squares / exact.orders);
}
END_TEST

/* Steps that go against each other would make S too sure of itself. */
START_TEST(variance_is_at_least_half_of_that_without_covariances)
{
    NEAR(of(&(struct made){2, 5, {{1, 2, 3, 4, 5}, {5, 4, 3, 2, 1}}}).variance, 50.0 / 3);
}
END_TEST

START_TEST(p_is_that_of_all_orders)
{
    const struct made *made = &samples[_i];
    struct permuted exact = all_orders(made);
    NEAR(of(made).p, exact.as_far / exact.orders);
}
END_TEST

/* Above eight waves by the normal distribution, which is near. */
START_TEST(p_is_near_that_of_all_orders)
{
    const struct made made = {2, 9, {{1, 2, 3, 5, 4, 6, 8, 7, 9}, {2, 1, 4, 3, 5, 6, 6, 5, 8}}};
    struct seasonal test = of(&made);
    struct permuted exact = all_orders(&made);
    NEAR(test.p, erfc((fabs(test.s) - 1) / sqrt(test.variance) / sqrt(2)));
    ck_assert_double_eq_tol(test.p, exact.as_far / exact.orders, 0.002);
}
END_TEST

/* A wave that lacks a step takes its place with what it has. Of (1, 2, 3, 4, 5) only the order itself and its reverse
 * reach |S| = 10: 2 of 120. */
START_TEST(waves_that_lack_a_step)
{
    NEAR(of(&(struct made){1, 5, {{1, 2, 3, 4, 5}}}).p, 2.0 / 120);
    const struct made made = {2, 5, {{1, 2, 3, 4, 5}, {NAN, 1, NAN, 2, 3}}};
    NEAR(of(&made).s, 13);
    NEAR(of(&made).p, 2.0 / 120);
}
END_TEST

START_TEST(order_of_the_points_and_unknown_values_do_not_matter)
{
    const struct seasonal_point points[] = {{7, 3, 12}, {2, 1, 5}, {7, 1, 10}, {2, 2, NAN}, {2, 3, 8}, {9, 1, 1}};
    struct seasonal test = seasonal_kendall(points, 6, 0.95);
    ck_assert_uint_eq(test.points, 4);
    ck_assert_uint_eq(test.pairs, 2);
    NEAR(test.s, 2);
    NEAR(test.slope, 1.25);
}
END_TEST

START_TEST(nothing_to_compare)
{
    struct seasonal none = seasonal_kendall(NULL, 0, 0.95), flat = of(&(struct made){1, 4, {{5, 5, 5, 5}}});
    ck_assert_uint_eq(none.pairs, 0);
    ck_assert(isnan(none.slope) && isnan(none.p));
    NEAR(flat.slope, 0);
    ck_assert(isnan(flat.p)); /* S cannot vary */
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("seasonal");
    TCase *cases = tcase_create("seasonal");
    tcase_add_test(cases, two_seasons_by_hand);
    tcase_add_test(cases, ties_by_hand);
    tcase_add_test(cases, one_season_is_mann_kendall_and_theil_sen);
    tcase_add_loop_test(cases, variance_is_that_of_all_orders_of_whole_waves, 0, sizeof samples / sizeof *samples);
    tcase_add_test(cases, variance_is_at_least_half_of_that_without_covariances);
    tcase_add_test(cases, p_is_near_that_of_all_orders);
    tcase_add_test(cases, waves_that_lack_a_step);
    tcase_add_loop_test(cases, p_is_that_of_all_orders, 0, sizeof samples / sizeof *samples);
    tcase_add_test(cases, order_of_the_points_and_unknown_values_do_not_matter);
    tcase_add_test(cases, nothing_to_compare);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
