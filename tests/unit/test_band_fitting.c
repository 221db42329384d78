/* Laws of measured bands, and measured bands beside each other. */
#include "analysis/bands/band_comparing.h"
#include "analysis/bands/band_fitting.h"
#include "model/band_fit.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define COUNT(table) ((int)(sizeof table / sizeof *table))
#define FLAT 1.04
#define MOST_POINTS 32

static struct arena *arena;

static void set_up(void)
{
    arena = arena_new();
}

static void tear_down(void)
{
    arena_free(arena);
}

static struct measured_band made_band(const char *label, enum band_side side, day_number day, size_t count,
                                      const double points[][2])
{
    struct measured_band band = {
        .label = label, .side = side, .day = day, .flat_m = FLAT, .count = count, .readings = count};
    band.points = ARENA_ARRAY(arena, struct measured_point, count);
    for (size_t i = 0; i < count; i++)
        band.points[i] = (struct measured_point){.length_m = points[i][0], .pull_kg = points[i][1], .readings = 1};
    return band;
}

/* Exactly by a law, times a factor; with a wave of readings up and down by `scatter` kg. */
static struct measured_band by_law(enum band_side side, day_number day, size_t count, double c1, double c2,
                                   double factor, double scatter)
{
    double points[MOST_POINTS][2];
    for (size_t i = 0; i < count; i++) {
        points[i][0] = FLAT + 0.16 * (double)(i + 1);
        points[i][1] = factor * band_law_pull_kg(c1, c2, points[i][0] / FLAT) + (i % 2 ? scatter : -scatter);
    }
    return made_band("b26", side, day, count, points);
}

static const struct band_fitting *fit_one(const struct measured_band *band)
{
    struct measured_band *kept = ARENA_NEW(arena, struct measured_band);
    *kept = *band;
    return &band_fittings_make(arena, kept, 1).list.items[0];
}

/* --- constants, errors, intervals --- */

START_TEST(exact_laws_are_found_again)
{
    struct measured_band two = by_law(SIDE_UNSAID, NO_DAY, 6, 11, 12, 1, 0),
                         one = by_law(SIDE_UNSAID, NO_DAY, 6, 17, 0, 1, 0);
    const struct law_fit *mooney = &fit_one(&two)->laws[LAW_MOONEY_RIVLIN],
                         *neo = &fit_one(&one)->laws[LAW_NEO_HOOKEAN];
    ck_assert_double_eq_tol(mooney->fit.c1_kg, 11, 1e-9);
    ck_assert_double_eq_tol(mooney->fit.c2_kg, 12, 1e-9);
    ck_assert_double_eq_tol(mooney->r_squared, 1, 1e-12);
    ck_assert_double_eq_tol(mooney->left_out_kg, 0, 1e-9);
    ck_assert_double_eq_tol(neo->fit.c1_kg, 17, 1e-9);
    ck_assert_double_eq_tol(neo->residual_kg, 0, 1e-9);
}
END_TEST

/* One constant in closed form: c = Σxy / Σx², s² = SS / (n − 1), u(c) = s / √Σx²; the interval's half width is t u(c)
 * x, and Student's t at 97.5 % with 4 degrees of freedom is 2.776445 (any table). */
START_TEST(neo_hookean_in_closed_form)
{
    static const double points[][2] = {{1.2, 8.5}, {1.4, 14.5}, {1.6, 19}, {1.8, 23}, {2.0, 26.95}};
    struct measured_band band = made_band("b26", SIDE_UNSAID, NO_DAY, 5, points);
    const struct band_fitting *fitting = fit_one(&band);
    const struct law_fit *neo = &fitting->laws[LAW_NEO_HOOKEAN];
    double xy = 0, xx = 0, squares = 0, mean = 0, about_mean = 0, x[5];
    for (int i = 0; i < 5; i++) {
        double ratio = points[i][0] / FLAT;
        x[i] = ratio - 1 / (ratio * ratio);
        xy += x[i] * points[i][1];
        xx += x[i] * x[i];
        mean += points[i][1] / 5;
    }
    for (int i = 0; i < 5; i++) {
        squares += pow(points[i][1] - xy / xx * x[i], 2);
        about_mean += pow(points[i][1] - mean, 2);
    }
    ck_assert_double_eq_tol(neo->fit.c1_kg, xy / xx, 1e-12);
    ck_assert_double_eq_tol(neo->residual_kg, sqrt(squares / 4), 1e-12);
    ck_assert_double_eq_tol(neo->fit.c1_u_kg, sqrt(squares / 4 / xx), 1e-12);
    ck_assert_double_eq_tol(neo->r_squared, 1 - squares / about_mean, 1e-12);
    double half = law_fit_interval_kg(fitting, LAW_NEO_HOOKEAN, 1.6, FIT_CONFIDENCE);
    ck_assert_double_eq_tol(half, 2.776445 * neo->fit.c1_u_kg * x[2], 1e-6);
    ck_assert_double_eq_tol(law_fit_pull_kg(fitting, LAW_NEO_HOOKEAN, 1.6), xy / xx * x[2], 1e-12);
}
END_TEST

