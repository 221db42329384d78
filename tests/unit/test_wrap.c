#include "model/geometry/wrap.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>

#define R 0.025
#define THIN 0, 0
#define HALF_TURNS (M_PI * 2 * R)

/* Lengths and cosines by hand: 0.3, 0.4, 0.5 and 0.6, 0.8, 1.0 are right triangles. */
static const struct
{
    struct wrap wrap;
    double rise_m, length_m, down, fore_aft;
} rows[] = {
    {{0, 0, 0, THIN, false}, 0.5, 1.0, 2, 0},               /* a loop between two points */
    {{0, 0, 0, THIN, true}, 0.5, 2.0, 4, 0},                /* folded round one of them */
    {{0, 0, 0, THIN, false}, -0.5, 1.0, -2, 0},             /* from above */
    {{0, 0.3, 0, THIN, false}, 0.4, 1.0, 2 * 0.8, 2 * 0.6}, /* an anchor to the front */
    {{0, 0, 0.3, THIN, false}, 0.4, 1.0, 2 * 0.8, 0},       /* and to the side */
    {{0.6, 0, 0, THIN, false}, 0.4, 0.6 + 2 * 0.5, 1.6, 0}, /* round two pegs: three runs */
    {{0.6, 0, 0, THIN, false}, -0.4, 0.6 + 2 * 0.5, -1.6, 0},
    {{0.6, 0, 0, THIN, true}, 0.4, 2 * (0.6 + 2 * 0.5), 3.2, 0},
    {{0.9, 0.15, 0, THIN, false},
     0.8,
     0.9 + 1.0 + 0.8544003745317531,
     0.8 + 0.8 / 0.8544003745317531,
     0.6 - 0.3 / 0.8544003745317531},                      /* one peg 0.6 m in front, one 0.3 m behind */
    {{0, 0, 0, R, R, false}, 0.5, 1.0 + HALF_TURNS, 2, 0}, /* straight runs and half turns */
    {{0, 0, 0, R, R, false}, -0.5, 1.0 + HALF_TURNS, -2, 0},
    {{0.6, 0, 0, R, R, false}, 0.4, 1.6 + HALF_TURNS, 1.6, 0}, /* all three arcs are a full turn */
    {{0.6, 0, 0, 0, R, false}, 0.01, 1.2 + HALF_TURNS, 0, 0},  /* the bar is within the band, and does not touch it */
    /* A run that crosses from 0.025 on the one side to 0.025 on the other is sqrt(0.5^2 - 0.05^2) long, and turns
     * asin(0.1) more round both at each end. */
    {{0, 0, 0, R, R, true},
     0.5,
     1.0 + 2 * 0.4974937185533100 + 4 * M_PI *R + 4 * R * 0.1001674211615598,
     2 + 2 * 0.9949874371066200,
     0},
    /* A bar of 50 mm on a thin peg: of the circle, two times asin(0.05) more than half. */
    {{0, 0, 0, R, 0, false},
     0.5,
     2 * 0.4993746088859545 + R *(M_PI + 2 * 0.0500208568057700),
     2 * 0.9987492177719089,
     0},
};

START_TEST(length_and_cosines)
{
    struct wrap_runs runs = wrap_at(&rows[_i].wrap, rows[_i].rise_m);
    ck_assert_double_eq_tol(runs.length_m, rows[_i].length_m, 1e-12);
    ck_assert_double_eq_tol(runs.down, rows[_i].down, 1e-12);
    ck_assert_double_eq_tol(runs.fore_aft, rows[_i].fore_aft, 1e-12);
}
END_TEST

/* --- against a string round many points --- */

#define CIRCLE 4000

struct point
{
    double x, y;
};

static int by_x(const void *left, const void *right)
{
    const struct point *a = left, *b = right;
    if (a->x != b->x)
        return a->x < b->x ? -1 : 1;
    return a->y < b->y ? -1 : a->y > b->y;
}

