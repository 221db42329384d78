#include "analysis/bands/band_fitting.h"

#include "base/text.h"
#include "base/unit.h"
#include "model/band_fit.h"
#include "model/numeric.h"

#include <gsl/gsl_cdf.h>

#include <math.h>
#include <stdlib.h>

static const struct
{
    const char *name;
    size_t constants;
} laws[LAW_COUNT] = {[LAW_MEASURED] = {"measured", 0},
                     [LAW_NEO_HOOKEAN] = {"neo-hookean", 1},
                     [LAW_MOONEY_RIVLIN] = {"mooney-rivlin", 2}};

const char *band_law_name(enum band_law law)
{
    return laws[law].name;
}

/* --- fits -------------------------------------------------------------------------------------------------------- */

static struct calibration calibration_of(struct arena *arena, const struct measured_band *band)
{
    struct calibration calibration = {.measured = band->day, .flat_m = band->flat_m, .c1_kg = NAN, .c2_kg = NAN};
    calibration.points = ARENA_ARRAY(arena, struct tension_point, band->count);
    calibration.point_count = band->count;
    for (size_t i = 0; i < band->count; i++)
        calibration.points[i] = (struct tension_point){band->points[i].length_m, band->points[i].pull_kg};
    calibration.range_low_m = band->points[0].length_m;
    calibration.range_high_m = band->points[band->count - 1].length_m;
    return calibration;
}

static double law_pull_kg(const struct band_fit *fit, double flat_m, double length_m)
{
    return band_law_pull_kg(fit->c1_kg, fit->c2_kg, length_m / flat_m);
}

#define STEPS_OF_RISE 100

static bool law_rises(const struct band_fit *fit, double flat_m)
{
    double before = 0;
    for (int i = 1; i <= STEPS_OF_RISE; i++) {
        double pull = law_pull_kg(fit, flat_m, flat_m + (fit->high_m - flat_m) * i / STEPS_OF_RISE);
        if (!(pull > before))
            return false;
        before = pull;
    }
    return true;
}

/* Residual standard deviation and coefficient of determination. */
static void judge_law(const struct calibration *calibration, struct law_fit *law)
{
    size_t n = calibration->point_count, p = laws[law->law].constants;
    double mean = 0, about_mean = 0, squares = law->fit.residual_kg * law->fit.residual_kg * (double)n;
    for (size_t i = 0; i < n; i++)
        mean += calibration->points[i].pull_kg / (double)n;
    for (size_t i = 0; i < n; i++)
        about_mean += (calibration->points[i].pull_kg - mean) * (calibration->points[i].pull_kg - mean);
    if (n <= p)
        return;
    law->residual_kg = sqrt(squares / (double)(n - p));
    law->r_squared = about_mean > 0 ? 1 - squares / about_mean : NAN;
}

/* The calibration without one of its points. */
static struct calibration without(struct arena *arena, const struct calibration *calibration, size_t left_out)
{
    struct calibration rest = *calibration;
    rest.points = ARENA_ARRAY(arena, struct tension_point, calibration->point_count);
    rest.point_count = 0;
    for (size_t i = 0; i < calibration->point_count; i++)
        if (i != left_out)
            rest.points[rest.point_count++] = calibration->points[i];
    return rest;
}

static double predicted_kg(struct arena *scratch, const struct calibration *rest, enum band_law law, double length_m)
{
    struct band_fit fit;
    if (law != LAW_MEASURED)
        return band_law_fit(law, rest->flat_m, rest->points, rest->point_count, &fit)
                   ? law_pull_kg(&fit, rest->flat_m, length_m)
                   : NAN;
    const struct band_curve *curve = band_curve_new(scratch, rest);
    return curve ? band_pull_kg(curve, length_m) : NAN;
}