/* Left out one by one, a law in one constant misses by e_i / (1 − h_i), h_i = x_i² / Σx² (the deletion formula of
 * linear regression); the longest point is not asked. */
START_TEST(left_out_by_the_deletion_formula)
{
    static const double points[][2] = {{1.2, 8.5}, {1.4, 14.5}, {1.6, 19}, {1.8, 23}, {2.0, 26.95}};
    struct measured_band band = made_band("b26", SIDE_UNSAID, NO_DAY, 5, points);
    const struct law_fit *neo = &fit_one(&band)->laws[LAW_NEO_HOOKEAN];
    double xx = 0, squares = 0;
    for (int i = 0; i < 5; i++)
        xx += pow(band_law_pull_kg(1, 0, points[i][0] / FLAT), 2);
    for (int i = 0; i < 4; i++) {
        double x = band_law_pull_kg(1, 0, points[i][0] / FLAT);
        squares += pow((points[i][1] - neo->fit.c1_kg * x) / (1 - x * x / xx), 2);
    }
    ck_assert_double_eq_tol(neo->left_out_kg, sqrt(squares / 4), 1e-12);
}
END_TEST

/* The interval of two constants by the matrix written out: t² (XᵀX)⁻¹ s². */
START_TEST(mooney_interval_in_closed_form)
{
    struct measured_band band = by_law(SIDE_UNSAID, NO_DAY, 7, 11, 12, 1, 0.3);
    const struct band_fitting *fitting = fit_one(&band);
    double aa = 0, ab = 0, bb = 0, s = fitting->laws[LAW_MOONEY_RIVLIN].residual_kg;
    for (size_t i = 0; i < band.count; i++) {
        double ratio = band.points[i].length_m / FLAT, a = band_law_pull_kg(1, 0, ratio),
               b = band_law_pull_kg(0, 1, ratio);
        aa += a * a;
        ab += a * b;
        bb += b * b;
    }
    double ratio = 1.5, a = band_law_pull_kg(1, 0, ratio), b = band_law_pull_kg(0, 1, ratio),
           determinant = aa * bb - ab * ab;
    double variance = s * s * (a * a * bb - 2 * a * b * ab + b * b * aa) / determinant;
    double half = law_fit_interval_kg(fitting, LAW_MOONEY_RIVLIN, ratio * FLAT, FIT_CONFIDENCE);
    ck_assert_double_eq_tol(half, 2.570582 * sqrt(variance), 1e-5); /* t, 5 degrees of freedom */
    ck_assert_double_lt(law_fit_interval_kg(fitting, LAW_MOONEY_RIVLIN, ratio * FLAT, 0.5), half);
    ck_assert_double_nan(law_fit_interval_kg(fitting, LAW_MEASURED, ratio * FLAT, FIT_CONFIDENCE));
}
END_TEST

/* --- which to use --- */

static const double one_point[][2] = {{1.6, 19}}, two_points[][2] = {{1.2, 8.5}, {1.6, 19}},
                    step[][2] = {{1.2, 8}, {1.4, 8.2}, {1.6, 8.4}, {1.8, 24}, {2.0, 24.5}},
                    stiffening[][2] = {{1.2, 1}, {1.4, 3}, {1.6, 7}, {1.8, 14}, {2.0, 25}, {2.2, 41}};

static const struct
{
    const double (*points)[2];
    size_t count;
    enum band_law use;
    enum law_reason reason;
} chosen[] = {
    {one_point, COUNT(one_point), LAW_NEO_HOOKEAN, REASON_ONE_POINT},
    {two_points, COUNT(two_points), LAW_MEASURED, REASON_TWO_POINTS},
    {stiffening, COUNT(stiffening), LAW_MEASURED, REASON_CURVE_NEARER},
    {step, COUNT(step), LAW_MEASURED, REASON_LAW_MISSES},
};

