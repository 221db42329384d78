/* Propagation of uncertainty against JCGM 100:2008 (GUM), example H.2: resistance and reactance measured at once. */
#include "model/uncertainty.h"

#include "model/curve.h"
#include "model/effect.h"
#include "model/loading.h"

#include <check.h>
#include <gsl/gsl_statistics_double.h>
#include <math.h>
#include <stdlib.h>

/* Volts, milliamperes and radians of the five readings, as a public text that tests the example has them. */
enum
{
    V,
    I,
    PHI,
    INPUTS
};
#define READINGS 5
static const double readings[INPUTS][READINGS] = {
    {5.007, 4.994, 5.005, 4.990, 4.999},
    {19.663, 19.639, 19.640, 19.685, 19.678},
    {1.0456, 1.0438, 1.0468, 1.0428, 1.0433},
};

static double means[INPUTS], us[INPUTS], r[INPUTS][INPUTS];

static void set_up(void)
{
    for (int i = 0; i < INPUTS; i++) {
        means[i] = gsl_stats_mean(readings[i], 1, READINGS);
        us[i] = gsl_stats_sd(readings[i], 1, READINGS) / sqrt(READINGS);
        for (int j = 0; j < INPUTS; j++)
            r[i][j] = gsl_stats_correlation(readings[i], 1, readings[j], 1, READINGS);
    }
}

static double measured_correlation(const void *context, size_t i, size_t j)
{
    (void)context;
    return r[i][j];
}

static double no_correlation(const void *context, size_t i, size_t j)
{
    (void)context, (void)i, (void)j;
    return 0;
}

START_TEST(inputs_of_h2)
{
    ck_assert_double_eq_tol(means[V], 4.9990, 1e-9);
    ck_assert_double_eq_tol(means[I], 19.6610, 1e-9);
    ck_assert_double_eq_tol(means[PHI], 1.04446, 1e-9);
    ck_assert_double_eq_tol(us[V], 0.0032, 0.00005);
    ck_assert_double_eq_tol(us[I], 0.0095, 0.00005);
    ck_assert_double_eq_tol(us[PHI], 0.00075, 0.000005);
    ck_assert_double_eq_tol(r[V][I], -0.355311, 1e-6); /* printed −0.36, 0.86, −0.65 (from memory) */
    ck_assert_double_eq_tol(r[V][PHI], 0.857624, 1e-6);
    ck_assert_double_eq_tol(r[I][PHI], -0.645111, 1e-6);
}
END_TEST

/* Parts (∂f/∂x) u(x), in ohms; currents are in mA. */
static void resistance(double *value, double parts[INPUTS])
{
    double z = 1000 * means[V] / means[I];
    *value = z * cos(means[PHI]);
    parts[V] = *value / means[V] * us[V];
    parts[I] = -*value / means[I] * us[I];
    parts[PHI] = -z * sin(means[PHI]) * us[PHI];
}

static void reactance(double *value, double parts[INPUTS])
{
    double z = 1000 * means[V] / means[I];
    *value = z * sin(means[PHI]);
    parts[V] = *value / means[V] * us[V];
    parts[I] = -*value / means[I] * us[I];
    parts[PHI] = z * cos(means[PHI]) * us[PHI];
}

static void impedance(double *value, double parts[INPUTS])
{
    *value = 1000 * means[V] / means[I];
    parts[V] = *value / means[V] * us[V];
    parts[I] = -*value / means[I] * us[I];
    parts[PHI] = 0;
}

/* Printed values and u (X: the unrounded data give 0.2956 where the GUM prints 0.295); then u to more digits, and what
 * it would be if the correlations were dropped, both worked out from the data. */
static const struct
{
    void (*evaluate)(double *value, double *parts);
    double value, u, u_slack, u_digits, u_uncorrelated;
} outputs[] = {
    {resistance, 127.732, 0.071, 0.0005, 0.0710714, 0.194544},
    {reactance, 219.847, 0.295, 0.001, 0.2955817, 0.200909},
    {impedance, 254.260, 0.236, 0.0005, 0.2363361, 0.204076},
};

