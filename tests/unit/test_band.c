#include "model/band.h"

#include "model/band_fit.h"
#include "model/numeric.h"

#include <check.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_spline.h>
#include <math.h>
#include <stdlib.h>

static struct arena *arena;

static void set_up(void)
{
    arena = arena_new();
}

static void tear_down(void)
{
    arena_free(arena);
}

#define FLAT 1.04
#define UNSAID .c1_kg = NAN, .c2_kg = NAN, .range_low_m = NAN, .range_high_m = NAN
#define COUNT(table) (sizeof table / sizeof *table)

static struct tension_point measured[] = {{1.10, 6.4},  {1.30, 15.1}, {1.60, 24.3}, {2.00, 33.8},
                                          {2.40, 41.7}, {2.80, 50.2}, {3.00, 55.0}};

static const struct band_curve *curve_of(enum band_law law, struct tension_point *points, size_t count)
{
    struct calibration calibration = {.flat_m = FLAT, .points = points, .point_count = count, .law = law, UNSAID};
    return band_curve_new(arena, &calibration);
}

/* --- curves --- */

START_TEST(the_interpolant_is_gsls)
{
    const double x[] = {FLAT, 1.10, 1.30, 1.60, 2.00, 2.40, 2.80, 3.00};
    const double y[] = {0, 6.4, 15.1, 24.3, 33.8, 41.7, 50.2, 55};
    gsl_spline *spline = gsl_spline_alloc(gsl_interp_steffen, 8);
    gsl_spline_init(spline, x, y, 8);
    const struct band_curve *curve = curve_of(LAW_MEASURED, measured, COUNT(measured));
    for (double length = FLAT; length < 3.0; length += 0.0007) {
        ck_assert_double_eq_tol(band_pull_kg(curve, length), gsl_spline_eval(spline, length, NULL), 1e-11);
        double slope = gsl_spline_eval_deriv(spline, length, NULL);
        ck_assert_double_eq_tol(band_pull_slope_kg_per_m(curve, length), slope, 1e-9);
    }
    gsl_spline_free(spline);
}
END_TEST

START_TEST(before_the_first_point_and_beyond_the_last)
{
    const struct band_curve *curve = curve_of(LAW_MEASURED, measured, COUNT(measured));
    double secant = (55.0 - 50.2) / 0.20;
    ck_assert_double_eq(band_pull_kg(curve, FLAT), 0);
    ck_assert_double_eq(band_pull_kg(curve, 0.5), 0);
    ck_assert_double_eq(band_pull_slope_kg_per_m(curve, 0.5), 0);
    ck_assert_double_eq_tol(band_pull_slope_kg_per_m(curve, FLAT), 6.4 / 0.06, 1e-9); /* the upward one: the secant */
    ck_assert_double_eq_tol(band_pull_kg(curve, 3.0), 55, 1e-12);
    ck_assert_double_eq_tol(band_pull_kg(curve, 3.5), 55 + 0.5 * secant, 1e-9);
    ck_assert_double_eq_tol(band_pull_slope_kg_per_m(curve, 3.5), secant, 1e-9);
    ck_assert_double_eq(band_end_m(curve), 3.0);
    ck_assert_double_eq(band_flat_m(curve), FLAT);
    ck_assert(!band_over_range(curve, 3.0 + 0.05 * 1.96 - 1e-9));
    ck_assert(band_over_range(curve, 3.0 + 0.05 * 1.96 + 1e-9));
}
END_TEST

START_TEST(one_point_makes_a_neo_hookean_band)
{
    struct tension_point point[] = {{1.56, 10}}; /* λ = 1.5 */
    for (enum band_law law = LAW_MEASURED; law <= LAW_MOONEY_RIVLIN; law++) {
        const struct band_curve *curve = curve_of(law, point, 1);
        ck_assert(band_rests_on_one_point(curve));
        double constant = 10 / (1.5 - 1 / 2.25);
        ck_assert_double_eq_tol(band_pull_kg(curve, 1.56), 10, 1e-12);
        ck_assert_double_eq_tol(band_pull_kg(curve, 1.25 * FLAT), constant * (1.25 - 1 / 1.5625), 1e-12);
        double slope = constant * (1 + 2 / (1.5 * 1.5 * 1.5)) / FLAT;
        ck_assert_double_eq_tol(band_pull_kg(curve, 1.56 + 0.1), 10 + 0.1 * slope, 1e-12);
    }
    ck_assert(!band_rests_on_one_point(curve_of(LAW_MEASURED, measured, 2)));
}
END_TEST

