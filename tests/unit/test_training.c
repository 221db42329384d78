#include "analysis/training.h"

#include "analysis/evaluated_set.h"
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

START_TEST(sets_are_ordered_by_lifter_day_and_place)
{
    add_sets(made, ODA, "squat", "2026-01-12", mass(made, 100), 1, 5);
    add_sets(made, IVO, "squat", "2026-01-14", mass(made, 110), 1, 5);
    add_sets(made, ODA, "bench press", "2026-01-05", mass(made, 60), 2, 5);
    add_sets(made, ODA, "squat", "2026-01-05", mass(made, 90), 2, 5);
    add_sets(made, IVO, "bench press", "2026-01-07", mass(made, 70), 1, 5);
    const struct training *training = train(made);
    static const double kg[] = {70, 110, 60, 60, 90, 90, 100};
    static const uint32_t lines[] = {7, 2, 3, 4, 5, 6, 1};
    ck_assert_uint_eq(training->count, 7);
    for (size_t i = 0; i < training->count; i++) {
        ck_assert_double_eq(training->sets[i].effect->straight_kg, kg[i]);
        ck_assert_uint_eq(training->sets[i].set->line, lines[i]);
    }
    ck_assert_str_eq(training->sets[0].lifter, IVO);
    ck_assert_str_eq(training->sets[6].lifter, ODA);
    size_t count;
    const struct lift_sets *lifts = training_by_lift(made->arena, training, &count);
    ck_assert_uint_eq(count, 4);
    static const char *const names[] = {"bench press", "squat", "bench press", "squat"};
    static const size_t counts[] = {1, 1, 2, 3};
    for (size_t i = 0; i < count; i++) {
        ck_assert_str_eq(lifts[i].lift, names[i]);
        ck_assert_uint_eq(lifts[i].count, counts[i]);
    }
    ck_assert_double_eq(lifts[3].sets[2]->effect->straight_kg, 100);
}
END_TEST

START_TEST(an_empty_log_is_empty_training)
{
    const struct training *training = train(made);
    size_t count;
    ck_assert_uint_eq(training->count, 0);
    training_by_lift(made->arena, training, &count);
    ck_assert_uint_eq(count, 0);
}
END_TEST

START_TEST(sets_are_numbered_within_lifter_day_and_lift)
{
    add_sets(made, ODA, "squat", "2026-01-05", mass(made, 60), 1, 5)->kind = SET_WARM_UP;
    add_sets(made, ODA, "bench press", "2026-01-05", mass(made, 60), 2, 5);
    add_sets(made, ODA, "squat", "2026-01-05", mass(made, 100), 1, 0)->kind = SET_MISSED;
    add_sets(made, ODA, "squat", "2026-01-05", mass(made, 100), 1, 5);
    add_sets(made, ODA, "squat", "2026-01-06", mass(made, 100), 1, 5);
    const struct training *training = train(made);
    static const uint32_t numbers[] = {1, 1, 2, 2, 3, 1};
    static const bool work[] = {false, true, true, false, true, true};
    for (size_t i = 0; i < 6; i++) {
        ck_assert_uint_eq(training->sets[i].number, numbers[i]);
        ck_assert_int_eq(is_work(&training->sets[i]), work[i]);
    }
    ck_assert(isnan(training->sets[0].e1rm_low_kg));
    ck_assert(isnan(training->sets[3].e1rm_low_kg));
}
END_TEST

