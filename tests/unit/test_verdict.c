#include "analysis/verdict.h"

#include "unit/made_log.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define MOST_WAVES 10
#define STEPS 3

static struct made *made;
static const char *const squat_only[] = {"squat"};

static void setup(void)
{
    made = made_new();
    made->options.lifts = (struct name_choice){squat_only, 1};
}

static void teardown(void)
{
    made_free(made);
}

static void in_week(int week, const struct load *load)
{
    char iso[16];
    date_print(iso, day_of("2026-01-05") + 7 * week);
    for (int i = 0; i < 3; i++)
        add_sets(made, ODA, "squat", iso, load, 1, 3)->focus = FOCUS_STRENGTH;
}

/* Waves of three weeks: 100, 110, 120 kg and so much more in each. */
static void add_waves(const double *more_kg, size_t count)
{
    for (size_t wave = 0; wave < count; wave++)
        for (size_t step = 0; step < STEPS; step++)
            in_week((int)(wave * STEPS + step), mass(made, 100 + 10 * (double)step + more_kg[wave]));
}

static const struct verdict *verdict_of_log(void)
{
    const struct training *training = train(made);
    size_t count;
    const struct verdict *verdicts = verdicts_make(made->arena, training, waves_make(made->arena, training), NO_DAY,
                                                   &count);
    ck_assert_uint_eq(count, 1);
    return verdicts;
}

static const struct
{
    const char *what;
    double more_kg[MOST_WAVES];
    size_t waves;
    enum verdict_kind kind;
    double slope_kg;
} runs[] = {
    {"a kilogram more in each wave", {0, 1, 2, 3, 4, 5}, 6, VERDICT_RISING, 1},
    {"less in each wave", {5, 4, 3, 2, 1, 0}, 6, VERDICT_FALLING, -1},
    {"always the same", {0, 0, 0, 0, 0, 0}, 6, VERDICT_LEVEL, 0},
    {"three waves", {0, 2, 4}, 3, VERDICT_TOO_EARLY, 2},
    {"to and fro by little", {0, 0.5, 0, 0.5, 0, 0.5, 0, 0.5}, 8, VERDICT_LEVEL, 0},
    {"to and fro by much", {0, 4, -4, 3, 5, -3}, 6, VERDICT_OPEN, NAN},
    {"a rise that ended eight waves ago", {0, 5, 10, 10, 10, 10, 10, 10, 10, 10}, 10, VERDICT_LEVEL, 0},
};

START_TEST(kinds)
{
    add_waves(runs[_i].more_kg, runs[_i].waves);
    const struct verdict *verdict = verdict_of_log();
    ck_assert_msg(verdict->kind == runs[_i].kind, "%s: %s", runs[_i].what, verdict_word(verdict->kind));
    ck_assert_uint_eq(verdict->waves, runs[_i].waves);
    if (!isnan(runs[_i].slope_kg))
        ck_assert_double_eq_tol(verdict->trend.slope_kg[LOAD_TOP], runs[_i].slope_kg, 1e-9);
    ck_assert_int_eq(verdict->as_of, day_of("2026-01-05") + 7 * ((int)runs[_i].waves * STEPS - 1));
}
END_TEST

START_TEST(the_fact_has_no_opinion)
{
    add_waves((const double[]){0, 1, 2, 3, 4, 1}, 6);
    const struct verdict *verdict = verdict_of_log();
    ck_assert(verdict->fact.exists && verdict->fact.same_setup);
    ck_assert_uint_eq(verdict->fact.wave, 6);
    ck_assert_uint_eq(verdict->fact.against, 5);
    ck_assert_uint_eq(verdict->fact.steps, 3);
    ck_assert_double_eq_tol(verdict->fact.over_kg[LOAD_TOP], -3, 1e-9);
    ck_assert_double_eq_tol(verdict->fact.over_volume_kg, -27, 1e-9);
    ck_assert_int_eq(fact_direction(&verdict->fact, LOAD_TOP), -1);
    ck_assert_int_eq(verdict->fact.wave_first, day_of("2026-01-05") + 7 * 15);
    ck_assert_int_eq(verdict->fact.against_last, day_of("2026-01-05") + 7 * 14);
}
END_TEST