START_TEST(a_law_asked_for_is_fitted_to_the_points)
{
    struct tension_point points[4];
    for (int i = 0; i < 4; i++) {
        double ratio = 1.2 + 0.3 * i;
        points[i] = (struct tension_point){ratio * FLAT, band_law_pull_kg(8, 5, ratio)};
    }
    const struct band_curve *curve = curve_of(LAW_MOONEY_RIVLIN, points, 4);
    for (double ratio = 1.0; ratio < 2.1; ratio += 0.01)
        ck_assert_double_eq_tol(band_pull_kg(curve, ratio * FLAT), band_law_pull_kg(8, 5, ratio), 1e-9);
    struct band_fit fit;
    ck_assert(band_law_fit(LAW_MOONEY_RIVLIN, FLAT, points, 4, &fit));
    ck_assert_double_eq_tol(fit.c1_kg, 8, 1e-9);
    ck_assert_double_eq_tol(fit.c2_kg, 5, 1e-9);
    ck_assert_double_eq_tol(fit.residual_kg, 0, 1e-9);
    ck_assert_double_eq_tol(fit.low_m, 1.2 * FLAT, 1e-12);
    ck_assert_double_eq_tol(fit.high_m, 2.1 * FLAT, 1e-12);
    ck_assert_uint_eq(fit.point_count, 4);
}
END_TEST

START_TEST(coefficients_given_stand)
{
    struct calibration calibration = {.flat_m = 1,
                                      .law = LAW_MOONEY_RIVLIN,
                                      .c1_kg = 8,
                                      .c2_kg = 5,
                                      .range_low_m = 1.1,
                                      .range_high_m = 2.0,
                                      .points = measured,
                                      .point_count = 3};
    const struct band_curve *curve = band_curve_new(arena, &calibration);
    ck_assert_double_eq_tol(band_pull_kg(curve, 1.7), band_law_pull_kg(8, 5, 1.7), 1e-12);
    ck_assert_double_eq(band_end_m(curve), 2.0);
    double step = (band_pull_kg(curve, 2.0) - band_pull_kg(curve, 2.0 - 1e-6)) / 1e-6;
    ck_assert_double_eq_tol(band_pull_slope_kg_per_m(curve, 2.5), step, 1e-4);
    calibration.range_high_m = NAN; /* no range said: the law goes on */
    curve = band_curve_new(arena, &calibration);
    ck_assert_double_eq_tol(band_pull_kg(curve, 3.0), band_law_pull_kg(8, 5, 3.0), 1e-12);
    ck_assert(!band_over_range(curve, 100));
}
END_TEST

START_TEST(a_fit_has_errors_only_with_points_to_spare)
{
    struct band_fit fit;
    ck_assert(band_law_fit(LAW_NEO_HOOKEAN, FLAT, measured, 1, &fit) && isnan(fit.c1_u_kg));
    ck_assert(band_law_fit(LAW_NEO_HOOKEAN, FLAT, measured, 3, &fit) && fit.c1_u_kg > 0);
    ck_assert(band_law_fit(LAW_MOONEY_RIVLIN, FLAT, measured, 2, &fit) && isnan(fit.c1_u_kg) && isnan(fit.c2_u_kg));
    ck_assert(band_law_fit(LAW_MOONEY_RIVLIN, FLAT, measured, 7, &fit) && fit.c1_u_kg > 0 && fit.c2_u_kg > 0);
    ck_assert(!band_law_fit(LAW_MOONEY_RIVLIN, FLAT, measured, 1, &fit));
    ck_assert(!band_law_fit(LAW_NEO_HOOKEAN, FLAT, measured, 0, &fit));
    ck_assert(!band_law_fit(LAW_MEASURED, FLAT, measured, 7, &fit));
    ck_assert(!band_law_fit(LAW_NEO_HOOKEAN, 4.0, measured, 7, &fit)); /* nothing longer than flat */
    ck_assert(!band_law_fit(LAW_NEO_HOOKEAN, NAN, measured, 7, &fit));
}
END_TEST