START_TEST(tested_max_in_force_is_the_newest_on_or_before_the_day)
{
    struct lifter *oda = add_lifter(made, "oda  brandvik"); /* names match folded */
    add_max(made, oda, "Squat", "2026-02-01", 140);
    add_max(made, oda, "squat", "2025-12-20", 130);
    add_max(made, oda, "bench press", "2026-01-01", 90);
    add_sets(made, ODA, "squat", "2025-12-18", mass(made, 100), 1, 5)->rpe = 9;
    add_sets(made, ODA, "squat", "2025-12-19", mass(made, 100), 1, 5);
    add_sets(made, ODA, "squat", "2025-12-20", mass(made, 200), 1, 5);
    add_sets(made, ODA, "squat", "2026-01-31", mass(made, 100), 1, 5);
    add_sets(made, ODA, "squat", "2026-02-01", mass(made, 100), 1, 5);
    const struct training *training = train(made);
    ck_assert_int_eq(training->sets[0].one_rm.from, ONE_RM_NONE);
    ck_assert_int_eq(training->sets[1].one_rm.from, ONE_RM_ESTIMATED);
    ck_assert_double_eq_tol(training->sets[1].one_rm.kg, 100 * 36 / 30.0, 1e-9);
    static const double kg[] = {0, 0, 130, 130, 140};
    for (size_t i = 2; i < 5; i++) {
        ck_assert_int_eq(training->sets[i].one_rm.from, ONE_RM_TESTED);
        ck_assert_double_eq(training->sets[i].one_rm.kg, kg[i]);
        ck_assert(!(training->sets[i].assumed & ASSUMED_ONE_REP_MAX));
    }
    ck_assert(training->sets[1].assumed & ASSUMED_ONE_REP_MAX);
    ck_assert(!(training->sets[0].assumed & ASSUMED_ONE_REP_MAX));
}
END_TEST

static const struct
{
    int reps;
    enum set_kind kind;
    enum focus focus;
    bool has_ar;
    bool is_test;
} singles[] = {
    {1, SET_WORK, FOCUS_TEST, false, true},    {1, SET_WORK, FOCUS_STRENGTH, false, false},
    {2, SET_WORK, FOCUS_TEST, false, false},   {1, SET_WARM_UP, FOCUS_TEST, false, false},
    {1, SET_MISSED, FOCUS_TEST, false, false}, {1, SET_WORK, FOCUS_TEST, true, false}, /* chains make no record */
};

START_TEST(a_made_straight_single_of_a_test_is_a_tested_max)
{
    const struct load *load = singles[_i].has_ar ? banded(made, 150, 0, 10) : mass(made, 150);
    struct set *set = add_sets(made, ODA, "squat", "2026-01-05", load, 1, singles[_i].reps);
    set->kind = (uint8_t)singles[_i].kind;
    set->focus = (uint8_t)singles[_i].focus;
    const struct training *training = train(made);
    ck_assert_int_eq(training->sets[0].one_rm.from == ONE_RM_TESTED, singles[_i].is_test);
}
END_TEST

START_TEST(of_a_test_and_a_gym_max_on_one_day_the_heavier_counts)
{
    struct lifter *oda = add_lifter(made, ODA);
    add_max(made, oda, "squat", "2026-01-05", 145);
    add_sets(made, ODA, "squat", "2026-01-05", mass(made, 150), 1, 1)->focus = FOCUS_TEST;
    add_sets(made, ODA, "squat", "2026-01-05", mass(made, 140), 1, 1)->focus = FOCUS_TEST;
    ck_assert_double_eq(train(made)->sets[0].one_rm.kg, 150); /* the whole day, the sets before the test too */
    oda->maxes[0].kg = 155;
    ck_assert_double_eq(train(made)->sets[0].one_rm.kg, 155);
}
END_TEST

