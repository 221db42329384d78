#include "analysis/findings/findings.h"

#include "analysis/bands/band_comparing.h"

#include "unit/made_findings.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static const struct
{
    const char *what;
    double length_m, leader_m;
    enum rig rig;
    const char *found;
} chains[] = {
    {"two links on the floor", 0.70, 0.80, RIG_SINGLE, ""},
    {"one link", 0.65, 0.80, RIG_SINGLE, ""},
    {"less than one", 0.64, 0.80, RIG_SINGLE, "chain-swings 2026-01-05 0.8/1"},
    {"none", 0.50, 0.80, RIG_SINGLE, "chain-swings 2026-01-05 0/1"},
    {"by its middle", 1.30, 0.80, RIG_DOUBLED, ""},
    {"by its middle, too short", 1.20, 0.80, RIG_DOUBLED, "chain-swings 2026-01-05 0/1"},
    {"seven tenths come to rest", 0.60 / 0.70, 0.59, RIG_SINGLE, "chain-swings 2026-01-05 0.9429/1"},
    {"on a short leader", 1.00, 0.45, RIG_SINGLE, "chain-mostly-straight 2026-01-05 0.6/0.7"},
    {"never on the floor", 0.30, 0.10, RIG_SINGLE,
     "chain-swings 2026-01-05 0/1; chain-mostly-straight 2026-01-05 0/0.7"},
};

START_TEST(chains_hang_well_or_not)
{
    add_chain(chains[_i].length_m, chains[_i].leader_m);
    in_week(0, hung(&(struct piece){.kind = PIECE_CHAIN, .label = "long", .rig = chains[_i].rig}), 3, 3,
            FOCUS_STRENGTH);
    const char *found = summary();
    ck_assert_msg(!strcmp(found, chains[_i].found), "%s: %s", chains[_i].what, found);
}
END_TEST

START_TEST(without_heights_nothing_swings)
{
    add_chain(0.3, 0.1);
    oda->height_count = 0;
    in_week(0, hung(&(struct piece){.kind = PIECE_CHAIN, .label = "long"}), 3, 3, FOCUS_STRENGTH);
    ck_assert_str_eq(summary(), "");
    oda->stature_m = 1.70; /* top 0.818 H, bottom 0.506 H */
    const struct findings *findings = findings_of_log();
    ck_assert_uint_eq(findings->count, 2);
    ck_assert_ptr_nonnull(strstr(findings->items[0]->message, "estimated from stature"));
}
END_TEST

START_TEST(a_mass_from_the_size_stands_under_the_first_lift)
{
    struct chain *chain = add_chain(0.70, 0.80);
    chain->mass_estimated = true;
    const struct load *load = hung(&(struct piece){.kind = PIECE_CHAIN, .label = "long"});
    add_sets(made, ODA, "squat", "2026-01-07", load, 2, 3);
    add_sets(made, ODA, "bench press", "2026-01-05", load, 3, 3);
    add_sets(made, IVO, "squat", "2026-01-05", load, 1, 3);
    every.ids = UINT32_C(1) << FINDING_CHAIN_MASS_ESTIMATED;
    const struct findings *findings = findings_of_log();
    ck_assert_uint_eq(findings->count, 2);
    ck_assert_str_eq(findings->items[0]->first->lifter, IVO);
    ck_assert_str_eq(findings->items[1]->first->lift, "bench press");
    ck_assert_uint_eq(findings->items[1]->sets, 5);
    ck_assert_double_eq(findings->items[1]->value, 7);
    struct finding_limit limit = {.id = "chain-mass-estimated", .value = 7};
    made->gym->limits = &limit;
    made->gym->limit_count = 1;
    ck_assert_uint_eq(findings_of_log()->count, 0); /* no more than that */
    limit.value = 6.9;
    ck_assert_uint_eq(findings_of_log()->count, 2);
}
END_TEST

/* Flat 0.70 m; pulls 20 kg a metre up to `end_m`, times `strength`. */
static struct calibration calibration(double end_m, double strength, const char *measured)
{
    struct tension_point *points = ARENA_ARRAY(made->arena, struct tension_point, 2);
    points[0] = (struct tension_point){0.90, strength * 4};
    points[1] = (struct tension_point){end_m, strength * 20 * (end_m - 0.70)};
    return (struct calibration){.measured = measured ? day_of(measured) : NO_DAY,
                                .flat_m = 0.70,
                                .points = points,
                                .point_count = 2,
                                .c1_kg = NAN,
                                .c2_kg = NAN,
                                .range_high_m = end_m};
}