/* What no gym file should hold, and a curve must survive. */
static struct tension_point doubled_lengths[] = {{1.3, 10}, {1.3, 12}, {1.6, 20}};
static struct tension_point not_numbers[] = {{NAN, 4}, {1.3, INFINITY}, {1.6, 20}};
static struct tension_point too_short[] = {{0.8, 3}, {FLAT, 1}}, falling[] = {{1.3, 10}, {1.6, 5}, {2.0, -20}};
static const struct
{
    struct tension_point *points;
    size_t count;
    bool usable;
} hostile[] = {
    {doubled_lengths, 3, true}, {not_numbers, 3, true}, {too_short, 2, false}, {falling, 3, true}, {measured, 0, false},
};

START_TEST(bad_points_are_left_out)
{
    for (enum band_law law = LAW_MEASURED; law <= LAW_MOONEY_RIVLIN; law++) {
        const struct band_curve *curve = curve_of(law, hostile[_i].points, hostile[_i].count);
        ck_assert_int_eq(curve != NULL, hostile[_i].usable);
        for (double length = 0; curve && length < 10; length += 0.01)
            ck_assert(band_pull_kg(curve, length) >= 0 && isfinite(band_pull_kg(curve, length)));
    }
    struct calibration flat = {.flat_m = NAN, .points = measured, .point_count = 7, UNSAID};
    ck_assert_ptr_null(band_curve_new(arena, &flat));
    flat.flat_m = 0;
    ck_assert_ptr_null(band_curve_new(arena, &flat));
}
END_TEST

START_TEST(gsl_never_aborts)
{
    numeric_ready();
    gsl_error("a complaint", __FILE__, __LINE__, GSL_EDOM); /* would abort */
    const double backwards[] = {2, 1, 0}, values[] = {0, 1, 2};
    gsl_interp *interpolant = gsl_interp_alloc(gsl_interp_steffen, 3);
    ck_assert_int_ne(gsl_interp_init(interpolant, backwards, values, 3), GSL_SUCCESS);
    gsl_interp_free(interpolant);
}
END_TEST

START_TEST(no_pull_falls_with_length)
{
    static struct tension_point steps[] = {{1.1, 1}, {1.2, 1}, {1.3, 9}, {1.31, 9.1}, {2.0, 9.2}, {2.1, 30}};
    const struct band_curve *curves[] = {
        curve_of(LAW_MEASURED, measured, COUNT(measured)),
        curve_of(LAW_MEASURED, steps, COUNT(steps)),
        curve_of(LAW_MEASURED, measured, 2),
        curve_of(LAW_MEASURED, measured, 1),
        curve_of(LAW_NEO_HOOKEAN, measured, 7),
        curve_of(LAW_MOONEY_RIVLIN, measured, 7),
    };
    for (size_t i = 0; i < COUNT(curves); i++) {
        double before = 0;
        for (double length = 0.5; length < 5; length += 0.001) {
            double pull = band_pull_kg(curves[i], length);
            ck_assert_msg(pull >= before - 1e-12, "curve %zu falls at %g m", i, length);
            before = pull;
        }
    }
}
END_TEST

/* --- rigs --- */

static const struct
{
    enum rig rig;
    double distance_m, flat_m, hitch_m, stretch_m;
} stretches[] = {
    {RIG_SINGLE, 1.3, 1.0, 0.10, 1.3},   {RIG_DOUBLED, 1.3, 1.0, 0.10, 2.6},
    {RIG_CHOKED, 1.3, 1.0, 0.20, 1.625}, {RIG_CHOKED, 0.8, 1.0, 0.20, 1.0}, /* taut */
    {RIG_CHOKED, 1.3, 1.0, 0, 1.3},      {RIG_CHOKED, 1.3, 1.0, 1.0, 1.3},  /* no band would be left */
    {RIG_SINGLE, 0, 1.0, 0.10, 0},
};

