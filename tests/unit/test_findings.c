#include "analysis/findings/findings.h"
#include "analysis/waves.h"

#include "unit/made_findings.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define MOST_WEEKS 9
#define SETS 8

/* --- waves -------------------------------------------------------------------------------------------------------- */

enum ar /* what hangs; its kilograms are those from bottom to top */
{
    BANDS,
    CHAINS
};

struct made_weeks
{
    const char *what;
    enum focus focus;
    enum ar ar;
    double kg[MOST_WEEKS], ar_kg[MOST_WEEKS]; /* kg 0: no training that week. ar_kg 0: no AR */
    const char *found;
};

static const struct load *week_load(const struct made_weeks *weeks, int week)
{
    double kg = weeks->kg[week], ar_kg = weeks->ar_kg[week];
    if (!(ar_kg > 0))
        return mass(made, kg);
    return weeks->ar == BANDS ? banded(made, kg, 0, ar_kg) : chained(made, kg, 1, ar_kg / 2);
}

static void make_weeks(const struct made_weeks *weeks)
{
    for (int week = 0; week < MOST_WEEKS; week++)
        if (weeks->kg[week] > 0)
            in_week(week, week_load(weeks, week), SETS, 3, weeks->focus);
}

static const struct made_weeks clean[] = {
    {"two waves, one set-up", FOCUS_SPEED, CHAINS, {50, 55, 60, 51, 56, 61}, {20, 20, 20, 20, 20, 20}, ""},
    {"speed work without chains", FOCUS_SPEED, CHAINS, {50, 55, 60}, {0}, ""},
    {"the least share of speed work", FOCUS_SPEED, CHAINS, {50, 55, 60}, {15, 15, 15}, ""},
    {"the most", FOCUS_SPEED, BANDS, {50, 55, 60}, {25, 25, 25}, ""},
    {"the lightest and the heaviest speed work", FOCUS_SPEED, CHAINS, {45, 50, 55, 60, 65}, {20, 20, 20, 20, 20}, ""},
    {"steps at the tolerance", FOCUS_SPEED, CHAINS, {50, 53.5, 60, 50, 56.5, 60}, {20, 20, 20, 20, 20, 20}, ""},
    {"a light week between waves", FOCUS_SPEED, CHAINS, {50, 55, 60, 30, 50, 55}, {20, 20, 20, 0, 20, 20}, ""},
    {"a new set-up for a new wave", FOCUS_SPEED, CHAINS, {50, 55, 60, 50, 55, 60}, {15, 15, 15, 25, 25, 25}, ""},
    {"a new set-up after weeks of rest", FOCUS_STRENGTH, BANDS, {80, 82, 0, 0, 84, 86}, {10, 10, 0, 0, 20, 20}, ""},
    {"strength work with much chain", FOCUS_STRENGTH, CHAINS, {40, 42, 44}, {60, 60, 60}, ""},
    {"and with much band", FOCUS_STRENGTH, BANDS, {40, 42, 44}, {50, 50, 50}, ""},
    {"volume work with more of it", FOCUS_VOLUME, BANDS, {40, 42, 44}, {65, 65, 65}, ""},
    {"ten points more than the wave before", FOCUS_STRENGTH, BANDS, {80, 85, 75, 80}, {20, 20, 30, 30}, ""},
    {"chains after a wave without", FOCUS_STRENGTH, CHAINS, {80, 85, 75, 80}, {0, 0, 30, 30}, ""},
    {"straight weight that stands still", FOCUS_STRENGTH, CHAINS, {80, 80, 80}, {0}, ""},
    {"one week with too little", FOCUS_SPEED, CHAINS, {50}, {5}, ""},
};

START_TEST(clean_waves_raise_nothing)
{
    make_weeks(&clean[_i]);
    const char *found = summary();
    ck_assert_msg(!*found, "%s: %s", clean[_i].what, found);
}
END_TEST