START_TEST(estimates_take_ar_by_the_bottom_and_the_84_days_before)
{
    add_sets(made, ODA, "squat", "2026-01-05", banded(made, 100, 12, 40), 1, 5)->rpe = 10;
    add_sets(made, ODA, "squat", "2026-03-29", mass(made, 95), 1, 5)->rir = 0;
    add_sets(made, ODA, "squat", "2026-03-30", mass(made, 80), 1, 5);
    add_sets(made, ODA, "squat", "2026-03-31", mass(made, 80), 1, 5);
    const struct training *training = train(made);
    ck_assert_double_eq_tol(training->sets[0].e1rm_low_kg, 112 * 35 / 30.0, 1e-9);
    ck_assert_double_eq_tol(training->sets[0].e1rm_high_kg, 140 * 35 / 30.0, 1e-9);
    ck_assert_int_eq(training->sets[0].one_rm.from, ONE_RM_NONE);                /* no set is its own 1RM */
    ck_assert_double_eq_tol(training->sets[2].one_rm.kg, 112 * 35 / 30.0, 1e-9); /* day 84 of 84 */
    ck_assert_int_eq(training->sets[2].one_rm.day, day_of("2026-01-05"));
    ck_assert_double_eq_tol(training->sets[3].one_rm.kg, 95 * 35 / 30.0, 1e-9);
    ck_assert_int_eq(training->sets[3].one_rm.day, day_of("2026-03-29"));
    ck_assert_double_eq(training->sets[1].e1rm_high_kg, training->sets[1].e1rm_low_kg);
}
END_TEST

static const struct
{
    const char *what;
    double kg;
    int sets, reps;
    double rpe;
    enum focus focus;
    bool counts;
} rated[] = {
    {"five hard ones", 100, 1, 5, 9, FOCUS_STRENGTH, true},
    {"eight repetitions to RPE 8", 95, 1, 8, 8, FOCUS_VOLUME, true},
    {"speed work, however hard", 100, 1, 3, 9, FOCUS_SPEED, false},
    {"skill work", 100, 1, 3, 9, FOCUS_SKILL, false},
    {"eight triples", 100, 8, 3, NAN, FOCUS_UNSAID, false},
    {"a light day beside 134.2 kg", 93, 1, 5, 9, FOCUS_STRENGTH, false},
    {"70 % of that", 94, 1, 5, 9, FOCUS_STRENGTH, true},
};

/* Beside one good day, which alone is not vouched for. */
START_TEST(what_estimates_rest_on)
{
    add_sets(made, ODA, "squat", "2025-12-30", mass(made, 115), 1, 5)->rpe = 10;
    add_sets(made, ODA, "squat", "2026-01-02", mass(made, 130), 1, 1);
    add_sets(made, ODA, "squat", "2026-01-05", mass(made, rated[_i].kg), rated[_i].sets, rated[_i].reps);
    struct set *sets = made->log->sets.items;
    for (size_t i = made->log->sets.count - (size_t)rated[_i].sets; i < made->log->sets.count; i++) {
        sets[i].rpe = rated[_i].rpe;
        sets[i].focus = (uint8_t)rated[_i].focus;
    }
    add_sets(made, ODA, "squat", "2026-03-28", mass(made, 100), 1, 5);
    const struct training *training = train(made);
    const struct one_rm *last = &training->sets[training->count - 1].one_rm;
    ck_assert_msg((last->from != ONE_RM_NONE && last->day == day_of("2026-01-05")) == rated[_i].counts, "%s",
                  rated[_i].what);
}
END_TEST

START_TEST(drop_sets_and_effort)
{
    add_sets(made, ODA, "squat", "2026-01-05", mass(made, 100), 1, 5)->drop = true;
    struct set *failed = add_sets(made, ODA, "bench press", "2026-01-05", mass(made, 100), 1, 5);
    failed->to_failure = true;
    failed->rpe = 5;
    add_sets(made, ODA, "deadlift", "2026-01-05", mass(made, 100), 1, 5)->rpe = 8;
    const struct training *training = train(made);
    ck_assert(isnan(training->sets[0].e1rm_low_kg));
    ck_assert_int_eq(training->sets[0].one_rm.from, ONE_RM_NONE);
    ck_assert(is_work(&training->sets[0]));
    ck_assert_double_eq_tol(training->sets[1].e1rm_low_kg, 100 * 35 / 30.0, 1e-9);
    ck_assert_double_eq_tol(training->sets[2].e1rm_low_kg, 100 * 37 / 30.0, 1e-9);
}
END_TEST