START_TEST(stretch_of_a_rig_and_back)
{
    enum rig rig = stretches[_i].rig;
    double flat = stretches[_i].flat_m, hitch = stretches[_i].hitch_m;
    double stretch = rig_stretch_m(rig, stretches[_i].distance_m, flat, hitch);
    ck_assert_double_eq_tol(stretch, stretches[_i].stretch_m, 1e-12);
    ck_assert_double_eq_tol(rig_distance_m(rig, stretch, flat, hitch), stretches[_i].distance_m, 1e-12);
}
END_TEST

START_TEST(pull_down_pull_up_and_fore_aft)
{
    /* 20 kg a metre beyond 1 m; the anchor 0.3 m off and 0.4 m aside of a bar 1.2 m above it: 1.3 m away. */
    static struct tension_point line[] = {{1.25, 5}, {1.50, 10}, {3.0, 40}};
    struct calibration calibration = {.flat_m = 1, .points = line, .point_count = 3, UNSAID};
    struct hung_band band = {.curve = band_curve_new(arena, &calibration),
                             .hitch_m = 0.2,
                             .anchor_height_m = 0.1,
                             .offset_m = 0.3,
                             .spread_m = 0.4};
    struct band_pull pull = band_at(&band, 1.3);
    ck_assert_double_eq_tol(pull.distance_m, 1.3, 1e-12);
    ck_assert_double_eq_tol(pull.stretch_m, 1.3, 1e-12);
    ck_assert_double_eq_tol(pull.force_kg, 6, 1e-12);
    ck_assert_double_eq_tol(pull.vertical_kg, 6 * 1.2 / 1.3, 1e-12);
    ck_assert_double_eq_tol(pull.fore_aft_kg, 6 * 0.3 / 1.3, 1e-12);
    band.rig = RIG_DOUBLED;
    ck_assert_double_eq_tol(band_at(&band, 1.3).force_kg, 2 * 20 * 1.6, 1e-12);
    band.rig = RIG_CHOKED;
    ck_assert_double_eq_tol(band_at(&band, 1.3).force_kg, 20 * (1.3 / 0.8 - 1), 1e-12);
    band.rig = RIG_SINGLE;
    band.anchor_height_m = 2.5; /* as far above as it was below */
    ck_assert_double_eq_tol(band_load_kg(&band, 1.3), -6 * 1.2 / 1.3, 1e-12);
    ck_assert_double_eq(band_load_kg(&band, 2.4), 0); /* slack */
    band.offset_m = band.spread_m = 0;
    ck_assert_double_eq(band_load_kg(&band, 2.5), 0); /* bar and anchor in one place */
    ck_assert_double_eq(band_load_slope_kg_per_m(&band, 2.5), 0);
}
END_TEST

START_TEST(slope_is_the_derivative_of_the_load)
{
    struct hung_band band = {
        .curve = curve_of(LAW_MEASURED, measured, COUNT(measured)), .hitch_m = 0.1, .offset_m = 0.08, .spread_m = 0.12};
    for (int rig = RIG_SINGLE; rig <= RIG_CHOKED; rig++) {
        for (double anchor = 0.05; anchor < 3; anchor += 2.2) {
            band.rig = (enum rig)rig;
            band.anchor_height_m = anchor;
            for (double height = 0.203; height < 2; height += 0.1) {
                double step = 1e-6, rise = band_load_kg(&band, height + step) - band_load_kg(&band, height - step);
                ck_assert_double_eq_tol(band_load_slope_kg_per_m(&band, height), rise / (2 * step), 1e-3);
            }
        }
    }
}
END_TEST