static const struct made_weeks planted[] = {
    {"less chain in the third week", FOCUS_SPEED, CHAINS, {50, 55, 60}, {20, 20, 15}, "setup-changed 2026-01-19 5/0"},
    {"a week without", FOCUS_SPEED, CHAINS, {50, 55, 60}, {20, 0, 20}, "setup-changed 2026-01-12 20/0"},
    {"only the top fell", FOCUS_STRENGTH, CHAINS, {80, 80, 80, 80}, {20, 20, 15, 15}, "setup-changed 2026-01-19 5/0"},
    {"twice in one wave is one",
     FOCUS_STRENGTH,
     CHAINS,
     {80, 82, 84, 86},
     {20, 15, 22, 22},
     "setup-changed 2026-01-12 7/0"},
    {"too little on speed work",
     FOCUS_SPEED,
     CHAINS,
     {50, 55, 60},
     {14, 14, 14},
     "share-out-of-range 2026-01-05 0.14/0.15"},
    {"too much", FOCUS_SPEED, CHAINS, {50, 55, 60}, {26, 26, 26}, "share-out-of-range 2026-01-05 0.26/0.25"},
    {"too much chain on strength work",
     FOCUS_STRENGTH,
     CHAINS,
     {40, 42},
     {62, 62},
     "share-out-of-range 2026-01-05 0.62/0.6"},
    {"too much band", FOCUS_STRENGTH, BANDS, {40, 42}, {52, 52}, "share-out-of-range 2026-01-05 0.52/0.5"},
    {"a short step and a long one",
     FOCUS_SPEED,
     CHAINS,
     {50, 52, 60},
     {20, 20, 20},
     "step-uneven 2026-01-05 0.03/0.015"},
    {"no step at all", FOCUS_SPEED, CHAINS, {50, 50}, {20, 20}, "step-uneven 2026-01-05 0.05/0.015"},
    {"too heavy to be fast", FOCUS_SPEED, CHAINS, {60, 65, 70}, {20, 20, 20}, "speed-too-heavy 2026-01-19 0.7/0.65"},
    {"a single week of it", FOCUS_SPEED, CHAINS, {72}, {0}, "speed-too-heavy 2026-01-05 0.72/0.65"},
    {"too light", FOCUS_SPEED, CHAINS, {40, 45, 50}, {20, 20, 20}, "speed-too-light 2026-01-05 0.4/0.45"},
    {"perhaps a light week, at the end", FOCUS_SPEED, CHAINS, {50, 55, 60, 40}, {20, 20, 20, 20}, ""},
    {"a jump", FOCUS_STRENGTH, BANDS, {80, 85, 75, 80}, {20, 20, 32, 32}, "share-jump 2026-01-19 0.12/0.1"},
    {"an episode for each wave",
     FOCUS_SPEED,
     CHAINS,
     {50, 55, 50, 55},
     {10, 10, 10, 10},
     "share-out-of-range 2026-01-05 0.1/0.15; share-out-of-range 2026-01-19 0.1/0.15"},
    {"lighter each week: only the last may be a light week",
     FOCUS_SPEED,
     CHAINS,
     {50, 40, 30},
     {20, 20, 20},
     "speed-too-light 2026-01-12 0.4/0.45"},
};

START_TEST(planted_waves_are_found)
{
    make_weeks(&planted[_i]);
    const char *found = summary();
    ck_assert_msg(!strcmp(found, planted[_i].found), "%s: %s", planted[_i].what, found);
}
END_TEST

/* Only a later week of its own focus tells that a lighter one was no light week. */
START_TEST(a_light_last_week_before_weeks_of_another_focus)
{
    static const double speed_kg[] = {50, 55, 60, 40};
    static const enum focus others[] = {FOCUS_STRENGTH, FOCUS_VOLUME};
    for (int week = 0; week < 4; week++)
        in_week(week, chained(made, speed_kg[week], 1, 10), SETS, 3, FOCUS_SPEED);
    for (int week = 4; week < 6; week++)
        in_week(week, mass(made, 80 + week), SETS, 3, others[_i]);
    ck_assert_str_eq(summary(), "");
}
END_TEST