START_TEST(loads_in_percent_need_a_tested_max)
{
    add_sets(made, ODA, "squat", "2026-01-05", mass(made, 100), 1, 5);
    add_sets(made, ODA, "squat", "2026-01-05", percent(made, 60), 3, 2);
    add_sets(made, ODA, "squat", "2026-01-05", mass(made, 90), 1, 5);
    const struct training *training = train(made);
    ck_assert_uint_eq(training->count, 2); /* an estimate is not enough */
    ck_assert_uint_eq(training->without_max_count, 3);
    ck_assert_uint_eq(training->without_max[0]->line, 2);
    ck_assert_uint_eq(training->without_max[2]->line, 4);
    ck_assert_uint_eq(training->sets[1].number, 2);
    struct lifter *oda = add_lifter(made, ODA);
    add_max(made, oda, "squat", "2025-12-20", 130);
    training = train(made);
    ck_assert_uint_eq(training->count, 5);
    ck_assert_uint_eq(training->without_max_count, 0);
    ck_assert_double_eq_tol(training->sets[1].effect->straight_kg, 78, 1e-9);
}
END_TEST

START_TEST(a_percentage_follows_the_max_of_its_day)
{
    struct lifter *oda = add_lifter(made, ODA);
    add_max(made, oda, "squat", "2025-12-20", 100);
    add_max(made, oda, "squat", "2026-02-01", 120);
    const struct load *load = percent(made, 50);
    add_sets(made, ODA, "squat", "2026-01-31", load, 1, 5);
    add_sets(made, ODA, "squat", "2026-02-01", load, 1, 5);
    add_sets(made, ODA, "squat", "2026-01-30", load, 1, 5);
    const struct training *training = train(made);
    static const double kg[] = {50, 50, 60};
    for (size_t i = 0; i < 3; i++)
        ck_assert_double_eq_tol(training->sets[i].effect->straight_kg, kg[i], 1e-9);
}
END_TEST

START_TEST(bodyweight_is_the_set_s_else_the_lifter_s)
{
    struct lifter *oda = add_lifter(made, ODA);
    oda->bodyweight_kg = 80;
    const struct load *load = body_plus(made, 10);
    add_sets(made, ODA, "pull-up", "2026-01-05", load, 1, 5);
    add_sets(made, ODA, "pull-up", "2026-01-06", load, 1, 5)->bodyweight_kg = 78.5;
    add_sets(made, IVO, "pull-up", "2026-01-05", load, 1, 5);
    const struct training *training = train(made);
    ck_assert(isnan(training->sets[0].effect->straight_kg));
    ck_assert(training->sets[0].assumed & ASSUMED_NO_WEIGHT);
    ck_assert(!(training->sets[0].assumed & ASSUMED_ONE_REP_MAX));
    ck_assert(isnan(counted_load(&training->sets[0], LOAD_MEAN)));
    ck_assert_double_eq(training->sets[1].effect->straight_kg, 90);
    ck_assert_double_eq(training->sets[2].effect->straight_kg, 88.5);
}
END_TEST

static const struct
{
    double kg;
    int sets, reps;
    enum focus said, focus;
} foci[] = {
    {60, 6, 3, FOCUS_UNSAID, FOCUS_SPEED},      {60, 8, 1, FOCUS_UNSAID, FOCUS_SPEED},
    {65, 6, 2, FOCUS_UNSAID, FOCUS_SPEED}, /* exactly 65 % */
    {65.5, 6, 2, FOCUS_UNSAID, FOCUS_STRENGTH}, {60, 5, 3, FOCUS_UNSAID, FOCUS_STRENGTH},
    {60, 6, 4, FOCUS_UNSAID, FOCUS_STRENGTH},   {90, 3, 5, FOCUS_UNSAID, FOCUS_STRENGTH},
    {70, 3, 6, FOCUS_UNSAID, FOCUS_VOLUME},     {60, 6, 3, FOCUS_VOLUME, FOCUS_VOLUME}, /* what the log says holds */
    {90, 1, 1, FOCUS_SKILL, FOCUS_SKILL},
};