static double left_out_error(const struct calibration *calibration, enum band_law law)
{
    if (calibration->point_count < 3)
        return NAN;
    struct arena *scratch = arena_new();
    double squares = 0;
    size_t count = calibration->point_count - 1;
    for (size_t i = 0; i < count; i++) {
        struct calibration rest = without(scratch, calibration, i);
        const struct tension_point *point = &calibration->points[i];
        double miss = predicted_kg(scratch, &rest, law, point->length_m) - point->pull_kg;
        squares += miss * miss;
        arena_reset(scratch);
    }
    arena_free(scratch);
    return sqrt(squares / (double)count);
}

static void fit_law(struct band_fitting *fitting, enum band_law law)
{
    const struct calibration *calibration = &fitting->calibration;
    struct law_fit *result = &fitting->laws[law];
    *result = (struct law_fit){.law = law, .residual_kg = NAN, .r_squared = NAN, .left_out_kg = NAN};
    if (law == LAW_MEASURED) {
        result->fitted = calibration->point_count > 1;
        result->fit = (struct band_fit){.c1_kg = NAN, .c2_kg = NAN, .c1_u_kg = NAN, .c2_u_kg = NAN, .c12_kg2 = NAN};
        result->fit.residual_kg = NAN;
        result->fit.low_m = calibration->range_low_m;
        result->fit.high_m = calibration->range_high_m;
        result->fit.point_count = calibration->point_count;
    } else {
        result->fitted = band_law_fit(law, calibration->flat_m, calibration->points, calibration->point_count,
                                      &result->fit) &&
                         law_rises(&result->fit, calibration->flat_m);
        if (result->fitted)
            judge_law(calibration, result);
    }
    if (result->fitted)
        result->left_out_kg = left_out_error(calibration, law);
}

/* Two-sided Student's t; NAN without a degree of freedom. */
static double student_t(size_t points, size_t constants, double confidence)
{
    return points > constants ? gsl_cdf_tdist_Pinv((1 + confidence) / 2, (double)(points - constants)) : NAN;
}

/* Neo-Hookean is Mooney–Rivlin with c2 = 0: the second constant is used only if it differs clearly from 0. */
static enum band_law better_law(const struct band_fitting *fitting)
{
    const struct law_fit *two = &fitting->laws[LAW_MOONEY_RIVLIN];
    double t = student_t(two->fit.point_count, 2, FIT_CONFIDENCE);
    bool told_apart = two->fitted && fabs(two->fit.c2_kg) > t * two->fit.c2_u_kg;
    return told_apart || !fitting->laws[LAW_NEO_HOOKEAN].fitted ? LAW_MOONEY_RIVLIN : LAW_NEO_HOOKEAN;
}

static double mean_pull_kg(const struct measured_band *band)
{
    double sum = 0;
    for (size_t i = 0; i < band->count; i++)
        sum += band->points[i].pull_kg;
    return sum / (double)band->count;
}

static enum law_reason reason_of(const struct band_fitting *fitting)
{
    const struct law_fit *curve = &fitting->laws[LAW_MEASURED], *law = &fitting->laws[fitting->best_law];
    if (fitting->measured->count < 3)
        return fitting->measured->count == 1 ? REASON_ONE_POINT : REASON_TWO_POINTS;
    if (!law->fitted || !(law->left_out_kg < curve->left_out_kg))
        return REASON_CURVE_NEARER;
    return law->residual_kg <= LAW_MISSES * mean_pull_kg(fitting->measured) ? REASON_LAW_NEARER : REASON_LAW_MISSES;
}

static void choose(struct band_fitting *fitting)
{
    fitting->best_law = better_law(fitting);
    fitting->reason = reason_of(fitting);
    fitting->use = fitting->reason == REASON_ONE_POINT    ? LAW_NEO_HOOKEAN
                   : fitting->reason == REASON_LAW_NEARER ? fitting->best_law
                                                          : LAW_MEASURED;
}

static struct band_fitting fitting_make(struct arena *arena, const struct measured_band *band);

static void take_down(struct arena *arena, struct band_fitting *fitting, const struct measured_band *band)
{
    struct band_fitting *down = ARENA_NEW(arena, struct band_fitting);
    *down = fitting_make(arena, band);
    fitting->down = down;
    fitting->calibration.lowering = down->calibration.points;
    fitting->calibration.lowering_count = down->calibration.point_count;
}