static struct band *new_band(const char *label, struct calibration first, const struct calibration *second)
{
    struct gym *gym = made->gym;
    struct band *bands = ARENA_ARRAY(made->arena, struct band, gym->band_count + 1);
    struct calibration *calibrations = ARENA_ARRAY(made->arena, struct calibration, 2);
    if (gym->band_count)
        memcpy(bands, gym->bands, gym->band_count * sizeof *bands);
    gym->bands = bands;
    calibrations[0] = first;
    if (second)
        calibrations[1] = *second;
    bands[gym->band_count] = (struct band){
        .label = label, .hitch_m = NAN, .calibrations = calibrations, .calibration_count = second ? 2 : 1};
    add_heights(made, oda, "squat", BOTTOM_M, TOP_M);
    return &bands[gym->band_count++];
}

static const struct
{
    const char *what;
    double end_m, anchor_m, offset_m;
    enum rig rig;
    bool reverse;
    const char *found;
} bands[] = {
    {"taut all the way", 1.60, 0.05, 0, RIG_SINGLE, false, ""},
    {"just taut at the bottom", 1.60, 0.0999, 0, RIG_SINGLE, false, ""},
    {"flat at the bottom", 1.60, 0.10, 0, RIG_SINGLE, false, "band-slack 2026-01-05 0/0"},
    {"slack until half-way", 1.60, 0.40, 0, RIG_SINGLE, false, "band-slack 2026-01-05 0/0"},
    {"doubled", 3.00, 0.40, 0, RIG_DOUBLED, false, ""},
    {"doubled and slack", 3.00, 0.50, 0, RIG_DOUBLED, false, "band-slack 2026-01-05 0/0"},
    {"hung from above and slack at the top only", 1.80, 2.00, 0, RIG_SINGLE, true, ""},
    {"longer than measured", 1.25, 0.05, 0, RIG_SINGLE, false, "band-over-range 2026-01-05 0.1818/0.05"},
    {"five hundredths longer", (1.35 + 0.05 * 0.70) / 1.05, 0.05, 0, RIG_SINGLE, false, ""},
    {"hung from above, longest at the bottom", 1.30, 2.20, 0, RIG_SINGLE, true,
     "band-over-range 2026-01-05 0.1667/0.05"},
    {"an anchor at the limit", 1.60, 0.05, 0.0375, RIG_SINGLE, false, ""},
    {"an anchor behind", 1.60, 0.05, -0.06, RIG_SINGLE, false, "anchor-off-centre 2026-01-05 0.08/0.05"},
    /* a / (h − z) is largest where the band comes taut: 0.08 / sqrt(0.70² − 0.08²) */
    {"an anchor before, slack at first", 1.60, 0.40, 0.08, RIG_SINGLE, false,
     "band-slack 2026-01-05 0/0; anchor-off-centre 2026-01-05 0.115/0.05"},
};

START_TEST(bands_hang_well_or_not)
{
    struct setup *pegs = ARENA_NEW(made->arena, struct setup);
    *pegs = (struct setup){.name = "pegs", .height_m = bands[_i].anchor_m, .offset_m = bands[_i].offset_m};
    made->gym->setups = pegs;
    made->gym->setup_count = 1;
    new_band("b26", calibration(bands[_i].end_m, 1, NULL), NULL);
    in_week(
        0,
        hung(&(struct piece){
            .kind = PIECE_BAND, .label = "b26", .rig = bands[_i].rig, .reverse = bands[_i].reverse, .setup = "pegs"}),
        3, 3, FOCUS_STRENGTH);
    const char *found = summary();
    ck_assert_msg(!strcmp(found, bands[_i].found), "%s: %s", bands[_i].what, found);
}
END_TEST

static const struct
{
    const char *what;
    double strength;          /* of the other one */
    bool pair;                /* pair = yes for both */
    const char *partner;      /* of b8 */
    const char *left, *right; /* right NULL: both sides alike */
    const char *found;
} pairs[] = {
    {"a pair", 1, true, NULL, "b8", NULL, ""},
    {"a pair written twice", 1, true, NULL, "b8", "B8", ""},
    {"of two pairs", 0.90, true, NULL, "b8", "b9",
     "band-mismatch 2026-01-05 0.1053/0.05; band-unpaired 2026-01-05 2/0"},
    {"alike, and of two pairs", 1, true, NULL, "b8", "b9",
     "band-mismatch 2026-01-05 0/0.05; band-unpaired 2026-01-05 2/0"},
    {"declared mates", 0.952, false, "b9", "b8", "b9", ""},
    {"declared mates, either way round", 0.952, false, "b9", "b9", "b8", ""},
    {"mates that differ", 0.94, false, "b9", "b8", "b9", "band-mismatch 2026-01-05 0.06186/0.05"},
    {"without its mate", 1, false, "b9", "b8", NULL, "band-unpaired 2026-01-05 2/0"},
    {"two singles", 1, false, NULL, "b8", "b9", "band-mismatch 2026-01-05 0/0.05"},
    {"one that nobody knows", 1, true, NULL, "b8", "b7",
     "band-mismatch 2026-01-05 nan/0.05; band-unpaired 2026-01-05 1/0"},
    {"two that nobody knows", 1, true, NULL, "b6", "b7", "band-mismatch 2026-01-05 nan/0.05"},
};

