#include "model/numeric.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_integration.h>
#include <gsl/gsl_roots.h>

#include <math.h>
#include <pthread.h>

#define MOST_SPLITS 64
#define MOST_ROOT_STEPS 100
#define TOLERANCE 1e-12

static void switch_handler_off(void)
{
    gsl_set_error_handler_off();
}

void numeric_ready(void)
{
    static pthread_once_t once = PTHREAD_ONCE_INIT;
    pthread_once(&once, switch_handler_off);
}

double numeric_integral(numeric_function *function, void *context, double low, double high)
{
    numeric_ready();
    if (!(low < high))
        return 0;
    gsl_integration_workspace *workspace = gsl_integration_workspace_alloc(MOST_SPLITS);
    if (!workspace)
        return NAN;
    gsl_function integrand = {function, context};
    double result = NAN, error;
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
    if (solver && gsl_root_fsolver_set(solver, &crossing, low, high) == GSL_SUCCESS) {
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