static struct band_fitting fitting_make(struct arena *arena, const struct measured_band *band)
{
    struct band_fitting fitting = {.measured = band, .calibration = calibration_of(arena, band)};
    for (int law = 0; law < LAW_COUNT; law++)
        fit_law(&fitting, (enum band_law)law);
    fitting.curve = band_curve_new(arena, &fitting.calibration);
    choose(&fitting);
    if (band->down)
        take_down(arena, &fitting, band->down);
    fitting.calibration.law = fitting.use;
    fitting.calibration.one_point = band->count == 1;
    if (fitting.use != LAW_MEASURED) {
        fitting.calibration.c1_kg = fitting.laws[fitting.use].fit.c1_kg;
        fitting.calibration.c2_kg = fitting.laws[fitting.use].fit.c2_kg;
    }
    return fitting;
}

struct band_fittings band_fittings_make(struct arena *arena, const struct measured_band *bands, size_t count)
{
    struct band_fittings fittings = {0};
    numeric_ready();
    for (size_t i = 0; i < count; i++)
        *LIST_ADD(arena, &fittings.list) = fitting_make(arena, &bands[i]);
    return fittings;
}

/* --- work -------------------------------------------------------------------------------------------------------- */

static double pull_at(double length_m, void *curve)
{
    return band_pull_kg(curve, length_m);
}

/* Between the lengths where the curve bends it is smooth. */
static double stretching_j(const struct band_curve *curve, double to_m)
{
    double integral = 0;
    for (size_t i = 0; i < band_knot_count(curve) && band_knot_m(curve, i) < to_m; i++) {
        bool last = i + 1 == band_knot_count(curve) || band_knot_m(curve, i + 1) > to_m;
        integral += numeric_integral(pull_at, (void *)curve, band_knot_m(curve, i),
                                     last ? to_m : band_knot_m(curve, i + 1));
    }
    return STANDARD_GRAVITY_MS2 * integral;
}

struct band_loss band_loss_of(const struct band_fitting *fitting)
{
    struct band_loss loss = {
        .length_m = fmin(fitting->calibration.range_high_m, fitting->down->calibration.range_high_m)};
    loss.taken_j = stretching_j(fitting->curve, loss.length_m);
    loss.lost_j = loss.taken_j - stretching_j(fitting->down->curve, loss.length_m);
    return loss;
}

double law_fit_pull_kg(const struct band_fitting *fitting, enum band_law law, double length_m)
{
    const struct law_fit *fit = &fitting->laws[law];
    if (!fit->fitted)
        return NAN;
    return law == LAW_MEASURED ? band_pull_kg(fitting->curve, length_m)
                               : law_pull_kg(&fit->fit, fitting->calibration.flat_m, length_m);
}

/* u²(T) = (∂T/∂c1)² u²(c1) + (∂T/∂c2)² u²(c2) + 2 (∂T/∂c1)(∂T/∂c2) cov(c1, c2): T is linear in its constants. */
double law_fit_interval_kg(const struct band_fitting *fitting, enum band_law law, double length_m, double confidence)
{
    const struct law_fit *fit = &fitting->laws[law];
    if (!fit->fitted || law == LAW_MEASURED)
        return NAN;
    double ratio = length_m / fitting->calibration.flat_m;
    double by_c1 = band_law_pull_kg(1, 0, ratio), by_c2 = law == LAW_MOONEY_RIVLIN ? band_law_pull_kg(0, 1, ratio) : 0;
    double variance = by_c1 * by_c1 * fit->fit.c1_u_kg * fit->fit.c1_u_kg +
                      by_c2 * by_c2 * fit->fit.c2_u_kg * fit->fit.c2_u_kg + 2 * by_c1 * by_c2 * fit->fit.c12_kg2;
    return student_t(fit->fit.point_count, laws[law].constants, confidence) * sqrt(fmax(variance, 0));
}
