/* Facts of a set-up against closed forms: linear loops and plain chains, whose slack points and clearances can be
 * worked out by hand. */
#include "analysis/setup/setup_facts.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>

#define BOTTOM_M 0.8
#define TOP_M 1.4

static struct arena *arena;
static struct piece piece;

static void begin(void)
{
    arena = arena_new();
}

static void end(void)
{
    arena_free(arena);
}

/* 40 kg for each metre beyond 0.6 m, calibrated up to 1.6 m. */
static const struct band_curve *linear_loop(void)
{
    struct tension_point points[] = {{0.8, 8}, {1.2, 24}, {1.6, 40}};
    struct calibration calibration = {
        .measured = NO_DAY, .flat_m = 0.6, .points = points, .point_count = 3, .law = LAW_MEASURED};
    return band_curve_new(arena, &calibration);
}

static struct loading *with_hung(struct hung hung)
{
    struct loading *loading = ARENA_NEW(arena, struct loading);
    *loading = (struct loading){
        .straight_kg = 100, .heights_known = true, .bottom_m = BOTTOM_M, .top_m = TOP_M, .hung_count = 1};
    loading->hung = ARENA_NEW(arena, struct hung);
    *loading->hung = hung;
    loading->hung->piece = &piece;
    return loading;
}

static struct hung band_at_anchor(enum rig rig, double anchor_m, double offset_m, double spread_m)
{
    return (struct hung){.kind = HUNG_BAND,
                         .times = 2,
                         .band = {.curve = linear_loop(),
                                  .rig = rig,
                                  .hitch_m = 0.1,
                                  .anchor_height_m = anchor_m,
                                  .offset_m = offset_m,
                                  .spread_m = spread_m}};
}

/* Slack within 0.6 m of the anchor (doubled: 0.3 m; choked: 0.5 m; with a spread of s: sqrt(0.36 − s²)). */
static const struct
{
    enum rig rig;
    double anchor_m, spread_m;
    double bottom_stretch_m, top_stretch_m, left_m;
    bool over_range, slack_at_bottom, slack_at_top;
    double slack_from_m, slack_to_m;
} bands[] = {
    {RIG_SINGLE, 0.1, 0, 0.7, 1.3, 0.3, false, false, false, NAN, NAN},
    {RIG_SINGLE, 0.2, 0, 0.6, 1.2, 0.4, false, true, false, NAN, NAN}, /* flat: no pull, and none of the way is slack */
    {RIG_SINGLE, 0.5, 0, 0.3, 0.9, 0.7, false, true, false, 0.8, 1.1},
    {RIG_SINGLE, 0.5, 0.36, 0.468614981, 0.969329665, 0.630670335, false, true, false, 0.8, 0.98},
    {RIG_SINGLE, 0.9, 0, 0.1, 0.5, 1.1, false, true, true, 0.8, 1.4},
    {RIG_SINGLE, 1.9, 0, 1.1, 0.5, 0.5, false, false, true, 1.3, 1.4}, /* from above: slack at the top */
    {RIG_DOUBLED, 0.6, 0, 0.4, 1.6, 0, false, true, false, 0.8, 0.9},
    {RIG_DOUBLED, 0.58, 0, 0.44, 1.64, -0.04, false, true, false, 0.8, 0.88}, /* within 5 % of its extension of 1 m */
    {RIG_DOUBLED, 0.5, 0, 0.6, 1.8, -0.2, true, true, false, NAN, NAN},
    {RIG_CHOKED, 0.4, 0, 0.48, 1.2, 0.4, false, true, false, 0.8, 0.9},
};

START_TEST(bands_hang)
{
    struct loading *loading = with_hung(band_at_anchor(bands[_i].rig, bands[_i].anchor_m, 0, bands[_i].spread_m));
    struct band_facts facts = band_facts_of(loading, loading->hung);
    ck_assert_double_eq_tol(facts.bottom_stretch_m, bands[_i].bottom_stretch_m, 1e-9);
    ck_assert_double_eq_tol(facts.top_stretch_m, bands[_i].top_stretch_m, 1e-9);
    ck_assert_double_eq_tol(facts.left_m, bands[_i].left_m, 1e-9);
    ck_assert_double_eq(facts.end_m, 1.6);
    ck_assert_int_eq(facts.over_range, bands[_i].over_range);
    ck_assert_int_eq(facts.slack_at_bottom, bands[_i].slack_at_bottom);
    ck_assert_int_eq(facts.slack_at_top, bands[_i].slack_at_top);
    ck_assert_int_eq(isnan(facts.slack_from_m), isnan(bands[_i].slack_from_m));
    if (isnan(facts.slack_from_m))
        return;
    ck_assert_double_eq_tol(facts.slack_from_m, bands[_i].slack_from_m, 1e-9);
    ck_assert_double_eq_tol(facts.slack_to_m, bands[_i].slack_to_m, 1e-9);
}
END_TEST