START_TEST(no_share_is_judged_by_an_estimate)
{
    oda->max_count = 0;
    add_sets(made, ODA, "squat", "2026-01-05", mass(made, 95), 1, 3)->rpe = 9;
    in_week(1, banded(made, 70, 0, 60), SETS, 3, FOCUS_SPEED);
    in_week(2, banded(made, 71, 0, 10), SETS, 3, FOCUS_SPEED);
    ck_assert_str_eq(summary(), "one-rep-max-stale 2026-01-12 nan/182; setup-changed 2026-01-19 50/0");
}
END_TEST

START_TEST(a_set_up_change_tells_both_ends)
{
    in_week(0, banded(made, 50, 5, 25), SETS, 2, FOCUS_SPEED);
    in_week(1, banded(made, 55, 2, 19), SETS, 2, FOCUS_SPEED);
    const struct findings *findings = findings_of_log();
    ck_assert_uint_eq(findings->count, 1);
    const struct finding *finding = findings->items[0];
    ck_assert_uint_eq(finding->sets, SETS);
    ck_assert_double_eq(finding->value, 6);
    ck_assert_ptr_nonnull(
        strstr(finding->message, "moves the load at the bottom by -3.0 kg and at the top by -6.0 kg"));
    ck_assert_ptr_nonnull(strstr(finding->message, "(8 sets)"));
    every.unit = UNIT_LB;
    finding = findings_of_log()->items[0];
    ck_assert_ptr_nonnull(
        strstr(finding->message, "moves the load at the bottom by -6.6 lb and at the top by -13.2 lb"));
    ck_assert_double_eq(finding->value, 6);
}
END_TEST

START_TEST(an_unknown_set_up_moves_an_unknown_load)
{
    in_week(0, banded(made, 50, 5, 25), SETS, 2, FOCUS_SPEED);
    in_week(1, labelled(made, 55, "b99"), SETS, 2, FOCUS_SPEED);
    const struct findings *findings = findings_of_log();
    ck_assert_uint_eq(findings->count, 1);
    ck_assert(isnan(findings->items[0]->value));
    ck_assert_ptr_nonnull(strstr(findings->items[0]->message, "moves the load at the bottom by an unknown amount"));
}
END_TEST

START_TEST(a_wave_of_many_changes_is_told_in_short)
{
    for (int week = 0; week < 6; week++)
        in_week(week, banded(made, 80 + week, 0, week % 2 ? 15 : 10), SETS, 2, FOCUS_STRENGTH);
    const struct findings *findings = findings_of_log();
    ck_assert_uint_eq(findings->count, 1);
    ck_assert_uint_eq(findings->items[0]->sets, 3 * SETS); /* on another set-up than the wave began with */
    ck_assert_ptr_nonnull(strstr(findings->items[0]->message, "in 2026-W05"));
    ck_assert_ptr_null(strstr(findings->items[0]->message, "in 2026-W06"));
    ck_assert_ptr_nonnull(strstr(findings->items[0]->message, "and 2 more times"));
}
END_TEST

START_TEST(a_band_that_aged_is_the_same_set_up)
{
    add_band(made, "b26", 2, (const char *[]){"2026-01-01", "2026-01-18"}, (double[]){20, 19.2});
    add_heights(made, oda, "squat", 1.10, 1.60);
    for (int week = 0; week < 4; week++)
        in_week(week, labelled(made, 60, "b26"), SETS, 3, FOCUS_STRENGTH);
    every.ids = UINT32_C(1) << FINDING_SETUP_CHANGED;
    const struct waves *waves = waves_make(made->arena, train(made));
    ck_assert(waves->wave_count == 2 && waves->waves[0].ended_by_top); /* or there would be nothing to tell apart */
    ck_assert_str_eq(summary(), "");
}
END_TEST

