#include "model/inertia.h"

#include "base/unit.h"
#include "invented_gym.h"
#include "model/curve.h"
#include "model/loading.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>

static struct arena *arena;
static struct gym *gym;

static void set_up(void)
{
    arena = arena_new();
    gym = invented_gym(arena);
}

static void tear_down(void)
{
    arena_free(arena);
}

static const struct loading *hang(const struct piece *pieces, size_t count)
{
    struct load *load = ARENA_NEW(arena, struct load);
    *load = (struct load){.straight = STRAIGHT_MASS, .kg = 100, .pieces = pieces, .piece_count = count};
    struct loading_context context = {gym, gym_lifter(gym, MEASURED), "squat", NO_DAY, NAN, NAN};
    return loading_make(arena, load, &context);
}

/* 0.6 m at a mean of 0.6 m/s take a second. Half a sine of that mean has its peak at π/2 × 0.6 = 0.942478 m/s, and its
 * slope at the start is π × 0.942478 = 2.960881 m/s². */
START_TEST(half_a_sine)
{
    const struct bar_motion motion = {0.6, 1.2, 0.6};
    ck_assert_double_eq_tol(bar_motion_peak_ms(&motion), 0.942478, 1e-6);
    ck_assert_double_eq_tol(bar_motion_acceleration_ms2(&motion, 0.6), 2.960881, 1e-6);
    ck_assert_double_eq_tol(bar_motion_acceleration_ms2(&motion, 0.9), 0, 1e-12);
    ck_assert_double_eq_tol(bar_motion_acceleration_ms2(&motion, 1.2), -2.960881, 1e-6);
    ck_assert_double_eq(bar_motion_speed_ms(&motion, 0.6), 0);
    ck_assert_double_eq_tol(bar_motion_speed_ms(&motion, 0.9), 0.942478, 1e-6);
    ck_assert_double_eq_tol(bar_motion_speed_ms(&motion, 1.2), 0, 1e-7);
    struct bar_motion same = bar_motion_of_peak(0.6, 1.2, bar_motion_peak_ms(&motion));
    ck_assert_double_eq_tol(same.mean_ms, 0.6, 1e-12);
}
END_TEST

/* Where the bar is t seconds after it left the bottom: h_b + D/2 (1 − cos πt/T). */
START_TEST(speed_and_acceleration_are_those_of_the_way)
{
    const struct bar_motion motion = {0.6, 1.3, 0.5};
    const double whole = 0.7 / 0.5;
    for (int i = 1; i < 20; i++) {
        double phase = M_PI * i / 20, height = 0.6 + 0.35 * (1 - cos(phase));
        double speed = 0.35 * M_PI / whole * sin(phase), acceleration = 0.35 * pow(M_PI / whole, 2) * cos(phase);
        ck_assert_double_eq_tol(bar_motion_speed_ms(&motion, height), speed, 1e-9);
        ck_assert_double_eq_tol(bar_motion_acceleration_ms2(&motion, height), acceleration, 1e-9);
    }
}
END_TEST

/* The squat goes from 0.78 to 1.42 m. At a mean of 0.64 m/s it takes a second: 0.32 π² = 3.158273 m/s² at the bottom,
 * and 0.32 π = 1.005310 m/s half way, at 1.10 m. */