/* 1 m of chain with links of 5 cm. */
static const struct
{
    double leader_m;
    int strands;
    double clearance_m, resting_share;
} chains[] = {
    {0.8, 1, 0.35, 0.6}, {0.45, 1, 0, 0.6}, {0.3, 1, -0.05, 0.5},
    {0.9, 1, 0.45, 0.5}, {0.95, 2, 0, 0.9}, {0.8, 2, -0.05, 1},
};

START_TEST(chains_hang)
{
    struct hung_chain chain = {10, 1, chains[_i].leader_m, 0, chains[_i].strands, 0.05, 0, false, 0, 0};
    struct loading *loading = with_hung((struct hung){.kind = HUNG_CHAIN, .times = 2, .chain = chain});
    struct chain_facts facts = chain_facts_of(loading, loading->hung);
    ck_assert_double_eq_tol(facts.clearance_m, chains[_i].clearance_m, 1e-9);
    ck_assert_double_eq_tol(facts.resting_share, chains[_i].resting_share, 1e-9);
}
END_TEST

/* An offset a pulls a / (h − z) of the vertical pull off the path: most at the bottom; F a / d is most at the top. */
START_TEST(off_the_path)
{
    double distance = hypot(1.3, 0.13);
    struct loading *loading = with_hung(band_at_anchor(RIG_SINGLE, 0.1, 0.13, 0));
    struct fore_aft worst = fore_aft_worst(loading);
    ck_assert_double_eq_tol(worst.ratio, 0.13 / 0.7, 1e-9);
    ck_assert_double_eq(worst.ratio_at_m, BOTTOM_M);
    ck_assert_double_eq_tol(worst.pull_kg, 2 * 40 * (distance - 0.6) * 0.13 / distance, 1e-9);
    ck_assert_double_eq(worst.pull_at_m, TOP_M);
    /* Slack at first: worst where it comes taut, at a rise of sqrt(0.36 - 0.01), which no even step meets. */
    worst = fore_aft_worst(with_hung(band_at_anchor(RIG_SINGLE, 0.4, 0.1, 0)));
    ck_assert_double_eq_tol(worst.ratio, 0.1 / sqrt(0.35), 1e-9);
    ck_assert_double_eq_tol(worst.ratio_at_m, 0.4 + sqrt(0.35), 1e-9);
    worst = fore_aft_worst(with_hung(band_at_anchor(RIG_SINGLE, 0.1, 0, 0.3)));
    ck_assert_double_eq(worst.pull_kg, 0); /* a spread is the same on both sides */
    ck_assert_double_eq(worst.ratio, 0);
}
END_TEST

/* The curve has both ends exactly, rises, and bends where it should. */
START_TEST(curve_heights)
{
    static const double kinks[] = {0.93, 1.1};
    struct loading *loading = with_hung(band_at_anchor(RIG_SINGLE, 0.5, 0, 0)); /* taut from 1.1 m on */
    struct hung *two = ARENA_ARRAY(arena, struct hung, 2);
    two[0] = loading->hung[0];
    two[1] = (struct hung){.kind = HUNG_CHAIN, .piece = &piece, .times = 2, .chain = {10, 1, 0.93, 0, 1, 0.05}};
    loading->hung = two, loading->hung_count = 2;
    size_t count;
    const double *all = setup_heights(arena, loading, &count);
    ck_assert_uint_ge(count, 101);
    ck_assert(all[0] <= BOTTOM_M && all[0] >= BOTTOM_M && all[count - 1] <= TOP_M && all[count - 1] >= TOP_M);
    for (size_t i = 1; i < count; i++)
        ck_assert_double_gt(all[i], all[i - 1]);
    for (size_t k = 0; k < 2; k++) {
        bool found = false;
        for (size_t i = 0; i < count; i++)
            found |= fabs(all[i] - kinks[k]) < 1e-12;
        ck_assert_msg(found, "no point at %g", kinks[k]);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("setup_facts");
    TCase *cases = tcase_create("setup_facts");
    tcase_add_checked_fixture(cases, begin, end);
    tcase_add_loop_test(cases, bands_hang, 0, sizeof bands / sizeof *bands);
    tcase_add_loop_test(cases, chains_hang, 0, sizeof chains / sizeof *chains);
    tcase_add_test(cases, off_the_path);
    tcase_add_test(cases, curve_heights);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
