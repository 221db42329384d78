#include "model/numeric.h"

#include "base/arena.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_integration.h>
#include <gsl/gsl_machine.h>
#include <gsl/gsl_multifit.h>
#include <gsl/gsl_roots.h>

#include <math.h>
#include <pthread.h>

#define MOST_SPLITS 64
#define MOST_ROOT_STEPS 100
#define TOLERANCE 1e-12

/* GSL frees and goes on where it has no memory, by results that look like any other; some of its functions do not even
 * look. */
static void heed_memory_only(const char *reason, const char *file, int line, int error)
{
    (void)reason, (void)file, (void)line;
    if (error == GSL_ENOMEM)
        arena_out_of_memory(0);
}

static void set_handler(void)
{
    gsl_set_error_handler(heed_memory_only);
}

void numeric_ready(void)
{
    static pthread_once_t once = PTHREAD_ONCE_INIT;
    pthread_once(&once, set_handler);
}

/* One rule over the whole interval, where qag would stop with it too (its own conditions): nearly always, and qag's
 * workspace costs more than the rule. By hand because measured. */
static bool integral_at_once(const gsl_function *integrand, double low, double high, double *result)
{
    double error, absolute, about_mean;
    gsl_integration_qk21(integrand, low, high, result, &error, &absolute, &about_mean);
    bool good = error <= fmax(TOLERANCE, TOLERANCE * fabs(*result)), rounded = error <= 50 * GSL_DBL_EPSILON * absolute;
    return good ? error < about_mean || error > about_mean || error <= 0 : rounded;
}

double numeric_integral(numeric_function *function, void *context, double low, double high)
{
    numeric_ready();
    if (!(low < high))
        return 0;
    gsl_function integrand = {function, context};
    double result = NAN, error;
    if (integral_at_once(&integrand, low, high, &result))
        return result;
    gsl_integration_workspace *workspace = gsl_integration_workspace_alloc(MOST_SPLITS);
    /* A status other than success: rounding stops it short of the tolerance. The result is the best there is. */
    gsl_integration_qag(&integrand, low, high, TOLERANCE, TOLERANCE, MOST_SPLITS, GSL_INTEG_GAUSS21, workspace, &result,
                        &error);
    gsl_integration_workspace_free(workspace);
    return result;
}

double numeric_root(numeric_function *function, void *context, double low, double high)
{
    numeric_ready();
    gsl_root_fsolver *solver = gsl_root_fsolver_alloc(gsl_root_fsolver_brent);
    gsl_function crossing = {function, context};
    double root = low;
    if (gsl_root_fsolver_set(solver, &crossing, low, high) == GSL_SUCCESS) {
        int status = GSL_CONTINUE;
        for (int step = 0; step < MOST_ROOT_STEPS && status == GSL_CONTINUE; step++) {
            if (gsl_root_fsolver_iterate(solver) != GSL_SUCCESS)
                break;
            root = gsl_root_fsolver_root(solver);
            status = gsl_root_test_interval(gsl_root_fsolver_x_lower(solver), gsl_root_fsolver_x_upper(solver),
                                            TOLERANCE, 0);
        }
    }
    gsl_root_fsolver_free(solver);
    return root;
}

struct system /* GSL's objects, made and freed together */
{
    gsl_matrix *terms, *covariance;
    gsl_vector *values, *factors;
    gsl_multifit_linear_workspace *workspace;
};

static bool solve(const struct system *system, struct two_terms *fit)
{
    if (gsl_multifit_linear(system->terms, system->values, system->factors, system->covariance, &fit->sum_of_squares,
                            system->workspace))
        return false;
    bool to_spare = system->values->size > 2;
    fit->a = gsl_vector_get(system->factors, 0);
    fit->b = gsl_vector_get(system->factors, 1);
    fit->a_variance = to_spare ? gsl_matrix_get(system->covariance, 0, 0) : NAN;
    fit->b_variance = to_spare ? gsl_matrix_get(system->covariance, 1, 1) : NAN;
    fit->covariance = to_spare ? gsl_matrix_get(system->covariance, 0, 1) : NAN;
    return true;
}

bool numeric_two_terms(const double *u, const double *v, const double *y, size_t count, struct two_terms *fit)
{
    if (count < 2)
        return false;
    numeric_ready();
    struct system system = {gsl_matrix_alloc(count, 2), gsl_matrix_alloc(2, 2), gsl_vector_alloc(count),
                            gsl_vector_alloc(2), gsl_multifit_linear_alloc(count, 2)};
    for (size_t i = 0; i < count; i++) {
        gsl_matrix_set(system.terms, i, 0, u[i]);
        gsl_matrix_set(system.terms, i, 1, v[i]);
        gsl_vector_set(system.values, i, y[i]);
    }
    bool solved = solve(&system, fit);
    gsl_matrix_free(system.terms);
    gsl_matrix_free(system.covariance);
    gsl_vector_free(system.values);
    gsl_vector_free(system.factors);
    gsl_multifit_linear_free(system.workspace);
    return solved;
}