START_TEST(unsaid_focus)
{
    add_max(made, add_lifter(made, ODA), "squat", "2025-12-20", 100);
    for (int i = 0; i < foci[_i].sets; i++)
        add_sets(made, ODA, "squat", "2026-01-05", mass(made, foci[_i].kg), 1, foci[_i].reps)->focus =
            (uint8_t)foci[_i].said;
    const struct training *training = train(made);
    for (size_t i = 0; i < training->count; i++)
        ck_assert_int_eq(training->sets[i].focus, foci[_i].focus);
}
END_TEST

/* No number of repetitions is more frequent than the others: the largest, 10, tells volume work. */
START_TEST(unsaid_focus_of_falling_repetitions)
{
    for (int reps = 10; reps >= 8; reps--)
        add_sets(made, ODA, "squat", "2026-01-05", mass(made, 80), 1, reps);
    const struct training *training = train(made);
    for (size_t i = 0; i < training->count; i++)
        ck_assert_int_eq(training->sets[i].focus, FOCUS_VOLUME);
}
END_TEST

START_TEST(the_heavier_of_two_loads_with_as_many_repetitions_is_the_main_work)
{
    add_sets(made, ODA, "squat", "2026-01-05", mass(made, 90), 3, 2);
    add_sets(made, ODA, "squat", "2026-01-05", mass(made, 100), 1, 6);
    const struct training *training = train(made);
    for (size_t i = 0; i < training->count; i++)
        ck_assert_int_eq(training->sets[i].focus, FOCUS_VOLUME); /* as sixes are */
}
END_TEST

START_TEST(speed_sets_are_counted_by_weight_day_and_lift)
{
    add_max(made, add_lifter(made, ODA), "squat", "2025-12-20", 100);
    add_sets(made, ODA, "squat", "2026-01-05", mass(made, 60), 5, 3);
    add_sets(made, ODA, "squat", "2026-01-05", mass(made, 62.5), 1, 3);
    add_sets(made, ODA, "bench press", "2026-01-05", mass(made, 60), 1, 3);
    add_sets(made, ODA, "squat", "2026-01-05", mass(made, 60), 1, 3)->kind = SET_WARM_UP;
    add_sets(made, ODA, "squat", "2026-01-06", mass(made, 60), 1, 3);
    const struct training *training = train(made);
    for (size_t i = 0; i < training->count; i++)
        ck_assert_int_eq(training->sets[i].focus, FOCUS_STRENGTH);
    add_sets(made, ODA, "squat", "2026-01-05", mass(made, 60), 1, 2); /* the sixth */
    training = train(made);
    size_t speed = 0;
    for (size_t i = 0; i < training->count; i++)
        speed += training->sets[i].focus == FOCUS_SPEED && is_work(&training->sets[i]);
    ck_assert_uint_eq(speed, 7); /* the heavier set is of the same session */
}
END_TEST

START_TEST(share_and_intensity)
{
    add_max(made, add_lifter(made, ODA), "squat", "2025-12-20", 200);
    add_sets(made, ODA, "squat", "2026-01-05", mass(made, 100), 1, 5);
    add_sets(made, ODA, "squat", "2026-01-05", banded(made, 100, 10, 50), 1, 5);
    add_sets(made, ODA, "squat", "2026-01-05", labelled(made, 100, "b99"), 1, 5);
    add_sets(made, IVO, "squat", "2026-01-05", banded(made, 100, 10, 50), 1, 11);
    const struct training *training = train(made);
    ck_assert(isnan(ar_share(&training->sets[0]))); /* nobody tested, and eleven say nothing */
    ck_assert(isnan(intensity_of(&training->sets[0])));
    ck_assert_double_eq(ar_share(&training->sets[1]), 0);
    ck_assert_double_eq(intensity_of(&training->sets[1]), 0.5);
    ck_assert_double_eq_tol(ar_share(&training->sets[2]), 0.2, 1e-12);
    ck_assert_double_eq_tol(intensity_of(&training->sets[2]), 0.65, 1e-12);
    ck_assert(isnan(ar_share(&training->sets[3]))); /* unknown gear */
    ck_assert(isnan(intensity_of(&training->sets[3])));
    ck_assert_double_eq(counted_load(&training->sets[3], LOAD_TOP), 100);
    ck_assert(isnan(known_load(&training->sets[3], LOAD_TOP)));
}
END_TEST