START_TEST(at_the_slack_point_the_slope_is_the_upward_one)
{
    static struct tension_point line[] = {{1.25, 5}, {1.50, 10}, {3.0, 40}};
    struct calibration calibration = {.flat_m = 1, .points = line, .point_count = 3, UNSAID};
    struct hung_band band = {.curve = band_curve_new(arena, &calibration), .anchor_height_m = 0};
    ck_assert_double_eq_tol(band_load_slope_kg_per_m(&band, 1.0), 20, 1e-9);
    band.anchor_height_m = 2; /* from above: higher is slacker */
    ck_assert_double_eq(band_load_slope_kg_per_m(&band, 1.0), 0);
    ck_assert_double_eq_tol(band_load_slope_kg_per_m(&band, 1.0 - 1e-9), 20, 1e-6);
}
END_TEST

/* --- round pegs --- */

static const struct
{
    enum rig rig;
    struct band_pegs pegs;
    double anchor_height_m, offset_m, spread_m;
} pegged[] = {
    {RIG_SINGLE, {0, 0.025, 0.03, false}, 0.05, 0.08, 0.12},  {RIG_DOUBLED, {0, 0.025, 0.03, false}, 0.05, 0, 0.12},
    {RIG_CHOKED, {0, 0.025, 0.03, false}, 0.05, 0, 0},        {RIG_SINGLE, {0.7, 0, 0, false}, 0, 0, 0},
    {RIG_SINGLE, {0.7, 0.025, 0.03, false}, 0.05, 0.1, 0.12}, {RIG_DOUBLED, {0.7, 0.025, 0.03, false}, 0.05, 0, 0},
    {RIG_SINGLE, {0.7, 0.025, 0.03, true}, 2.4, 0.1, 0},      {RIG_DOUBLED, {0.7, 0.025, 0.03, true}, 2.4, 0, 0.12},
};

static struct hung_band peg_band(int row)
{
    return (struct hung_band){.curve = curve_of(LAW_MEASURED, measured, COUNT(measured)),
                              .rig = pegged[row].rig,
                              .hitch_m = 0.1,
                              .anchor_height_m = pegged[row].anchor_height_m,
                              .offset_m = pegged[row].offset_m,
                              .spread_m = pegged[row].spread_m,
                              .pegs = pegged[row].pegs};
}

START_TEST(slope_round_pegs_is_the_derivative_of_the_load)
{
    struct hung_band band = peg_band(_i);
    for (double height = 0.203; height < 2.2; height += 0.1) {
        double step = 1e-6, rise = band_load_kg(&band, height + step) - band_load_kg(&band, height - step);
        ck_assert_double_eq_tol(band_load_slope_kg_per_m(&band, height), rise / (2 * step), 1e-3);
    }
}
END_TEST

START_TEST(load_round_pegs_rises_without_a_jump)
{
    struct hung_band band = peg_band(_i);
    double before = band_load_kg(&band, 0.2), sign = band.pegs.from_above ? -1 : 1;
    for (double height = 0.201; height < 2.2; height += 0.001) {
        double load = band_load_kg(&band, height);
        ck_assert_double_ge(load, before - 1e-12);
        ck_assert_double_le(load, before + 0.8);
        ck_assert_double_ge(sign * load, 0);
        before = load;
    }
}
END_TEST

START_TEST(rise_round_pegs_is_the_inverse_of_stretch)
{
    struct hung_band band = peg_band(_i);
    double sign = band.pegs.from_above ? -1 : 1;
    for (double length = 1.3; length < 3; length += 0.1) {
        double rise = band_rise_m(&band, length);
        if (isnan(rise)) { /* longer than that however low the bar is */
            ck_assert_double_ge(band_at(&band, band.anchor_height_m).stretch_m, length);
            continue;
        }
        ck_assert_double_eq_tol(band_at(&band, band.anchor_height_m + sign * rise).stretch_m, length, 1e-9);
    }
    ck_assert(isnan(band_rise_m(&band, INFINITY)));
}
END_TEST

/* 20 kg a metre beyond 1 m; 0.9 m above pegs 2.4 m apart, the runs to them are 1.5 m long: 5.4 m round, 2.7 m from end
 * to end. Doubled, the band is 2.4 + 2 x 1.5 m from end to end, and pulls with both strands on either side. */