START_TEST(left_and_right)
{
    new_band("b9", calibration(1.60, pairs[_i].strength, NULL), NULL)->pair = pairs[_i].pair;
    struct band *eight = new_band("b8", calibration(1.60, 1, NULL), NULL);
    eight->pair = pairs[_i].pair;
    eight->partner = pairs[_i].partner;
    in_week(0, hung(&(struct piece){.kind = PIECE_BAND, .label = pairs[_i].left, .label_right = pairs[_i].right}), 3, 3,
            FOCUS_STRENGTH);
    const char *found = summary();
    ck_assert_msg(!strcmp(found, pairs[_i].found), "%s: %s", pairs[_i].what, found);
    oda->height_count = 0; /* the difference is then that over the lengths that both have */
    ck_assert_str_eq(summary(), found);
}
END_TEST

/* Where the lift is longest both pull alike; half-way one pulls 1 kg more, of a mean of 8.5: fit's measure is the same.
 */
START_TEST(the_largest_difference_may_be_half_way)
{
    static struct tension_point even[] = {{0.9, 4}, {1.1, 8}, {1.6, 18}}, bent[] = {{0.9, 4}, {1.1, 9}, {1.6, 18}};
    struct calibration one = calibration(1.60, 1, NULL), other = one;
    one.points = even, one.point_count = 3;
    other.points = bent, other.point_count = 3;
    new_band("b8", one, NULL)->partner = "b9";
    new_band("b9", other, NULL);
    in_week(0, hung(&(struct piece){.kind = PIECE_BAND, .label = "b8", .label_right = "b9"}), 3, 3, FOCUS_STRENGTH);
    const struct band_curve *left = band_curve_new(made->arena, &one), *right = band_curve_new(made->arena, &other);
    struct pulls_apart apart = curves_apart(left, right, 0.9, 1.6);
    ck_assert_double_ge(fabs(apart.kg), 1 - 1e-3);
    ck_assert_double_eq_tol(apart.at_m, 1.1, 0.1);
    ck_assert_double_eq_tol(apart.share,
                            apart.kg / ((band_pull_kg(left, apart.at_m) + band_pull_kg(right, apart.at_m)) / 2), 1e-12);
    const char *found = summary();
    ck_assert_msg(strstr(found, "band-mismatch 2026-01-05 0.1"), "%s", found);
}
END_TEST

static const struct
{
    const char *what;
    const char *measured, *again; /* NULL: undated; never */
    double left;                  /* of the tension, by then */
    const char *evaluated, *found;
} ages[] = {
    {"half a year", "2025-07-11", NULL, 1, "2026-01-07", ""},
    {"a day more", "2025-07-10", NULL, 1, "2026-01-07", "band-aged 2026-01-07 181/180"},
    {"undated", NULL, NULL, 1, "2026-01-07", ""},
    {"measured later only", "2026-05-01", NULL, 1, "2026-01-07", ""},
    {"measured again", "2025-01-10", "2026-01-01", 0.95, "2026-01-07", ""},
    {"measured again afterwards", "2025-07-10", "2026-02-01", 1, "2026-01-07", "band-aged 2026-01-07 181/180"},
    {"weaker", "2025-10-10", "2026-01-01", 0.94, "2026-01-07", "band-aged 2026-01-07 0.06/0.05"},
    {"weaker later", "2025-10-10", "2026-02-01", 0.94, "2026-01-07", ""},
    {"stronger", "2025-10-10", "2026-01-01", 1.10, "2026-01-07", ""},
};

START_TEST(bands_age_by_the_day_of_the_set)
{
    struct calibration again = calibration(1.60, ages[_i].left, ages[_i].again ? ages[_i].again : "2030-01-01");
    new_band("b26", calibration(1.60, 1, ages[_i].measured), ages[_i].again ? &again : NULL);
    add_sets(made, ODA, "squat", ages[_i].evaluated, hung(&(struct piece){.kind = PIECE_BAND, .label = "b26"}), 3, 3);
    made->options.today = day_of("2028-01-01");
    const char *found = summary();
    ck_assert_msg(!strcmp(found, ages[_i].found), "%s: %s", ages[_i].what, found);
}
END_TEST