START_TEST(options_choose_sets_but_not_what_the_max_rests_on)
{
    add_sets(made, ODA, "squat", "2026-01-05", mass(made, 120), 1, 1)->focus = FOCUS_TEST;
    add_sets(made, ODA, "squat", "2026-01-12", mass(made, 100), 2, 5);
    add_sets(made, ODA, "bench press", "2026-01-12", mass(made, 60), 1, 5);
    add_sets(made, ODA, "squat", "2026-01-19", mass(made, 100), 1, 5);
    add_sets(made, IVO, "squat", "2026-01-12", mass(made, 110), 1, 5);
    made->options.from = day_of("2026-01-06");
    made->options.to = day_of("2026-01-12");
    ck_assert_uint_eq(train(made)->count, 4);
    made->options.lifters = (struct name_choice){(const char *const[]){"ODA BRANDVIK"}, 1};
    made->options.lifts = (struct name_choice){(const char *const[]){"Squat"}, 1};
    const struct training *training = train(made);
    ck_assert_uint_eq(training->count, 2);
    ck_assert_double_eq(training->sets[0].one_rm.kg, 120);
    made->options.lifts = (struct name_choice){(const char *const[]){"no such lift"}, 1};
    ck_assert_uint_eq(train(made)->count, 0);
}
END_TEST

START_TEST(lifts_are_chosen_and_tested_by_alias_too)
{
    static const char *aliases[] = {"back squat"};
    struct lift squat = {.name = "squat", .aliases = aliases, .alias_count = 1};
    made->gym->lifts = &squat;
    made->gym->lift_count = 1;
    add_max(made, add_lifter(made, ODA), "back squat", "2025-12-20", 130);
    add_sets(made, ODA, "squat", "2026-01-05", mass(made, 100), 1, 5);
    made->options.lifts = (struct name_choice){(const char *const[]){"Back  Squat"}, 1};
    const struct training *training = train(made);
    ck_assert_uint_eq(training->count, 1);
    ck_assert_double_eq(training->sets[0].one_rm.kg, 130);
}
END_TEST

START_TEST(a_band_pulls_as_calibrated_for_the_day)
{
    static const char *const days[] = {"2026-01-01", "2026-02-01"};
    static const double per_m[] = {20, 18};
    add_band(made, "b26", 2, days, per_m);
    add_heights(made, add_lifter(made, ODA), "squat", 1, 1.5);
    const struct load *load = labelled(made, 100, "b26");
    add_sets(made, ODA, "squat", "2026-01-31", load, 1, 5);
    add_sets(made, ODA, "squat", "2026-02-01", load, 1, 5);
    add_sets(made, ODA, "squat", "2026-01-02", load, 1, 5);
    add_sets(made, ODA, "bench press", "2026-01-02", load, 1, 5); /* of no known heights */
    const struct training *training = train(made);
    static const double top_kg[] = {120, NAN, 120, 118};
    for (size_t i = 0; i < training->count; i++) {
        const struct evaluated_set *evaluated = &training->sets[i];
        ck_assert_double_eq(evaluated->effect->bottom_kg, 100);
        if (isnan(top_kg[i]))
            ck_assert(isnan(evaluated->effect->top_kg) && (evaluated->assumed & ASSUMED_NO_HEIGHTS));
        else
            ck_assert_double_eq_tol(evaluated->effect->top_kg, top_kg[i], 1e-9);
    }
    ck_assert_str_eq(training->sets[0].ar_key, training->sets[3].ar_key); /* an aged band is the same piece */
}
END_TEST