START_TEST(round_two_pegs_by_hand)
{
    static struct tension_point line[] = {{1.25, 5}, {1.50, 10}, {8.0, 140}};
    struct calibration calibration = {.flat_m = 1, .points = line, .point_count = 3, UNSAID};
    struct hung_band band = {.curve = band_curve_new(arena, &calibration), .pegs = {.apart_m = 2.4}};
    struct band_pull pull = band_at(&band, 0.9);
    ck_assert_double_eq_tol(pull.stretch_m, 2.7, 1e-12);
    ck_assert_double_eq_tol(pull.force_kg, 34, 1e-12);
    ck_assert_double_eq_tol(pull.vertical_kg, 17 * 2 * 0.6, 1e-12);
    ck_assert_double_eq(pull.fore_aft_kg, 0);
    ck_assert_double_eq(band_lean(&band, 0.9), 0);
    band.rig = RIG_DOUBLED;
    pull = band_at(&band, 0.9);
    ck_assert_double_eq_tol(pull.stretch_m, 5.4, 1e-12);
    ck_assert_double_eq_tol(pull.vertical_kg, 88 * 2 * 0.6, 1e-12);
    band.rig = RIG_SINGLE;
    band.pegs.apart_m = 1e-9; /* in one place, they are one anchor: a loop once, and doubled */
    ck_assert_double_eq_tol(band_load_kg(&band, 1.6), 12, 1e-6);
    band.rig = RIG_DOUBLED;
    ck_assert_double_eq_tol(band_load_kg(&band, 1.6), 2 * 44, 1e-6);
    /* Half turns of 50 mm round bar and peg: 1.6 m apart, 1.6 + 0.025 pi m from end to end. */
    band.rig = RIG_SINGLE;
    band.pegs = (struct band_pegs){0, 0.025, 0.025, false};
    ck_assert_double_eq_tol(band_load_kg(&band, 1.6), 20 * (0.6 + 0.025 * M_PI), 1e-9);
    band.rig = RIG_CHOKED; /* the hitch takes the peg's in */
    band.hitch_m = 0.2;
    ck_assert_double_eq_tol(band_at(&band, 1.6).stretch_m,
                            (1.6 * sqrt(1 - 0.025 * 0.025 / 2.56) + 0.025 * (M_PI / 2 + asin(0.025 / 1.6))) / 0.8,
                            1e-12);
}
END_TEST

#define ADD_ROWS(test, table) tcase_add_loop_test(cases, test, 0, sizeof table / sizeof *table)

int main(void)
{
    Suite *suite = suite_create("band");
    TCase *cases = tcase_create("band");
    tcase_add_checked_fixture(cases, set_up, tear_down);
    tcase_add_test(cases, the_interpolant_is_gsls);
    tcase_add_test(cases, before_the_first_point_and_beyond_the_last);
    tcase_add_test(cases, one_point_makes_a_neo_hookean_band);
    tcase_add_test(cases, a_law_asked_for_is_fitted_to_the_points);
    tcase_add_test(cases, coefficients_given_stand);
    tcase_add_test(cases, a_fit_has_errors_only_with_points_to_spare);
    ADD_ROWS(bad_points_are_left_out, hostile);
    tcase_add_test(cases, gsl_never_aborts);
    tcase_add_test(cases, no_pull_falls_with_length);
    ADD_ROWS(stretch_of_a_rig_and_back, stretches);
    tcase_add_test(cases, pull_down_pull_up_and_fore_aft);
    tcase_add_test(cases, slope_is_the_derivative_of_the_load);
    tcase_add_test(cases, at_the_slack_point_the_slope_is_the_upward_one);
    ADD_ROWS(slope_round_pegs_is_the_derivative_of_the_load, pegged);
    ADD_ROWS(load_round_pegs_rises_without_a_jump, pegged);
    ADD_ROWS(rise_round_pegs_is_the_inverse_of_stretch, pegged);
    tcase_add_test(cases, round_two_pegs_by_hand);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
