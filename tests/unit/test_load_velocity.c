#include "analysis/load_velocity.h"

#include "unit/made_log.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>

static struct made *made;

static void setup(void)
{
    made = made_new();
}

static void teardown(void)
{
    made_free(made);
}

static struct set *measured(const char *iso, const struct load *load, int sets, double velocity_ms)
{
    struct set *last = add_sets(made, ODA, "squat", iso, load, sets, 2);
    uint32_t line = last->line;
    for (int i = 0; i < sets; i++) {
        last[-i].velocity_ms = velocity_ms;
        last[-i].line = line; /* one line of the log */
    }
    return last;
}

static struct velocity_profile only_profile(void)
{
    size_t count;
    const struct velocity_profile *profiles = velocity_profiles(made->arena, train(made), &count);
    ck_assert_uint_eq(count, 1);
    return profiles[0];
}

/* 220 − 200 v through (0.4, 140), (0.6, 100), (0.8, 60). */
static void three_loads(void)
{
    measured("2026-01-05", mass(made, 60), 1, 0.8);
    measured("2026-01-05", mass(made, 100), 1, 0.6);
    measured("2026-01-05", mass(made, 140), 1, 0.4);
}

START_TEST(a_line_through_three_loads)
{
    three_loads();
    struct velocity_profile profile = only_profile();
    ck_assert_int_eq(profile.state, VELOCITY_FITTED);
    ck_assert_uint_eq(profile.lines, 3);
    ck_assert_uint_eq(profile.loads, 3);
    ck_assert_double_eq_tol(profile.fit.slope, -200, 1e-9);
    ck_assert_double_eq_tol(profile.fit.intercept, 220, 1e-9);
    ck_assert_double_eq_tol(profile.fit.r2, 1, 1e-12);
    ck_assert_double_eq(profile.low_ms, 0.4);
    ck_assert_double_eq(profile.high_ms, 0.8);
    ck_assert_uint_eq(profile.ar_lines, 0);
}
END_TEST

START_TEST(two_loads_make_no_line)
{
    measured("2026-01-05", mass(made, 60), 1, 0.8);
    measured("2026-01-06", mass(made, 60), 1, 0.78);
    measured("2026-01-07", mass(made, 100), 1, 0.6);
    struct velocity_profile profile = only_profile();
    ck_assert_int_eq(profile.state, VELOCITY_TOO_FEW_LOADS);
    ck_assert_uint_eq(profile.loads, 2);
    ck_assert_double_nan(profile.fit.slope);
    ck_assert_double_nan(line_at(&profile.fit, 0.7, 0.95).at);
}
END_TEST

START_TEST(one_velocity_makes_no_line)
{
    for (int kg = 60; kg <= 100; kg += 20)
        measured("2026-01-05", mass(made, kg), 1, 0.7);
    ck_assert_int_eq(only_profile().state, VELOCITY_ALL_ALIKE);
}
END_TEST

START_TEST(a_line_of_the_log_is_one_measurement)
{
    measured("2026-01-05", mass(made, 60), 8, 0.8);
    measured("2026-01-05", mass(made, 100), 1, 0.6);
    measured("2026-01-05", mass(made, 140), 1, 0.4);
    ck_assert_uint_eq(only_profile().lines, 3);
}
END_TEST

/* 60 kg with 0 to 40 kg of band weighs 80 kg on the mean; the line at 0.6 m/s says 100 kg. */
START_TEST(ar_stands_apart)
{
    three_loads();
    measured("2026-01-06", banded(made, 60, 0, 40), 1, 0.6);
    measured("2026-01-07", banded(made, 60, 0, 40), 1, 1.2); /* faster than the line was measured */
    struct velocity_profile profile = only_profile();
    ck_assert_uint_eq(profile.lines, 3);
    ck_assert_double_eq_tol(profile.fit.slope, -200, 1e-9);
    ck_assert_uint_eq(profile.ar_lines, 2);
    ck_assert_double_eq_tol(profile.ar_velocity_ms, 0.9, 1e-12);
    ck_assert_double_eq_tol(profile.ar_mean_kg, 80, 1e-9);
    ck_assert_double_eq_tol(profile.ar_over_kg, -20, 1e-9);
}
END_TEST

