#include "analysis/statistics/pairs.h"

#include "analysis/statistics/statistics.h"

#include <check.h>
#include <gsl/gsl_sort.h>
#include <math.h>
#include <stdlib.h>

#define MOST_POINTS 600

static struct arena *arena;
static unsigned state;

static void setup(void)
{
    arena = arena_new();
    state = 1;
}

static void teardown(void)
{
    arena_free(arena);
}

static unsigned next_random(unsigned below)
{
    state = state * 1103515245U + 12345U;
    return (state >> 8) % below;
}

/* Shapes of a log: what is smooth, wild, mostly nothing, in waves of three, rising and alike by ties. */
static double shaped(unsigned shape, unsigned i)
{
    switch (shape) {
    case 0:
        return next_random(100000) / 7.0;
    case 1:
        return i * 3.0 + next_random(1000) / 8.0;
    case 2:
        return next_random(4) ? 0 : 1000 + next_random(9) * 2.5;
    case 3:
        return 100 + 5 * (i % 3) + 0.1 * i;
    case 4:
        return next_random(3);
    case 5:
        return i % 50 ? 1.0 * i : -1e6;
    case 6:
        return i < MOST_POINTS / 2 ? i : 300.0 - 2.0 * i;
    default:
        return -7.0 * i;
    }
}

#define SHAPES 8

struct made_points
{
    double x[MOST_POINTS], y[MOST_POINTS];
    struct pairs pairs;
};

static void make_points(struct made_points *points, unsigned shape, size_t count)
{
    double x = 0;
    for (unsigned i = 0; i < count; i++) {
        points->x[i] = x;
        points->y[i] = shaped(shape, i);
        x += shape % 2 ? 1 : next_random(4); /* weeks missing, and some twice */
    }
    points->pairs = (struct pairs){points->x, points->y, points->y, count};
}

static double *all_slopes(const struct pairs *pairs, size_t *count)
{
    double *slopes = ARENA_ARRAY(arena, double, pairs->points * pairs->points / 2 + 1);
    *count = 0;
    for (size_t i = 0; i < pairs->points; i++)
        for (size_t j = i + 1; j < pairs->points; j++)
            if (pairs->x[j] > pairs->x[i])
                slopes[(*count)++] = pairs->alike[j] == pairs->alike[i]
                                         ? 0
                                         : (pairs->y[j] - pairs->y[i]) / (pairs->x[j] - pairs->x[i]);
    gsl_sort(slopes, 1, *count);
    return slopes;
}

static void check_ranks(const struct pairs *pairs, const double *sorted, const size_t ranks[4])
{
    double found[4];
    pairs_slopes_at(pairs, ranks, 4, found);
    for (int i = 0; i < 4; i++)
        ck_assert_double_eq(found[i], sorted[ranks[i]]);
}

/* At the middle, far apart, and at both ends. */
static void check_series(const struct pairs *pairs)
{
    size_t count;
    const double *sorted = all_slopes(pairs, &count);
    ck_assert_uint_eq(pairs_count(pairs), count);
    if (!count)
        return;
    size_t middle = (count - 1) / 2, a = next_random((unsigned)count), b = next_random((unsigned)count);
    check_ranks(pairs, sorted, (size_t[]){middle - middle / 20, middle, count / 2, count / 2 + count / 50});
    check_ranks(pairs, sorted, (size_t[]){0, middle, middle, count - 1});
    check_ranks(pairs, sorted, (size_t[]){0, 0, 0, 0});
    check_ranks(pairs, sorted, (size_t[]){count - 1, count - 1, count - 1, count - 1});
    check_ranks(pairs, sorted, (size_t[]){a < b ? a : b, a < b ? a : b, a < b ? b : a, a < b ? b : a});
}

START_TEST(slopes_are_those_of_all_pairs_sorted)
{
    static const size_t sizes[] = {0, 1, 2, 3, 5, 30, 90, 91, 92, 150, 333, MOST_POINTS};
    static struct made_points points;
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) {
        make_points(&points, (unsigned)_i, sizes[i]);
        check_series(&points.pairs);
        arena_reset(arena);
    }
}
END_TEST

START_TEST(what_is_alike_has_no_slope)
{
    const double x[] = {0, 1, 2}, y[] = {5, 6, 7}, alike[] = {5, 5, 7};
    const struct pairs pairs = {x, y, alike, 3};
    double slopes[3];
    pairs_slopes_at(&pairs, (size_t[]){0, 1, 2}, 3, slopes);
    ck_assert_double_eq(slopes[0], 0);
    ck_assert_double_eq(slopes[1], 1);
    ck_assert_double_eq(slopes[2], 1);
}
END_TEST

START_TEST(one_point_has_no_slope_to_find)
{
    const double x[] = {0}, y[] = {5};
    const struct pairs pairs = {x, y, y, 1};
    pairs_slopes_at(&pairs, NULL, 0, NULL); /* asks for room for no slopes */
    ck_assert_uint_eq(pairs_count(&pairs), 0);
}
END_TEST

START_TEST(sorting_counts_what_stood_wrong)
{
    static struct made_points points;
    for (size_t count = 0; count < 200; count += count < 8 ? 1 : 37) {
        double wrong = 0, signs = 0;
        make_points(&points, (unsigned)_i, count);
        for (size_t i = 0; i < count; i++) {
            for (size_t j = i + 1; j < count; j++) {
                wrong += points.y[i] > points.y[j];
                signs += (points.y[j] > points.y[i]) - (points.y[j] < points.y[i]);
            }
        }
        ck_assert_double_eq(mann_kendall(points.y, count).s, signs);
        ck_assert_double_eq(sort_counting(arena, points.y, count), wrong);
        for (size_t i = 1; i < count; i++)
            ck_assert_double_le(points.y[i - 1], points.y[i]);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("pairs");
    TCase *cases = tcase_create("pairs");
    tcase_add_checked_fixture(cases, setup, teardown);
    tcase_add_loop_test(cases, slopes_are_those_of_all_pairs_sorted, 0, SHAPES);
    tcase_add_test(cases, what_is_alike_has_no_slope);
    tcase_add_test(cases, one_point_has_no_slope_to_find);
    tcase_add_loop_test(cases, sorting_counts_what_stood_wrong, 0, SHAPES);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
