#include "model/geometry/catenary.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>

/* By hand. */
static const struct
{
    struct pinned_strand strand;
    double carried_m, level_m, floor_m;
} rows[] = {
    {{2.0, 1.0, 1.0, 0}, 1.0, 0, 0}, /* both ends in one place: half on each, the bend just at the floor */
    {{1.0, 1.0, 0.6, 0}, 0.7, 0, 0}, /* two verticals: 0.7 and 0.3 m */
    {{1.0, 0.6, 1.0, 0}, 0.3, 0, 0},
    {{3.0, 0.8, 0.6, 0}, 0.8, 0, 1.6},   /* slack on the floor */
    {{3.0, 0.8, 0.6, 0.5}, 0.8, 0, 1.6}, /* and as slack with half a metre between the ends */
    {{3.0, 0, 0.6, 0.5}, 0, 0, 2.4},     /* the bar's end lies on the floor */
    /* Equal heights: half of it, whatever it pulls to the side. u = 1: sinh 1 = 1.175201193643801, a = 2 c. */
    {{1.175201193643801, 1, 1, 1}, 0.5876005968219007, 0.5, 0},
    /* u = 1 again, and l² - v² as before: v = 0.5, l = sqrt(1.631097845541) m; coth 1 = 1.313035285499331 */
    {{1.2771444106058703, 1.5, 1, 1}, (1.2771444106058703 + 0.5 * 1.313035285499331) / 2, 0.5, 0},
    /* From 1 m above a smooth floor with c = 0.5: s = sqrt(1 + 1), x = arcosh(3) / 2, twice; 0.3 m lie between. */
    {{2 * M_SQRT2 + 0.3, 1, 1, 1.762747174039086 + 0.3}, M_SQRT2, 0.5, 0.3},
    /* The same on one side, and a pin on the floor. */
    {{M_SQRT2 + 0.3, 1, 0, 1.762747174039086 / 2 + 0.3}, M_SQRT2, 0.5, 0.3},
};

START_TEST(what_the_bar_carries)
{
    struct catenary catenary = catenary_of(&rows[_i].strand);
    ck_assert_double_eq_tol(catenary.carried_m, rows[_i].carried_m, 1e-11);
    ck_assert_double_eq_tol(catenary.level_m, rows[_i].level_m, 1e-11);
    ck_assert_double_eq_tol(catenary.floor_m, rows[_i].floor_m, 1e-11);
}
END_TEST

START_TEST(too_short)
{
    const struct pinned_strand straight = {0.5, 1.0, 0.6, 0.3}, beyond = {0.49, 1.0, 0.6, 0.3},
                               just = {0.500001, 1.0, 0.6, 0.3};
    ck_assert(!catenary_reaches(&straight) && isnan(catenary_of(&straight).carried_m));
    ck_assert(!catenary_reaches(&beyond) && isnan(catenary_of(&beyond).carried_m));
    ck_assert(catenary_reaches(&just));
    struct catenary taut = catenary_of(&just); /* along a straight line up from the pin, and hard */
    ck_assert_double_eq_tol(taut.carried_m / taut.level_m, 4.0 / 3, 1e-2);
    ck_assert_double_gt(taut.level_m, 25);
}
END_TEST

/* --- link by link --- */

#define LINKS 400000

struct end
{
    double x, y, upward_m;
};

/* From one end down: each link lies along the pull at its middle, and that sinks by its weight. It stops at the floor,
 * where nothing pulls it up. `hung`: metres. */
static struct end walk(double carried_m, double level_m, double start_m, double hung_m)
{
    struct end at = {0, start_m, carried_m};
    double link = hung_m / LINKS;
    for (int i = 0; i < LINKS; i++) {
        double up = at.upward_m - link / 2, pull = hypot(level_m, up);
        at.x += link * level_m / pull;
        at.y -= link * up / pull;
        at.upward_m -= link;
    }
    return at;
}

static const struct pinned_strand shapes[] = {
    {1.0, 1.2, 0.8, 0.5},  {1.0, 0.6, 0.8, 0.5},  {1.0, 0.8, 0.8, 0.5},   {1.3, 1.9, 0.8, 0.5},
    {2.0, 1.2, 0.8, 0.5},  {2.0, 0.9, 0.6, 1.1},  {2.0, 0.5, 0.1, 1.7},   {1.5, 0.3, 1.2, 0.6},
    {0.86, 1.3, 0.6, 0.4}, {2.6, 0.9, 0.2, 1.55}, {2.4, 1.2, 1.1, 0.002},
};