START_TEST(a_run_of_sessions_is_one_finding)
{
    add_chain(0.30, 0.80);
    const struct load *swings = hung(&(struct piece){.kind = PIECE_CHAIN, .label = "long"});
    for (int week = 0; week < 6; week++) {
        in_week(week, week == 3 ? banded(made, 60, 0, 10) : swings, 2, 3, FOCUS_VOLUME);
        in_week(week, mass(made, 50), 3, 8, FOCUS_VOLUME); /* a session's plain sets part no run */
    }
    every.ids = UINT32_C(1) << FINDING_CHAIN_SWINGS;
    const struct findings *findings = findings_of_log();
    ck_assert_uint_eq(findings->count, 2);
    ck_assert_uint_eq(findings->items[0]->sets, 6);
    ck_assert_uint_eq(findings->items[1]->sets, 4);
    ck_assert_ptr_nonnull(strstr(findings->items[0]->message, "(6 sets, to 2026-01-19)"));
    ck_assert_uint_eq(findings->items[0]->runs, 3);
    ck_assert_uint_eq(findings->items[0]->lines[1].first, 6);
    ck_assert_uint_eq(findings->items[0]->lines[1].last, 7);
}
END_TEST

START_TEST(sets_of_one_line_are_one_run)
{
    add_chain(0.30, 0.80);
    const struct load *swings = hung(&(struct piece){.kind = PIECE_CHAIN, .label = "long"});
    in_week(0, swings, 6, 3, FOCUS_VOLUME);
    static const uint32_t lines[] = {4, 4, 4, 5, 5, 7}; /* 4 to 5, and 7 */
    for (int i = 0; i < 6; i++)
        made->log->sets.items[i].line = lines[i];
    every.ids = UINT32_C(1) << FINDING_CHAIN_SWINGS;
    const struct finding *finding = findings_of_log()->items[0];
    ck_assert_uint_eq(finding->sets, 6);
    ck_assert_uint_eq(finding->runs, 2);
    ck_assert_uint_eq(finding->lines[0].first, 4);
    ck_assert_uint_eq(finding->lines[0].last, 5);
    ck_assert_uint_eq(finding->lines[1].first, 7);
}
END_TEST

START_TEST(lines_that_are_too_many_are_counted)
{
    add_chain(0.30, 0.80);
    const struct load *swings = hung(&(struct piece){.kind = PIECE_CHAIN, .label = "long"});
    for (int i = 0; i < FINDING_LINES + 3; i++) {
        in_week(0, swings, 2, 3, FOCUS_VOLUME);
        in_week(0, mass(made, 50), 1, 8, FOCUS_VOLUME);
    }
    every.ids = UINT32_C(1) << FINDING_CHAIN_SWINGS;
    const struct finding *finding = findings_of_log()->items[0];
    ck_assert_uint_eq(finding->runs, FINDING_LINES + 3);
    ck_assert_uint_eq(finding->lines[FINDING_LINES - 1].first, 3 * (FINDING_LINES - 1) + 1);
    ck_assert_uint_eq(finding->sets, 2 * (FINDING_LINES + 3));
}
END_TEST

START_TEST(warm_ups_and_misses_raise_nothing)
{
    add_chain(0.30, 0.80);
    const struct load *swings = hung(&(struct piece){.kind = PIECE_CHAIN, .label = "long"});
    add_sets(made, ODA, "squat", "2026-01-05", swings, 1, 3)->kind = SET_WARM_UP;
    add_sets(made, ODA, "squat", "2026-01-05", swings, 1, 0)->kind = SET_MISSED;
    ck_assert_str_eq(summary(), "");
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("findings of gear");
    TCase *cases = tcase_create("findings of gear");
    tcase_add_checked_fixture(cases, made_setup, made_teardown);
    tcase_add_loop_test(cases, chains_hang_well_or_not, 0, ROWS(chains));
    tcase_add_test(cases, without_heights_nothing_swings);
    tcase_add_test(cases, a_mass_from_the_size_stands_under_the_first_lift);
    tcase_add_loop_test(cases, bands_hang_well_or_not, 0, ROWS(bands));
    tcase_add_loop_test(cases, left_and_right, 0, ROWS(pairs));
    tcase_add_test(cases, the_largest_difference_may_be_half_way);
    tcase_add_loop_test(cases, bands_age_by_the_day_of_the_set, 0, ROWS(ages));
    tcase_add_test(cases, a_run_of_sessions_is_one_finding);
    tcase_add_test(cases, sets_of_one_line_are_one_run);
    tcase_add_test(cases, lines_that_are_too_many_are_counted);
    tcase_add_test(cases, warm_ups_and_misses_raise_nothing);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