START_TEST(releasers_are_no_chain_or_band)
{
    struct piece piece = {
        .kind = PIECE_RELEASER, .per_side = 1, .mass_kg = 10, .bottom_kg = NAN, .top_kg = NAN, .leader_m = NAN};
    struct load load = {.straight = STRAIGHT_MASS, .pieces = &piece, .piece_count = 1};
    for (int week = 0; week < 3; week++) {
        load.kg = 50 + 5 * week;
        in_week(week, load_intern(made->log->loads, &load), SETS, 2, FOCUS_SPEED);
    }
    ck_assert_str_eq(summary(), "");
}
END_TEST

START_TEST(the_tolerance_of_steps_is_a_pair_of_the_smallest_plates)
{
    static double plates[] = {20, 10, 1.5};
    for (int week = 0; week < 3; week++)
        in_week(week, banded(made, (double[]){50, 52, 60}[week], 0, 20), SETS, 2, FOCUS_SPEED);
    ck_assert_str_eq(summary(), "step-uneven 2026-01-05 0.03/0.015");
    made->gym->plates_kg = plates;
    made->gym->plate_count = 3;
    ck_assert_str_eq(summary(), "");
    plates[2] = 1.25;
    ck_assert_str_eq(summary(), "step-uneven 2026-01-05 0.03/0.025");
}
END_TEST

/* Who begins with chains and bands: the first three weeks of any lift. */
static const struct
{
    enum experience experience;
    double ar_kg;
    bool began_before; /* with another lift */
    const char *found;
} beginnings[] = {
    {EXPERIENCE_SEASONED, 24, false, ""},
    {EXPERIENCE_SOME, 20, false, ""},
    {EXPERIENCE_SOME, 24, false, "share-jump 2026-01-05 0.24/0.2"},
    {EXPERIENCE_UNSAID, 24, false, "share-jump 2026-01-05 0.24/0.2"},
    {EXPERIENCE_SOME, 24, true, ""},
};

START_TEST(a_beginning_with_too_much)
{
    oda->experience = beginnings[_i].experience;
    made->options.lifts = (struct name_choice){(const char *const[]){"squat"}, 1};
    for (int week = 0; week < 3; week++) {
        char iso[16];
        date_print(iso, day_of("2025-12-08") + 7 * week);
        if (beginnings[_i].began_before)
            add_sets(made, ODA, "bench press", iso, chained(made, 40, 1, 5), 3, 3);
        in_week(week, chained(made, 50 + 5 * week, 1, beginnings[_i].ar_kg / 2), SETS, 2, FOCUS_SPEED);
    }
    ck_assert_str_eq(summary(), beginnings[_i].found);
}
END_TEST

START_TEST(bands_of_a_newcomer)
{
    oda->experience = EXPERIENCE_NEW;
    in_week(0, banded(made, 80, 0, 10), 3, 3, FOCUS_STRENGTH);
    in_week(0, banded(made, 80, 0, 10), 1, 3, FOCUS_STRENGTH);
    in_week(2, chained(made, 70, 1, 5), 4, 3, FOCUS_STRENGTH);
    in_week(4, banded(made, 60, 0, 10), 4, 3, FOCUS_STRENGTH);
    ck_assert_str_eq(summary(), "bands-before-chains 2026-01-05 4/0; bands-before-chains 2026-02-02 4/0");
    oda->experience = EXPERIENCE_SOME;
    ck_assert_str_eq(summary(), "");
}
END_TEST

/* --- what loads rest on and add up to ----------------------------------------------------------------------------- */

static const struct
{
    const char *tested, *evaluated, *found; /* tested NULL: never */
} tests[] = {
    {"2026-01-01", "2026-07-02", ""},
    {"2026-01-01", "2026-07-03", "one-rep-max-stale 2026-07-03 183/182"},
    {NULL, "2026-07-03", "one-rep-max-stale 2026-07-03 nan/182"},
};