START_TEST(links_reach_the_pin)
{
    const struct pinned_strand *strand = &shapes[_i];
    struct catenary catenary = catenary_of(strand);
    if (catenary.floor_m > 0) {
        double other = strand->length_m - catenary.carried_m - catenary.floor_m;
        struct end down = walk(catenary.carried_m, catenary.level_m, strand->end_m, catenary.carried_m),
                   up = walk(other, catenary.level_m, strand->pin_m, other);
        ck_assert_double_eq_tol(down.y, 0, 1e-6);
        ck_assert_double_eq_tol(up.y, 0, 1e-6);
        if (catenary.level_m > 0) /* else it lies in a heap */
            ck_assert_double_eq_tol(down.x + up.x + catenary.floor_m, strand->aside_m, 1e-6);
    } else {
        struct end pin = walk(catenary.carried_m, catenary.level_m, strand->end_m, strand->length_m);
        ck_assert_double_eq_tol(pin.x, strand->aside_m, 1e-6);
        ck_assert_double_eq_tol(pin.y, strand->pin_m, 1e-6);
    }
}
END_TEST

/* --- properties --- */

START_TEST(carries_more_the_higher_without_a_jump)
{
    struct pinned_strand strand = shapes[_i];
    double before = -INFINITY, step = 1e-4;
    for (strand.end_m = 0.001; catenary_reaches(&strand); strand.end_m += step) {
        struct catenary catenary = catenary_of(&strand);
        double span = hypot(strand.aside_m, strand.end_m - strand.pin_m);
        ck_assert_double_ge(catenary.carried_m, before - 1e-12);
        if (span < 0.97 * strand.length_m && strand.end_m > 0.05 && before > -INFINITY)
            ck_assert_double_lt(catenary.carried_m, before + 100 * step);
        before = span > 0.03 * strand.length_m || strand.end_m > 0.05 ? catenary.carried_m : -INFINITY;
    }
}
END_TEST

START_TEST(the_rate_is_the_derivative)
{
    struct pinned_strand strand = shapes[_i], low, high;
    const double step = 1e-6;
    for (strand.end_m = 0.0503; catenary_reaches(&strand); strand.end_m += 0.05) {
        low = high = strand;
        low.end_m -= step, high.end_m += step;
        if (!catenary_reaches(&high) || hypot(strand.aside_m, strand.end_m - strand.pin_m) > 0.99 * strand.length_m)
            break;
        if (!catenary_reaches(&low) || strand.pin_m - strand.end_m > 0.97 * strand.length_m)
            continue;
        double rate = (catenary_of(&high).carried_m - catenary_of(&low).carried_m) / (2 * step);
        ck_assert_double_eq_tol(catenary_of(&strand).carried_rate, rate, 1e-5 * fmax(1, rate));
    }
}
END_TEST

/* The nearer the pin, and so the slacker, the nearer to two verticals; on the floor, to one. */
START_TEST(slack_it_hangs_straight_down)
{
    double apart = INFINITY;
    for (double aside = 0.6; aside > 1e-8; aside /= 2) {
        struct pinned_strand strand = {1.0, 1.2, 0.9, aside};
        double off = fabs(catenary_of(&strand).carried_m - 0.65);
        ck_assert(off <= apart + 1e-12);
        apart = off;
    }
    ck_assert_double_lt(apart, 1e-12);
    apart = INFINITY;
    for (double length = 1.2; length < 3; length += 0.05) {
        struct pinned_strand strand = {length, 0.9, 0.7, 0.5};
        double off = fabs(catenary_of(&strand).carried_m - 0.9);
        ck_assert(length < 1.75 || off <= apart + 1e-12);
        apart = length < 1.75 ? INFINITY : off;
    }
    ck_assert_double_lt(apart, 1e-12);
}
END_TEST

/* Where the first link comes to lie on the floor. */
START_TEST(the_floor_takes_over_without_a_jump)
{
    struct pinned_strand strand = {2.0, 0, 0.7, 0.8};
    double before = NAN;
    bool lay = true;
    for (strand.end_m = 0.05; strand.end_m < 1.5; strand.end_m += 1e-5) {
        struct catenary catenary = catenary_of(&strand);
        if (lay != (catenary.floor_m > 0))
            ck_assert_double_eq_tol(catenary.carried_m, before, 1e-4);
        lay = catenary.floor_m > 0;
        before = catenary.carried_m;
    }
    ck_assert(!lay);
}
END_TEST

#define ADD_ROWS(test, table) tcase_add_loop_test(cases, test, 0, sizeof table / sizeof *table)

int main(void)
{
    Suite *suite = suite_create("catenary");
    TCase *cases = tcase_create("catenary");
    ADD_ROWS(what_the_bar_carries, rows);
    tcase_add_test(cases, too_short);
    ADD_ROWS(links_reach_the_pin, shapes);
    ADD_ROWS(carries_more_the_higher_without_a_jump, shapes);
    ADD_ROWS(the_rate_is_the_derivative, shapes);
    tcase_add_test(cases, slack_it_hangs_straight_down);
    tcase_add_test(cases, the_floor_takes_over_without_a_jump);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