START_TEST(mass_that_moves)
{
    const struct piece chains[] = {CHAIN_NAMED(2, "long")}, written[] = {CHAIN_MASS(0, 32)},
                       bands[] = {BAND(1, "b26"), RELEASERS(1, 10)};
    const struct bar_motion motion = {0.78, 1.42, 0.64};
    const double start = 3.158273 / STANDARD_GRAVITY_MS2, thrust = 1.005310 * 1.005310 / STANDARD_GRAVITY_MS2;
    /* straight weight alone */
    ck_assert_double_eq_tol(loading_inertia_kg(hang(NULL, 0), &motion, 0.78), 100 * start, 1e-4);
    ck_assert_double_eq_tol(loading_inertia_kg(hang(NULL, 0), &motion, 1.42), -100 * start, 1e-4);
    /* bands have no mass, and releasers have dropped off */
    ck_assert_double_eq(loading_moving_kg(hang(bands, 2), 1.2), 100);
    ck_assert_double_eq_tol(loading_inertia_kg(hang(bands, 2), &motion, 0.78), 100 * start, 1e-4);
    /* four chains of 8.4 kg in 1.8 m on leaders of 0.40 m and 0.3 kg: 8.293333 kg hang at the bottom; half
     * way 18.666667 kg a metre are picked up, and nothing speeds up */
    const struct loading *loading = hang(chains, 1);
    ck_assert_double_eq_tol(loading_moving_kg(loading, 0.78), 108.293333, 1e-6);
    ck_assert_double_eq_tol(loading_inertia_kg(loading, &motion, 0.78), 108.293333 * start, 1e-4);
    ck_assert_double_eq_tol(loading_inertia_kg(loading, &motion, 1.10), 18.666667 * thrust, 1e-4);
    /* 32 kg by mass alone: 50 kg a metre over 0.64 m */
    loading = hang(written, 1);
    ck_assert_double_eq_tol(loading_moving_kg(loading, 1.10), 116, 1e-9);
    ck_assert_double_eq_tol(loading_inertia_kg(loading, &motion, 1.10), 50 * thrust, 1e-4);
}
END_TEST

/* What moves comes to rest again: the work of its inertia is what picking up links takes, ½ ∫ λ v² dh, and none where
 * no link is picked up. */
START_TEST(inertia_gives_back_its_work)
{
    const struct piece chains[] = {CHAIN_NAMED(2, "long")};
    const struct bar_motion motion = {0.78, 1.42, 0.64};
    const struct loading *bare = hang(NULL, 0), *hung = hang(chains, 1);
    double of_bare = 0, of_hung = 0, picked_up = 0;
    enum
    {
        STEPS = 20000
    };
    for (int i = 0; i < STEPS; i++) {
        double height = 0.78 + (i + 0.5) * 0.64 / STEPS, speed = bar_motion_speed_ms(&motion, height);
        of_bare += loading_inertia_kg(bare, &motion, height) * 0.64 / STEPS;
        of_hung += loading_inertia_kg(hung, &motion, height) * 0.64 / STEPS;
        picked_up += 4 * 8.4 / 1.8 * speed * speed / 2 / STANDARD_GRAVITY_MS2 * 0.64 / STEPS;
    }
    ck_assert_double_eq_tol(of_bare, 0, 1e-9);
    ck_assert_double_eq_tol(of_hung, picked_up, 1e-6);
}
END_TEST

START_TEST(what_is_not_known)
{
    const struct piece unknown[] = {CHAIN_NAMED(1, "no such")}, known[] = {CHAIN_COUNT(1)};
    const struct bar_motion motion = {0.78, 1.42, 0.64};
    ck_assert(isnan(loading_inertia_kg(hang(unknown, 1), &motion, 1.0)));
    struct load load = {.straight = STRAIGHT_MASS, .kg = 100, .pieces = known, .piece_count = 1};
    struct loading_context context = {gym, NULL, "squat", NO_DAY, NAN, NAN};
    ck_assert(isnan(loading_inertia_kg(loading_make(arena, &load, &context), &motion, 1.0)));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("inertia");
    TCase *cases = tcase_create("inertia");
    tcase_add_checked_fixture(cases, set_up, tear_down);
    tcase_add_test(cases, half_a_sine);
    tcase_add_test(cases, speed_and_acceleration_are_those_of_the_way);
    tcase_add_test(cases, mass_that_moves);
    tcase_add_test(cases, inertia_gives_back_its_work);
    tcase_add_test(cases, what_is_not_known);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