static double turn(struct point a, struct point b, struct point c)
{
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

/* Andrew's monotone chain, 1979, Inf Process Lett 9(5):216-219 */
static double hull_length_m(struct point *points, int count)
{
    static struct point hull[6 * CIRCLE + 1];
    int size = 0;
    double length = 0;
    qsort(points, (size_t)count, sizeof *points, by_x);
    for (int i = 0; i < count; hull[size++] = points[i++])
        while (size >= 2 && turn(hull[size - 2], hull[size - 1], points[i]) <= 0)
            size--;
    for (int i = count - 2, least = size + 1; i >= 0; hull[size++] = points[i--])
        while (size >= least && turn(hull[size - 2], hull[size - 1], points[i]) <= 0)
            size--;
    for (int i = 1; i < size; i++)
        length += hypot(hull[i].x - hull[i - 1].x, hull[i].y - hull[i - 1].y);
    return length;
}

static void put_circle(struct point *to, double x, double y, double radius)
{
    for (int i = 0; i < CIRCLE; i++)
        to[i] = (struct point){x + radius * cos(2 * M_PI * i / CIRCLE), y + radius * sin(2 * M_PI * i / CIRCLE)};
}

START_TEST(as_long_as_a_string_round_all_of_them)
{
    static struct point points[3 * CIRCLE];
    static const double radii[] = {0, 0.014, 0.025, 0.04};
    for (int i = 0; i < 64; i++) {
        struct wrap wrap = {.apart_m = 0.3 + 0.1 * (i % 4),
                            .aside_m = 0.05 * (i % 3),
                            .bar_radius_m = radii[i % 4],
                            .peg_radius_m = radii[(i / 4) % 4]};
        double rise = -0.3 + 0.0217 * i;
        put_circle(points, 0, rise, wrap.bar_radius_m);
        put_circle(points + CIRCLE, wrap.aside_m + wrap.apart_m / 2, 0, wrap.peg_radius_m);
        put_circle(points + 2 * CIRCLE, wrap.aside_m - wrap.apart_m / 2, 0, wrap.peg_radius_m);
        ck_assert_double_eq_tol(wrap_at(&wrap, rise).length_m, hull_length_m(points, 3 * CIRCLE), 1e-6);
    }
}
END_TEST

/* --- properties --- */

static const struct wrap shapes[] = {
    {0, 0, 0, THIN, false},        {0, 0.1, 0.12, R, 0.03, false}, {0.5, 0.05, 0, R, 0.03, false},
    {0.5, 0.05, 0, R, 0.03, true}, {0, 0, 0, 0.014, 0.03, true},   {0.8, 0, 0.12, 0.014, 0.03, false},
    {0.8, 0, 0.12, R, 0.03, true}, {0.4, 0, 0, 0.04, 0.02, false},
};

START_TEST(rates_are_derivatives)
{
    const double step = 1e-6;
    for (double rise = 0.1003; rise < 1.5; rise += 0.07) {
        struct wrap_runs low = wrap_at(&shapes[_i], rise - step), at = wrap_at(&shapes[_i], rise),
                         high = wrap_at(&shapes[_i], rise + step);
        ck_assert_double_eq_tol(at.grows, (high.length_m - low.length_m) / (2 * step), 1e-7);
        ck_assert_double_eq_tol(at.down_per_m, (high.down - low.down) / (2 * step), 1e-6);
        if (!(shapes[_i].spread_m > 0)) /* no work is lost: what a strand pulls is what its length grows by */
            ck_assert_double_eq_tol(at.grows, at.down, 1e-12);
    }
}
END_TEST

START_TEST(longer_and_steeper_the_higher_without_a_jump)
{
    struct wrap_runs before = wrap_at(&shapes[_i], 0.1);
    for (double rise = 0.101; rise < 2; rise += 0.001) {
        struct wrap_runs runs = wrap_at(&shapes[_i], rise);
        ck_assert(runs.length_m > before.length_m && runs.length_m < before.length_m + 4.1 * 0.001);
        ck_assert(runs.down >= before.down - 1e-12 && runs.down < before.down + 0.05);
        before = runs;
    }
}
END_TEST

/* Closed, a band goes on from below the pegs to above them. */
START_TEST(nothing_jumps_between_the_pegs)
{
    const struct wrap wraps[] = {{0.6, 0, 0, 0.04, 0.02, false}, {0.6, 0.1, 0, 0.014, 0.03, false}};
    for (size_t i = 0; i < 2; i++) {
        struct wrap_runs before = wrap_at(&wraps[i], -0.1);
        for (double rise = -0.1 + 1e-5; rise < 0.1; rise += 1e-5) {
            struct wrap_runs runs = wrap_at(&wraps[i], rise);
            ck_assert_double_eq_tol(runs.length_m, before.length_m, 1e-4);
            ck_assert_double_eq_tol(runs.down, before.down, 1e-3);
            before = runs;
        }
    }
}
END_TEST

/* Pegs that come together are one peg. */
START_TEST(two_pegs_in_one_place)
{
    for (int folded = 0; folded <= 1; folded++) {
        const struct wrap one = {0, 0, 0, THIN, folded}, two = {1e-9, 0, 0, THIN, folded};
        struct wrap_runs a = wrap_at(&one, 0.7), b = wrap_at(&two, 0.7);
        ck_assert_double_eq_tol(a.length_m, b.length_m, 1e-8);
        ck_assert_double_eq_tol(a.down, b.down, 1e-8);
    }
}
END_TEST

#define ADD_ROWS(test, table) tcase_add_loop_test(cases, test, 0, sizeof table / sizeof *table)

int main(void)
{
    Suite *suite = suite_create("wrap");
    TCase *cases = tcase_create("wrap");
    ADD_ROWS(length_and_cosines, rows);
    tcase_add_test(cases, as_long_as_a_string_round_all_of_them);
    ADD_ROWS(rates_are_derivatives, shapes);
    ADD_ROWS(longer_and_steeper_the_higher_without_a_jump, shapes);
    tcase_add_test(cases, nothing_jumps_between_the_pegs);
    tcase_add_test(cases, two_pegs_in_one_place);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