START_TEST(chooses)
{
    struct measured_band band = made_band("b26", SIDE_UNSAID, NO_DAY, chosen[_i].count, chosen[_i].points);
    const struct band_fitting *fitting = fit_one(&band);
    ck_assert_int_eq(fitting->reason, chosen[_i].reason);
    ck_assert_int_eq(fitting->use, chosen[_i].use);
    ck_assert_int_eq(fitting->calibration.law, chosen[_i].use);
    ck_assert_int_eq(fitting->calibration.one_point, chosen[_i].count == 1);
}
END_TEST

/* Readings that scatter about a law are told best by that law; the second constant only where it shows. */
START_TEST(laws_win_where_readings_scatter)
{
    struct measured_band two = by_law(SIDE_UNSAID, NO_DAY, 8, 11, 12, 1, 0.2),
                         one = by_law(SIDE_UNSAID, NO_DAY, 8, 17, 0, 1, 0.2);
    const struct band_fitting *mooney = fit_one(&two), *neo = fit_one(&one);
    ck_assert_int_eq(mooney->reason, REASON_LAW_NEARER);
    ck_assert_int_eq(mooney->use, LAW_MOONEY_RIVLIN);
    ck_assert_double_lt(mooney->laws[LAW_MOONEY_RIVLIN].left_out_kg, mooney->laws[LAW_MEASURED].left_out_kg);
    ck_assert_int_eq(neo->use, LAW_NEO_HOOKEAN);
    ck_assert_double_eq(neo->calibration.c1_kg, neo->laws[LAW_NEO_HOOKEAN].fit.c1_kg);
}
END_TEST

/* The leave-one-out error of the curve for points on a straight line from flat: the secants meet, it misses nothing. */
START_TEST(the_curve_through_a_straight_line_misses_nothing)
{
    static const double line[][2] = {{1.14, 5}, {1.24, 10}, {1.44, 20}, {1.64, 30}};
    struct measured_band band = made_band("b26", SIDE_UNSAID, NO_DAY, COUNT(line), line);
    const struct band_fitting *fitting = fit_one(&band);
    ck_assert_double_eq_tol(fitting->laws[LAW_MEASURED].left_out_kg, 0, 1e-9);
    ck_assert_int_eq(fitting->use, LAW_MEASURED);
    ck_assert_double_eq_tol(law_fit_pull_kg(fitting, LAW_MEASURED, 1.34), 15, 1e-9);
}
END_TEST

/* --- both ways --- */

/* T = 20 (x − 1) stretched and 16 (x − 1) let go, from flat to 2 m: ∫ is 10 and 8 kg m, so that 98.0665 J are taken and
 * 19.6133 J lost. To 1.5 m, where the way down begins, a quarter of each. */
START_TEST(what_a_band_keeps)
{
    static const double up[][2] = {{1.5, 10}, {2, 20}}, down[][2] = {{1.25, 4}, {1.5, 8}, {2, 16}};
    for (size_t points = 2; points <= 3; points++) {
        struct measured_band let_go = made_band("b", SIDE_UNSAID, NO_DAY, points, down),
                             band = made_band("b", SIDE_UNSAID, NO_DAY, 2, up);
        let_go.flat_m = band.flat_m = 1;
        let_go.way = WAY_DOWN;
        band.down = &let_go;
        const struct band_fitting *fitting = fit_one(&band);
        struct band_loss loss = band_loss_of(fitting);
        double part = points == 2 ? 0.25 : 1;
        ck_assert_double_eq(loss.length_m, points == 2 ? 1.5 : 2);
        ck_assert_double_eq_tol(loss.taken_j, 98.0665 * part, 1e-9);
        ck_assert_double_eq_tol(loss.lost_j, 19.6133 * part, 1e-9);
        ck_assert_uint_eq(fitting->calibration.lowering_count, points);
        ck_assert_double_eq(fitting->calibration.lowering[1].pull_kg, 8);
    }
}
END_TEST

/* --- beside each other --- */