/* Labelled bands without a gym file: nothing is known but that they are the same. */
START_TEST(one_set_up_of_unknown_weight)
{
    for (int wave = 0; wave < 5; wave++)
        for (int step = 0; step < STEPS; step++)
            in_week(wave * STEPS + step, labelled(made, 100 + 10 * step + 2.5 * wave, "b99"));
    const struct verdict *verdict = verdict_of_log();
    ck_assert_int_eq(verdict->kind, VERDICT_RISING);
    ck_assert_double_eq_tol(verdict->fact.over_kg[LOAD_BOTTOM], 2.5, 1e-9);
    ck_assert_double_eq_tol(verdict->fact.over_kg[LOAD_TOP], 2.5, 1e-9);
    ck_assert_double_eq_tol(verdict->trend.slope_kg[LOAD_BOTTOM], 2.5, 1e-9);
}
END_TEST

static const struct load *hung(int wave, double kg)
{
    return wave % 2 ? chained(made, kg, 2, 7) : banded(made, kg, 5, 30);
}

START_TEST(set_ups_that_alternate_are_followed_one_by_one)
{
    for (int wave = 0; wave < 8; wave++)
        for (int step = 0; step < STEPS; step++)
            in_week(wave * STEPS + step, hung(wave, 100 + 10 * step + (wave % 2 ? wave : 0)));
    const struct verdict *verdict = verdict_of_log();
    ck_assert_uint_eq(verdict->fact.wave, 8);
    ck_assert_uint_eq(verdict->fact.against, 6); /* the last with chains */
    ck_assert_double_eq_tol(verdict->fact.over_kg[LOAD_STRAIGHT], 2, 1e-9);
    ck_assert_int_eq(verdict->kind, VERDICT_RISING);
    ck_assert_uint_eq(verdict->trend.waves, 4);
    ck_assert_uint_eq(verdict->other_count, 1);
    ck_assert_int_eq(verdict->others[0].tendency, TENDENCY_LEVEL);
    ck_assert_uint_eq(verdict->others[0].last_wave, 7);
}
END_TEST

START_TEST(a_new_set_up_starts_from_nothing)
{
    for (int wave = 0; wave < 5; wave++)
        for (int step = 0; step < STEPS; step++)
            in_week(wave * STEPS + step, chained(made, 100 + 10 * step, wave == 4 ? 3 : 2, 7));
    const struct verdict *verdict = verdict_of_log();
    ck_assert_int_eq(verdict->kind, VERDICT_NEW_SETUP);
    ck_assert(!verdict->fact.same_setup);
    ck_assert_double_eq_tol(verdict->fact.over_kg[LOAD_STRAIGHT], 0, 1e-9);
    ck_assert_double_eq_tol(verdict->fact.over_kg[LOAD_TOP], 14, 1e-9);
    ck_assert_str_ne(verdict->fact.ar, verdict->fact.against_ar);
}
END_TEST

START_TEST(a_lift_not_trained_for_long_is_stale)
{
    add_waves((const double[]){0, 1, 2, 3, 4, 5}, 6);
    made->options.lifts = (struct name_choice){NULL, 0};
    add_sets(made, ODA, "bench press", "2026-06-26", mass(made, 80), 3, 3); /* 46 days after 2026-05-11 */
    const struct training *training = train(made);
    size_t count;
    const struct verdict *verdicts = verdicts_make(made->arena, training, waves_make(made->arena, training), NO_DAY,
                                                   &count);
    ck_assert_uint_eq(count, 2);
    ck_assert_str_eq(verdicts[1].lift, "squat");
    ck_assert_int_eq(verdicts[1].kind, VERDICT_STALE);
    ck_assert_int_eq(verdicts[1].trend.tendency, TENDENCY_RISING);
    ck_assert_int_eq(verdicts[1].as_of, day_of("2026-05-04"));
    ck_assert_int_eq(verdicts[1].log_last, day_of("2026-06-26"));
}
END_TEST