START_TEST(warm_ups_and_misses_do_not_count)
{
    three_loads();
    measured("2026-01-06", mass(made, 20), 1, 1.5)->kind = SET_WARM_UP;
    measured("2026-01-06", mass(made, 150), 1, 0.2)->kind = SET_MISSED;
    ck_assert_uint_eq(only_profile().lines, 3);
}
END_TEST

static const struct
{
    const char *what;
    double kg[5], velocity_ms[5];
    enum focus focus;
    size_t lines; /* 0: no session */
    double loss;
} sessions[] = {
    {"slower by a fifth", {60, 60, 60}, {0.80, 0.72, 0.64}, FOCUS_SPEED, 3, 0.2},
    {"faster", {60, 60}, {0.80, 0.84}, FOCUS_SPEED, 2, -0.05},
    {"the load of most lines", {50, 60, 60, 60}, {0.95, 0.80, 0.79, 0.76}, FOCUS_SPEED, 3, 0.05},
    {"the first of equals", {60, 60, 80, 80}, {0.80, 0.76, 0.6, 0.3}, FOCUS_SPEED, 2, 0.05},
    {"one line tells nothing", {60}, {0.80}, FOCUS_SPEED, 0, 0},
    {"strength work", {100, 100}, {0.50, 0.40}, FOCUS_STRENGTH, 0, 0},
};

START_TEST(speed_loss_of_a_session)
{
    for (int i = 0; i < 5 && sessions[_i].kg[i] > 0; i++)
        measured("2026-01-05", mass(made, sessions[_i].kg[i]), 1, sessions[_i].velocity_ms[i])->focus =
            (uint8_t)sessions[_i].focus;
    size_t count;
    const struct speed_loss *losses = speed_losses(made->arena, train(made), &count);
    ck_assert_msg(count == (sessions[_i].lines > 0), "%s: %zu sessions", sessions[_i].what, count);
    if (!count)
        return;
    ck_assert_uint_eq(losses[0].lines, sessions[_i].lines);
    ck_assert_double_eq_tol(losses[0].loss, sessions[_i].loss, 1e-12);
    ck_assert_double_le(losses[0].slowest_ms, losses[0].fastest_ms);
}
END_TEST

START_TEST(one_velocity_for_eight_sets_tells_no_loss)
{
    struct set *last = measured("2026-01-05", mass(made, 60), 8, 0.8);
    for (int i = 0; i < 8; i++)
        last[-i].focus = FOCUS_SPEED;
    size_t count;
    speed_losses(made->arena, train(made), &count);
    ck_assert_uint_eq(count, 0);
}
END_TEST

/* Of a bodyweight that was not given: +10 twice is one load, +10 and +20 are two; two sets without a weight are not
 * one. */
START_TEST(unknown_loads_are_not_one_load)
{
    measured("2026-01-05", body_plus(made, 10), 1, 0.80)->focus = FOCUS_SPEED;
    measured("2026-01-05", body_plus(made, 20), 1, 0.60)->focus = FOCUS_SPEED;
    measured("2026-01-05", no_load(made), 1, 0.60)->focus = FOCUS_SPEED;
    measured("2026-01-05", no_load(made), 1, 0.50)->focus = FOCUS_SPEED;
    size_t count;
    speed_losses(made->arena, train(made), &count);
    ck_assert_uint_eq(count, 0);
    measured("2026-01-05", body_plus(made, 10), 1, 0.76)->focus = FOCUS_SPEED;
    const struct speed_loss *losses = speed_losses(made->arena, train(made), &count);
    ck_assert_uint_eq(count, 1);
    ck_assert_double_eq_tol(losses[0].loss, 0.05, 1e-12);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("load and velocity");
    TCase *cases = tcase_create("load and velocity");
    tcase_add_checked_fixture(cases, setup, teardown);
    tcase_add_test(cases, a_line_through_three_loads);
    tcase_add_test(cases, two_loads_make_no_line);
    tcase_add_test(cases, one_velocity_makes_no_line);
    tcase_add_test(cases, a_line_of_the_log_is_one_measurement);
    tcase_add_test(cases, ar_stands_apart);
    tcase_add_test(cases, warm_ups_and_misses_do_not_count);
    tcase_add_loop_test(cases, speed_loss_of_a_session, 0, (int)(sizeof sessions / sizeof *sessions));
    tcase_add_test(cases, unknown_loads_are_not_one_load);
    tcase_add_test(cases, one_velocity_for_eight_sets_tells_no_loss);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