START_TEST(outputs_of_h2)
{
    double value, parts[INPUTS];
    outputs[_i].evaluate(&value, parts);
    double u = u_combined(parts, INPUTS, measured_correlation, NULL);
    ck_assert_double_eq_tol(value, outputs[_i].value, 0.0006);
    ck_assert_double_eq_tol(u, outputs[_i].u, outputs[_i].u_slack);
    ck_assert_double_eq_tol(u, outputs[_i].u_digits, 1e-6);
}
END_TEST

/* The negative test: without the covariances u(R) would be 2.7 times as large, u(X) and u(Z) too small. */
START_TEST(ignored_correlation_is_wrong)
{
    double value, parts[INPUTS];
    outputs[_i].evaluate(&value, parts);
    double u = u_combined(parts, INPUTS, no_correlation, NULL);
    ck_assert_double_eq_tol(u, outputs[_i].u_uncorrelated, 1e-6);
    ck_assert_double_gt(fabs(u - outputs[_i].u), 10 * outputs[_i].u_slack);
}
END_TEST

/* The same in a load: chain and band share the bar's height, so what the height does to them adds up. Sensitivities by
 * small steps of the load itself. */
START_TEST(one_height_enters_by_chain_and_band)
{
    struct arena *arena = arena_new();
    struct chain chain = {.label = "c", .is_default = true, .mass_kg = 9, .length_m = 1.8, .link_m = 0.05};
    struct tension_point points[] = {{1.2, 12}, {1.6, 25}, {2.0, 34}};
    struct calibration calibration = {.flat_m = 1, .points = points, .point_count = 3, .c1_kg = NAN};
    struct band band = {.label = "b", .hitch_m = NAN, .calibrations = &calibration, .calibration_count = 1};
    struct bar_heights heights = {"squat", 0.8, 1.4};
    struct lifter lifter = {.name = "x", .heights = &heights, .height_count = 1};
    struct gym *gym = gym_new(arena);
    gym->chains = &chain, gym->chain_count = 1, gym->bands = &band, gym->band_count = 1;
    const struct piece pieces[] = {
        {.kind = PIECE_CHAIN, .per_side = 1, .mass_kg = NAN, .leader_m = NAN},
        {.kind = PIECE_BAND, .per_side = 1, .label = "b", .bottom_kg = NAN, .top_kg = NAN},
    };
    const struct load load = {.straight = STRAIGHT_MASS, .kg = 100, .pieces = pieces, .piece_count = 2};
    const struct loading_context context = {gym, &lifter, "squat", NO_DAY, NAN, NAN};
    struct loading *loading = loading_make(arena, &load, &context);
    double step = 1e-6, slope[2], at_top[2];
    for (int i = 0; i < 2; i++) {
        const struct hung *hung = &loading->hung[i];
        slope[i] = (hung_load_kg(loading, hung, 1.4 + step) - hung_load_kg(loading, hung, 1.4 - step)) / (2 * step);
        at_top[i] = hung_load_kg(loading, hung, 1.4);
    }
    double by_height = (slope[0] + slope[1]) * 0.01;
    double expected = sqrt(by_height * by_height + pow(at_top[0] * 0.01, 2) + pow(at_top[1] * 0.03, 2));
    double ignored = hypot(hypot(slope[0], slope[1]) * 0.01, hypot(at_top[0] * 0.01, at_top[1] * 0.03));
    ck_assert_double_eq_tol(loading_effect(loading, gym).top_u_kg, expected, 1e-6);
    ck_assert_double_gt(expected - ignored, 0.01);
    arena_free(arena);
}
END_TEST

#define ADD_ROWS(test, table) tcase_add_loop_test(cases, test, 0, sizeof table / sizeof *table)

int main(void)
{
    Suite *suite = suite_create("uncertainty sources");
    TCase *cases = tcase_create("uncertainty sources");
    tcase_add_checked_fixture(cases, set_up, NULL);
    tcase_add_test(cases, inputs_of_h2);
    ADD_ROWS(outputs_of_h2, outputs);
    ADD_ROWS(ignored_correlation_is_wrong, outputs);
    tcase_add_test(cases, one_height_enters_by_chain_and_band);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
