#include "model/band_fit.h"

#include "model/band.h"

#include "model/numeric.h"

#include <gsl/gsl_fit.h>

#include <math.h>

/* Treloar, The Physics of Rubber Elasticity: f = G (λ − λ⁻²). */
static double strain_term(double ratio)
{
    return ratio - 1 / (ratio * ratio);
}

/* With c2 the form of Mooney 1940 and Rivlin 1948 for a strip pulled lengthwise. */
double band_law_pull_kg(double c1_kg, double c2_kg, double stretch_ratio)
{
    return stretch_ratio > 1 ? strain_term(stretch_ratio) * (c1_kg + c2_kg / stretch_ratio) : 0;
}

struct sample /* of the usable points */
{
    double *ratio, *pull;
    size_t count;
};

static struct sample usable_sample(struct arena *arena, double flat_m, const struct tension_point *points, size_t count,
                                   struct band_fit *fit)
{
    struct sample sample = {ARENA_ARRAY(arena, double, count), ARENA_ARRAY(arena, double, count), 0};
    for (size_t i = 0; i < count; i++) {
        double length = points[i].length_m;
        if (!(length > flat_m) || !isfinite(length) || !isfinite(points[i].pull_kg))
            continue;
        sample.ratio[sample.count] = length / flat_m;
        sample.pull[sample.count++] = points[i].pull_kg;
        fit->low_m = fmin(fit->low_m, length);
        fit->high_m = fmax(fit->high_m, length);
    }
    return sample;
}

static bool fit_neo_hookean(struct arena *arena, const struct sample *sample, struct band_fit *fit,
                            double *sum_of_squares)
{
    double variance;
    double *terms = ARENA_ARRAY(arena, double, sample->count);
    for (size_t i = 0; i < sample->count; i++)
        terms[i] = strain_term(sample->ratio[i]);
    if (gsl_fit_mul(terms, 1, sample->pull, 1, sample->count, &fit->c1_kg, &variance, sum_of_squares))
        return false;
    fit->c1_u_kg = sample->count > 1 ? sqrt(variance) : NAN;
    fit->c2_u_kg = 0;
    return true;
}

static bool fit_mooney_rivlin(struct arena *arena, const struct sample *sample, struct band_fit *fit,
                              double *sum_of_squares)
{
    struct two_terms both;
    double *first = ARENA_ARRAY(arena, double, sample->count), *second = ARENA_ARRAY(arena, double, sample->count);
    for (size_t i = 0; i < sample->count; i++) {
        first[i] = strain_term(sample->ratio[i]);
        second[i] = first[i] / sample->ratio[i];
    }
    if (!numeric_two_terms(first, second, sample->pull, sample->count, &both))
        return false;
    fit->c1_kg = both.a;
    fit->c2_kg = both.b;
    fit->c1_u_kg = sqrt(both.a_variance);
    fit->c2_u_kg = sqrt(both.b_variance);
    fit->c12_kg2 = both.covariance;
    *sum_of_squares = both.sum_of_squares;
    return true;
}

bool band_law_fit(enum band_law law, double flat_m, const struct tension_point *points, size_t count,
                  struct band_fit *fit)
{
    numeric_ready();
    *fit = (struct band_fit){.low_m = INFINITY, .high_m = -INFINITY};
    if (law == LAW_MEASURED || !(flat_m > 0))
        return false;
    struct arena *scratch = arena_new();
    struct sample sample = usable_sample(scratch, flat_m, points, count, fit);
    double sum_of_squares = 0;
    bool fitted = false;
    if (law == LAW_NEO_HOOKEAN && sample.count >= 1)
        fitted = fit_neo_hookean(scratch, &sample, fit, &sum_of_squares);
    else if (law == LAW_MOONEY_RIVLIN && sample.count >= 2)
        fitted = fit_mooney_rivlin(scratch, &sample, fit, &sum_of_squares);
    if (fitted) {
        fit->point_count = sample.count;
        fit->residual_kg = sqrt(fmax(sum_of_squares, 0) / (double)sample.count);
    }
    arena_free(scratch);
    return fitted;
}

void calibration_fit(struct calibration *calibration)
{
    struct band_fit one, fit;
    if (!band_law_fit(LAW_NEO_HOOKEAN, calibration->flat_m, calibration->points, calibration->point_count, &one))
        return;
    if (one.point_count == 1) {
        calibration->law = LAW_NEO_HOOKEAN;
        calibration->one_point = true;
    }
    fit = one;
    if (calibration->law == LAW_MOONEY_RIVLIN &&
        !band_law_fit(LAW_MOONEY_RIVLIN, calibration->flat_m, calibration->points, calibration->point_count, &fit))
        return;
    if (calibration->law != LAW_MEASURED) {
        calibration->c1_kg = fit.c1_kg;
        calibration->c2_kg = fit.c2_kg;
    }
    if (!(calibration->range_low_m > 0))
        calibration->range_low_m = fit.low_m;
    if (!(calibration->range_high_m > 0))
        calibration->range_high_m = fit.high_m;
}