START_TEST(a_max_grows_stale)
{
    oda->max_count = 0;
    if (tests[_i].tested)
        add_max(made, oda, "squat", tests[_i].tested, MAX_KG);
    if (!tests[_i].tested)
        add_sets(made, ODA, "squat", "2026-07-01", mass(made, 80), 1, 3)->rpe = 8;
    add_sets(made, ODA, "squat", tests[_i].evaluated, mass(made, 80), 3, 3);
    ck_assert_str_eq(summary(), tests[_i].found);
}
END_TEST

START_TEST(what_rests_on_no_max_is_not_stale)
{
    add_sets(made, ODA, "row", "2026-07-03", mass(made, 40), 3, 15); /* too many repetitions for an estimate */
    ck_assert_str_eq(summary(), "");
}
END_TEST

/* Sets of five at one weight in each week; 0: none. */
static const struct
{
    const char *what;
    int sets[MOST_WEEKS];
    const char *today, *found;
} volumes[] = {
    {"steady", {4, 4, 4, 4, 4, 4}, NULL, ""},
    {"half as much again", {4, 4, 4, 4, 6}, NULL, ""},
    {"more", {4, 4, 4, 4, 7}, NULL, "volume-jump 2026-02-02 1.75/1.5"},
    {"one week before is no habit", {4, 8}, NULL, ""},
    {"two are", {4, 4, 8}, NULL, "volume-jump 2026-01-19 2/1.5"},
    {"weeks off are no part of it", {4, 4, 0, 0, 6}, NULL, ""},
    {"two trained among the four", {6, 4, 4, 0, 0, 7}, NULL, "volume-jump 2026-02-09 1.75/1.5"},
    {"no more than was done of late", {7, 4, 4, 0, 0, 7}, NULL, ""},
    {"nor 15 % more", {7, 4, 4, 4, 4, 8}, NULL, ""},
    {"two weeks are one episode", {4, 4, 4, 4, 8, 10}, NULL, "volume-jump 2026-02-02 2/1.5"},
    {"a week that is not over", {4, 4, 8}, "2026-01-21", ""},
    {"and over", {4, 4, 8}, "2026-01-26", "volume-jump 2026-01-19 2/1.5"},
};

START_TEST(volume_jumps)
{
    for (int week = 0; week < MOST_WEEKS; week++)
        in_week(week, mass(made, 70), volumes[_i].sets[week], 5, FOCUS_VOLUME);
    if (volumes[_i].today)
        made->options.today = day_of(volumes[_i].today);
    const char *found = summary();
    ck_assert_msg(!strcmp(found, volumes[_i].found), "%s: %s", volumes[_i].what, found);
}
END_TEST

/* --- limits and choices ------------------------------------------------------------------------------------------- */

static const struct
{
    struct finding_limit limit;
    const char *found;
} limits[] = {
    {{"speed-too-heavy", 0.75, false}, "share-out-of-range 2026-01-05 0.3/0.25"},
    {{"speed-too-heavy", 75, false}, "share-out-of-range 2026-01-05 0.3/0.25"}, /* per cent */
    {{"speed-too-heavy", NAN, true}, "share-out-of-range 2026-01-05 0.3/0.25"},
    {{"share-out-of-range", 0.30, false}, "speed-too-heavy 2026-01-12 0.7/0.65"},
    {{"Share-Out-Of-Range", NAN, true}, "speed-too-heavy 2026-01-12 0.7/0.65"},
    {{"share-out-of-range-least", 0.35, false},
     "share-out-of-range 2026-01-05 0.3/0.35; speed-too-heavy 2026-01-12 0.7/0.65"},
    {{"step-uneven-step", 0.10, false},
     "share-out-of-range 2026-01-05 0.3/0.25; step-uneven 2026-01-05 0.05/0.015; "
     "speed-too-heavy 2026-01-12 0.7/0.65"},
    {{"step-uneven-step", NAN, true}, "share-out-of-range 2026-01-05 0.3/0.25; speed-too-heavy 2026-01-12 0.7/0.65"},
};

