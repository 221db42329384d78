/* Propagation of uncertainty (JCGM 100:2008, GUM), first order. Pure. */
#ifndef TAUTLINE_MODEL_UNCERTAINTY_H
#define TAUTLINE_MODEL_UNCERTAINTY_H

#include <stddef.h>

/* r of the inputs i and j, i < j: 1 for one error that enters twice, 0 for independent ones. */
typedef double u_correlation(const void *context, size_t i, size_t j);

/* u_c² = Σ_i Σ_j p_i p_j r(x_i, x_j) with p_i = (∂f/∂x_i) u(x_i), signs kept: GUM, 5.2.2. `parts` are the p_i. */
double u_combined(const double *parts, size_t count, u_correlation *correlation, const void *context);

#endif