START_TEST(a_wave_that_follows_a_test_restarts)
{
    struct lifter *oda = add_lifter(made, ODA);
    add_max(made, oda, "squat", "2025-12-20", 200);
    add_waves((const double[]){0, 1, 2, 3, 4}, 5);
    struct tested_max maxes[] = {oda->maxes[0], oda->maxes[0]};
    maxes[1].day = day_of("2026-04-18");
    maxes[1].kg = 180;
    oda->maxes = maxes;
    oda->max_count = 2;
    for (int step = 0; step < STEPS; step++)
        in_week(15 + step, mass(made, 0.9 * (104 + 10 * step)));
    const struct verdict *verdict = verdict_of_log();
    ck_assert_int_eq(verdict->kind, VERDICT_RESTARTED);
    ck_assert_int_eq(verdict->tested.day, day_of("2026-04-18"));
    ck_assert_int_eq(verdict->trend.tendency, TENDENCY_RISING);
    ck_assert_uint_eq(verdict->trend.last_wave, 5);
}
END_TEST

START_TEST(a_little_more_every_week_is_told_by_the_weeks)
{
    for (int week = 0; week < 20; week++)
        in_week(week, mass(made, 100 + 2.5 * week));
    const struct verdict *verdict = verdict_of_log();
    ck_assert_int_eq(verdict->kind, VERDICT_NO_WAVES);
    ck_assert(verdict->trend.by_week);
    ck_assert_int_eq(verdict->trend.tendency, TENDENCY_RISING);
    ck_assert_uint_eq(verdict->trend.waves, VERDICT_WEEKS);
    ck_assert_double_eq_tol(verdict->trend.slope_kg[LOAD_TOP], 2.5, 1e-9);
}
END_TEST

/* Differences of the two waves at their steps: 1, 3, 2 kg; about their mean 2 the squares are 1, 1, 0, with two degrees
 * of freedom: 1 kg². A mean of three has the deviation √(1/3), and two of these stand out. */
START_TEST(what_would_stand_out)
{
    static const double loads[] = {100, 110, 120, 101, 113, 122};
    for (int week = 0; week < 6; week++)
        in_week(week, mass(made, loads[week]));
    const struct verdict *verdict = verdict_of_log();
    ck_assert_int_eq(verdict->kind, VERDICT_TOO_EARLY);
    ck_assert_double_eq_tol(verdict->trend.stands_out_kg, 2 * sqrt(1.0 / 3), 1e-9);
}
END_TEST

START_TEST(words)
{
    static const char *const wanted[] = {"too-early", "open",       "level",     "rising",  "falling",
                                         "stale",     "new-set-up", "restarted", "no-waves"};
    for (int kind = VERDICT_TOO_EARLY; kind <= VERDICT_NO_WAVES; kind++)
        ck_assert_str_eq(verdict_word((enum verdict_kind)kind), wanted[kind]);
    for (int tendency = TENDENCY_TOO_EARLY; tendency <= TENDENCY_FALLING; tendency++)
        ck_assert_str_eq(tendency_word((enum tendency)tendency), wanted[tendency]);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("verdict");
    TCase *cases = tcase_create("verdict");
    tcase_add_checked_fixture(cases, setup, teardown);
    tcase_add_loop_test(cases, kinds, 0, sizeof runs / sizeof *runs);
    tcase_add_test(cases, the_fact_has_no_opinion);
    tcase_add_test(cases, one_set_up_of_unknown_weight);
    tcase_add_test(cases, set_ups_that_alternate_are_followed_one_by_one);
    tcase_add_test(cases, a_new_set_up_starts_from_nothing);
    tcase_add_test(cases, a_lift_not_trained_for_long_is_stale);
    tcase_add_test(cases, a_wave_that_follows_a_test_restarts);
    tcase_add_test(cases, a_little_more_every_week_is_told_by_the_weeks);
    tcase_add_test(cases, what_would_stand_out);
    tcase_add_test(cases, words);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