START_TEST(a_lift_of_the_body_weighs_the_body_too)
{
    struct lift dip = {.name = "dip", .bodyweight = true};
    made->gym->lifts = &dip;
    made->gym->lift_count = 1;
    add_sets(made, ODA, "squat", "2026-01-05", mass(made, 20), 1, 5)->bodyweight_kg = 80;
    add_sets(made, ODA, "dip", "2026-01-05", mass(made, 20), 1, 5)->bodyweight_kg = 80;
    add_sets(made, ODA, "dip", "2026-01-06", mass(made, 20), 1, 5)->bodyweight_kg = 81;
    const struct training *training = train(made);
    static const double kg[] = {20, 100, 101};
    for (size_t i = 0; i < 3; i++)
        ck_assert_double_eq(training->sets[i].effect->straight_kg, kg[i]);
}
END_TEST

START_TEST(alike_sets_of_a_lifter_share_what_they_weigh)
{
    add_sets(made, ODA, "squat", "2026-01-05", banded(made, 100, 10, 50), 2, 5);
    add_sets(made, ODA, "squat", "2026-01-06", banded(made, 100, 10, 50), 1, 3);
    add_sets(made, ODA, "squat", "2026-01-06", mass(made, 100), 1, 3);
    add_sets(made, ODA, "bench press", "2026-01-06", mass(made, 100), 1, 3);
    const struct training *training = train(made);
    ck_assert_ptr_eq(training->sets[0].effect, training->sets[2].effect);
    ck_assert_ptr_eq(training->sets[3].effect, training->sets[4].effect);
    ck_assert_ptr_ne(training->sets[0].effect, training->sets[3].effect);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("training");
    TCase *cases = tcase_create("training");
    tcase_add_checked_fixture(cases, setup, teardown);
    tcase_add_test(cases, sets_are_ordered_by_lifter_day_and_place);
    tcase_add_test(cases, an_empty_log_is_empty_training);
    tcase_add_test(cases, sets_are_numbered_within_lifter_day_and_lift);
    tcase_add_test(cases, tested_max_in_force_is_the_newest_on_or_before_the_day);
    tcase_add_loop_test(cases, a_made_straight_single_of_a_test_is_a_tested_max, 0, sizeof singles / sizeof *singles);
    tcase_add_test(cases, of_a_test_and_a_gym_max_on_one_day_the_heavier_counts);
    tcase_add_test(cases, estimates_take_ar_by_the_bottom_and_the_84_days_before);
    tcase_add_loop_test(cases, what_estimates_rest_on, 0, sizeof rated / sizeof *rated);
    tcase_add_test(cases, drop_sets_and_effort);
    tcase_add_test(cases, loads_in_percent_need_a_tested_max);
    tcase_add_test(cases, a_percentage_follows_the_max_of_its_day);
    tcase_add_test(cases, bodyweight_is_the_set_s_else_the_lifter_s);
    tcase_add_loop_test(cases, unsaid_focus, 0, sizeof foci / sizeof *foci);
    tcase_add_test(cases, unsaid_focus_of_falling_repetitions);
    tcase_add_test(cases, the_heavier_of_two_loads_with_as_many_repetitions_is_the_main_work);
    tcase_add_test(cases, speed_sets_are_counted_by_weight_day_and_lift);
    tcase_add_test(cases, share_and_intensity);
    tcase_add_test(cases, options_choose_sets_but_not_what_the_max_rests_on);
    tcase_add_test(cases, lifts_are_chosen_and_tested_by_alias_too);
    tcase_add_test(cases, a_band_pulls_as_calibrated_for_the_day);
    tcase_add_test(cases, a_lift_of_the_body_weighs_the_body_too);
    tcase_add_test(cases, alike_sets_of_a_lifter_share_what_they_weigh);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