START_TEST(limits_move_and_go)
{
    made->gym->limits = (struct finding_limit *)&limits[_i].limit;
    made->gym->limit_count = 1;
    in_week(0, banded(made, 65, 0, 30), SETS, 2, FOCUS_SPEED);
    in_week(1, banded(made, 70, 0, 30), SETS, 2, FOCUS_SPEED);
    ck_assert_str_eq(summary(), limits[_i].found);
}
END_TEST

START_TEST(ids_and_severities_choose)
{
    add_chain(0.30, 0.10)->mass_estimated = true;
    in_week(0, hung(&(struct piece){.kind = PIECE_CHAIN, .label = "long"}), 3, 3, FOCUS_STRENGTH);
    ck_assert_uint_eq(findings_of_log()->count, 3);
    ck_assert(findings_have(findings_of_log(), FINDING_FAULT));
    every.ids &= ~(UINT32_C(1) << FINDING_CHAIN_SWINGS);
    ck_assert_uint_eq(findings_of_log()->count, 2);
    ck_assert(findings_have(findings_of_log(), FINDING_NOTE) && !findings_have(findings_of_log(), FINDING_CAUTION));
    every.ids = ALL_FINDINGS;
    every.least = FINDING_CAUTION;
    ck_assert_str_eq(summary(), "chain-swings 2026-01-05 0/1");
}
END_TEST

START_TEST(every_finding_has_its_limit_and_words)
{
    for (size_t id = 0; id < FINDING_COUNT; id++) {
        ck_assert_str_eq(finding_kinds[id].id, limit_rows[id].id);
        ck_assert(*finding_kinds[id].why && *finding_kinds[id].source);
        ck_assert(finding_kinds[id].advice < ADVICE_COUNT && *finding_advice_words(finding_kinds[id].advice));
    }
    for (size_t id = FINDING_COUNT; id < LIMIT_COUNT; id++)
        ck_assert(*limit_rows[id].id && limit_rows[id].number > 0);
}
END_TEST

START_TEST(an_empty_log_has_none)
{
    ck_assert_uint_eq(findings_of_log()->count, 0);
}
END_TEST

#define ROWS(table) (int)(sizeof table / sizeof *table)

int main(void)
{
    Suite *suite = suite_create("findings");
    TCase *cases = tcase_create("findings");
    tcase_add_checked_fixture(cases, made_setup, made_teardown);
    tcase_add_loop_test(cases, clean_waves_raise_nothing, 0, ROWS(clean));
    tcase_add_loop_test(cases, planted_waves_are_found, 0, ROWS(planted));
    tcase_add_loop_test(cases, a_light_last_week_before_weeks_of_another_focus, 0, 2);
    tcase_add_test(cases, no_share_is_judged_by_an_estimate);
    tcase_add_test(cases, a_set_up_change_tells_both_ends);
    tcase_add_test(cases, an_unknown_set_up_moves_an_unknown_load);
    tcase_add_test(cases, a_wave_of_many_changes_is_told_in_short);
    tcase_add_test(cases, a_band_that_aged_is_the_same_set_up);
    tcase_add_test(cases, releasers_are_no_chain_or_band);
    tcase_add_test(cases, the_tolerance_of_steps_is_a_pair_of_the_smallest_plates);
    tcase_add_loop_test(cases, a_beginning_with_too_much, 0, ROWS(beginnings));
    tcase_add_test(cases, bands_of_a_newcomer);
    tcase_add_loop_test(cases, a_max_grows_stale, 0, ROWS(tests));
    tcase_add_test(cases, what_rests_on_no_max_is_not_stale);
    tcase_add_loop_test(cases, volume_jumps, 0, ROWS(volumes));
    tcase_add_loop_test(cases, limits_move_and_go, 0, ROWS(limits));
    tcase_add_test(cases, ids_and_severities_choose);
    tcase_add_test(cases, every_finding_has_its_limit_and_words);
    tcase_add_test(cases, an_empty_log_has_none);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