START_TEST(a_pair_by_a_known_factor)
{
    static const struct
    {
        double factor;
        bool differs;
    } pairs[] = {{1, false}, {1.04, false}, {1.049, false}, {1.06, true}, {0.94, true}, {0.97, false}};
    for (int i = 0; i < COUNT(pairs); i++) {
        double factor = pairs[i].factor;
        struct measured_band bands[] = {by_law(SIDE_LEFT, 20000, 6, 11, 12, factor, 0),
                                        by_law(SIDE_RIGHT, 20000, 6, 11, 12, 1, 0)};
        struct band_fittings fittings = band_fittings_make(arena, bands, 2);
        struct band_comparisons comparisons = band_comparisons_make(arena, &fittings);
        ck_assert_uint_eq(comparisons.list.count, 1);
        const struct band_comparison *pair = &comparisons.list.items[0];
        ck_assert_int_eq(pair->kind, LEFT_BESIDE_RIGHT);
        ck_assert_ptr_eq(pair->a, &fittings.list.items[0]);
        ck_assert_double_eq_tol(pair->share, (factor - 1) / ((1 + factor) / 2), 1e-9); /* of the mean of both */
        ck_assert_double_eq_tol(pair->worst_share, pair->share, 1e-9);
        ck_assert_int_eq(pair->differs, pairs[i].differs);
        ck_assert_double_eq_tol(pair->low_m, FLAT + 0.16, 1e-12);
    }
}
END_TEST

/* Loss is a share of the older calibration. */
START_TEST(an_aged_band)
{
    struct measured_band bands[] = {by_law(SIDE_UNSAID, NO_DAY, 6, 11, 12, 1.1, 0),
                                    by_law(SIDE_UNSAID, 20000, 6, 11, 12, 1, 0),
                                    by_law(SIDE_UNSAID, 20100, 5, 11, 12, 0.94, 0)};
    struct band_fittings fittings = band_fittings_make(arena, bands, 3);
    struct band_comparisons comparisons = band_comparisons_make(arena, &fittings);
    ck_assert_uint_eq(comparisons.list.count, 2); /* the newest beside each older one, the nearest first */
    ck_assert_double_eq_tol(comparisons.list.items[0].share, -0.06, 5e-4); /* its last piece knows no sixth point */
    ck_assert(comparisons.list.items[0].differs);
    ck_assert_double_eq_tol(comparisons.list.items[0].high_m, FLAT + 5 * 0.16, 1e-12);
    ck_assert_double_eq_tol(comparisons.list.items[1].share, 0.94 / 1.1 - 1, 5e-4);
}
END_TEST

/* A difference that changes sign does not cancel; its worst place is found. */
START_TEST(differences_do_not_cancel)
{
    static const double left[][2] = {{1.2, 9}, {1.6, 20}, {2.0, 25}}, right[][2] = {{1.2, 10}, {1.6, 20}, {2.0, 28}};
    struct measured_band bands[] = {made_band("b", SIDE_LEFT, 1, 3, left), made_band("b", SIDE_RIGHT, 1, 3, right)};
    struct band_fittings fittings = band_fittings_make(arena, bands, 2);
    const struct band_comparison *pair = &band_comparisons_make(arena, &fittings).list.items[0];
    ck_assert_double_lt(pair->mean_kg, 0);
    ck_assert_double_eq_tol(pair->worst_kg, -3, 1e-9);
    ck_assert_double_eq_tol(pair->worst_m, 2, 1e-9);
    ck_assert_double_eq_tol(pair->worst_share, -3 / 26.5, 1e-9);
}
END_TEST

static const struct
{
    enum band_side sides[4];
    day_number days[4];
    size_t count, pairs, ages;
} groups[] = {
    {{SIDE_LEFT, SIDE_RIGHT}, {1, 1}, 2, 1, 0},
    {{SIDE_LEFT, SIDE_RIGHT}, {1, 2}, 2, 1, 0}, /* measured on two days: still a pair */
    {{SIDE_RIGHT, SIDE_LEFT}, {1, 2}, 2, 1, 0},
    {{SIDE_LEFT}, {1}, 1, 0, 0},
    {{SIDE_UNSAID, SIDE_UNSAID}, {1, 2}, 2, 0, 1},
    {{SIDE_UNSAID, SIDE_LEFT}, {1, 1}, 2, 0, 0},
    {{SIDE_LEFT, SIDE_RIGHT, SIDE_LEFT, SIDE_RIGHT}, {1, 1, 2, 2}, 4, 2, 2},
    {{SIDE_LEFT, SIDE_RIGHT, SIDE_LEFT}, {1, 1, 2}, 3, 1, 1}, /* the new left one has nobody of its day */
};

