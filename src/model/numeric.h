/* The numerical recipes of the model, by GSL, with its aborting error handler replaced for good: an input that GSL does
 * not like must never end the program, and no memory for GSL is no memory for us (arena_out_of_memory). Whoever uses
 * GSL in the model calls numeric_ready() first or comes through here. */
#ifndef TAUTLINE_MODEL_NUMERIC_H
#define TAUTLINE_MODEL_NUMERIC_H

#include <stdbool.h>
#include <stddef.h>

typedef double numeric_function(double x, void *context);

void numeric_ready(void); /* once for the process, whatever thread comes first */

/* ∫ f dx over an interval in which f is smooth: the caller splits at kinks. Adaptive Gauss–Kronrod to about 1e-12. */
double numeric_integral(numeric_function *function, void *context, double low, double high);

/* Where f crosses 0 between low and high, at which its signs differ; Brent's method, to double precision. */
double numeric_root(numeric_function *function, void *context, double low, double high);

struct two_terms /* y = a u + b v */
{
    double a, b;
    double a_variance, b_variance, covariance; /* NAN with no point to spare */
    double sum_of_squares;                     /* of the residuals */
};

/* Linear least squares by singular values (GSL), unweighted. False: fewer than two points. */
bool numeric_two_terms(const double *u, const double *v, const double *y, size_t count, struct two_terms *fit);

#endif
