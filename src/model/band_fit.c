#include "model/band.h"

#include "model/numeric.h"

#include <gsl/gsl_fit.h>
#include <gsl/gsl_multifit.h>

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

struct two_constants /* GSL's objects, made and freed together */
{
    gsl_matrix *terms, *covariance;
    gsl_vector *pulls, *constants;
    gsl_multifit_linear_workspace *workspace;
};

static bool solve(const struct two_constants *system, const struct sample *sample, struct band_fit *fit,
                  double *sum_of_squares)
{
    if (!system->terms || !system->covariance || !system->pulls || !system->constants || !system->workspace)
        return false;
    for (size_t i = 0; i < sample->count; i++) {
        double term = strain_term(sample->ratio[i]);
        gsl_matrix_set(system->terms, i, 0, term);
        gsl_matrix_set(system->terms, i, 1, term / sample->ratio[i]);
        gsl_vector_set(system->pulls, i, sample->pull[i]);
    }
    if (gsl_multifit_linear(system->terms, system->pulls, system->constants, system->covariance, sum_of_squares,
                            system->workspace))
        return false;
    fit->c1_kg = gsl_vector_get(system->constants, 0);
    fit->c2_kg = gsl_vector_get(system->constants, 1);
    bool to_spare = sample->count > 2;
    fit->c1_u_kg = to_spare ? sqrt(gsl_matrix_get(system->covariance, 0, 0)) : NAN;
    fit->c2_u_kg = to_spare ? sqrt(gsl_matrix_get(system->covariance, 1, 1)) : NAN;
    return true;
}

static bool fit_mooney_rivlin(const struct sample *sample, struct band_fit *fit, double *sum_of_squares)
{
    struct two_constants system = {
        gsl_matrix_alloc(sample->count, 2),
        gsl_matrix_alloc(2, 2),
        gsl_vector_alloc(sample->count),
        gsl_vector_alloc(2),
        gsl_multifit_linear_alloc(sample->count, 2),
    };
    bool solved = solve(&system, sample, fit, sum_of_squares);
    gsl_matrix_free(system.terms);
    gsl_matrix_free(system.covariance);
    gsl_vector_free(system.pulls);
    gsl_vector_free(system.constants);
    gsl_multifit_linear_free(system.workspace);
    return solved;
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
        fitted = fit_mooney_rivlin(&sample, fit, &sum_of_squares);
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