START_TEST(what_stands_beside_what)
{
    struct measured_band bands[4];
    size_t pairs = 0, ages = 0;
    for (size_t i = 0; i < groups[_i].count; i++)
        bands[i] = by_law(groups[_i].sides[i], groups[_i].days[i], 4, 11, 12, 1, 0);
    struct band_fittings fittings = band_fittings_make(arena, bands, groups[_i].count);
    struct band_comparisons comparisons = band_comparisons_make(arena, &fittings);
    for (size_t i = 0; i < comparisons.list.count; i++) {
        pairs += comparisons.list.items[i].kind == LEFT_BESIDE_RIGHT;
        ages += comparisons.list.items[i].kind == NEWEST_BESIDE_OLDER;
    }
    ck_assert_uint_eq(pairs, groups[_i].pairs);
    ck_assert_uint_eq(ages, groups[_i].ages);
}
END_TEST

START_TEST(nothing_in_common)
{
    static const double shorter[][2] = {{1.2, 9}, {1.4, 12}}, longer[][2] = {{1.6, 20}, {2.0, 25}};
    struct measured_band bands[] = {made_band("b", SIDE_LEFT, 1, 2, shorter), made_band("b", SIDE_RIGHT, 1, 2, longer)};
    struct band_fittings fittings = band_fittings_make(arena, bands, 2);
    const struct band_comparison *pair = &band_comparisons_make(arena, &fittings).list.items[0];
    ck_assert_double_nan(pair->share);
    ck_assert_double_nan(pair->low_m);
    ck_assert(!pair->differs);
    ck_assert_ptr_null(band_pair_mean(arena, pair->a, pair->b));
}
END_TEST

START_TEST(the_mean_of_a_pair)
{
    static const double left[][2] = {{1.2, 9}, {1.6, 20}, {2.0, 26}}, right[][2] = {{1.2, 10}, {1.8, 23}, {2.2, 29}};
    struct measured_band bands[] = {made_band("b", SIDE_LEFT, 1, 3, left), made_band("b", SIDE_RIGHT, 1, 3, right)};
    struct band_fittings fittings = band_fittings_make(arena, bands, 2);
    const struct measured_band *mean = band_pair_mean(arena, &fittings.list.items[0], &fittings.list.items[1]);
    const double lengths[] = {1.2, 1.6, 1.8, 2.0}; /* all at which either was measured, within both ranges */
    ck_assert_uint_eq(mean->count, 4);
    for (int i = 0; i < 4; i++) {
        ck_assert_double_eq_tol(mean->points[i].length_m, lengths[i], 1e-12);
        double a = band_pull_kg(fittings.list.items[0].curve, lengths[i]),
               b = band_pull_kg(fittings.list.items[1].curve, lengths[i]);
        ck_assert_double_eq_tol(mean->points[i].pull_kg, (a + b) / 2, 1e-12);
    }
    ck_assert_double_eq_tol(mean->points[0].pull_kg, 9.5, 1e-9);
    ck_assert_int_eq(mean->side, SIDE_UNSAID);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("band fitting");
    TCase *cases = tcase_create("band fitting");
    tcase_add_checked_fixture(cases, set_up, tear_down);
    tcase_add_test(cases, exact_laws_are_found_again);
    tcase_add_test(cases, neo_hookean_in_closed_form);
    tcase_add_test(cases, left_out_by_the_deletion_formula);
    tcase_add_test(cases, mooney_interval_in_closed_form);
    tcase_add_loop_test(cases, chooses, 0, COUNT(chosen));
    tcase_add_test(cases, laws_win_where_readings_scatter);
    tcase_add_test(cases, the_curve_through_a_straight_line_misses_nothing);
    tcase_add_test(cases, what_a_band_keeps);
    tcase_add_test(cases, a_pair_by_a_known_factor);
    tcase_add_test(cases, an_aged_band);
    tcase_add_test(cases, differences_do_not_cancel);
    tcase_add_loop_test(cases, what_stands_beside_what, 0, COUNT(groups));
    tcase_add_test(cases, nothing_in_common);
    tcase_add_test(cases, the_mean_of_a_pair);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
