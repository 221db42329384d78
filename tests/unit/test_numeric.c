#include "model/numeric.h"

#include <check.h>
#include <gsl/gsl_integration.h>
#include <math.h>
#include <stdint.h>

static double flat(double x, void *context)
{
    (void)x;
    return *(double *)context;
}

static double cubic(double x, void *context)
{
    return ((x - *(double *)context) * x + 2) * x;
}

static double distance(double x, void *context) /* a band's, to an anchor aside */
{
    return hypot(x, *(double *)context);
}

static double peak(double x, void *context) /* one rule is not enough */
{
    double aside = x - *(double *)context;
    return 1 / (aside * aside + 1e-4);
}

static double jump(double x, void *context)
{
    return x > *(double *)context ? 1 : 0;
}

static double unknown(double x, void *context)
{
    (void)x, (void)context;
    return NAN;
}

static numeric_function *const functions[] = {flat, cubic, distance, peak, jump, unknown};

static double by_qag(numeric_function *function, double *context, double low, double high)
{
    gsl_integration_workspace *workspace = gsl_integration_workspace_alloc(64);
    gsl_function integrand = {function, context};
    double result = NAN, error;
    gsl_integration_qag(&integrand, low, high, 1e-12, 1e-12, 64, GSL_INTEG_GAUSS21, workspace, &result, &error);
    gsl_integration_workspace_free(workspace);
    return result;
}

START_TEST(integrals_equal_the_adaptive_ones_to_the_bit)
{
    uint64_t seed = 21;
    numeric_ready();
    for (int i = 0; i < 2000; i++) {
        double numbers[3];
        for (int j = 0; j < 3; j++) {
            seed = seed * 6364136223846793005u + 1442695040888963407u;
            numbers[j] = (double)(seed >> 44) / (double)(1 << 19) - (j ? 0 : 1);
        }
        if (i % 10 == 0)
            numbers[0] = 0;
        double low = numbers[0], high = numbers[0] + numbers[1], context = numbers[2];
        double is = numeric_integral(functions[_i], &context, low, high),
               expected = low < high ? by_qag(functions[_i], &context, low, high) : 0;
        ck_assert_msg(is == expected || (isnan(is) && isnan(expected)), "%.17g, not %.17g", is, expected);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("numeric");
    TCase *cases = tcase_create("numeric");
    tcase_add_loop_test(cases, integrals_equal_the_adaptive_ones_to_the_bit, 0, sizeof functions / sizeof *functions);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed != 0;
}
