/* The seasonal Kendall test: does a quantity rise if each value is compared only with those of its own season? Pure.
 *
 * Here a season is a step of a wave with one set-up, and the time is the wave's number. */
#ifndef TAUTLINE_ANALYSIS_SEASONAL_H
#define TAUTLINE_ANALYSIS_SEASONAL_H

#include <stddef.h>

struct seasonal_point
{
    size_t season; /* any number: points with the same number are compared */
    double time;   /* distinct within a season */
    double value;  /* NAN: left out */
};

/* S = Σ S_g over the seasons g, S_g = Σ sign(y_j − y_i) over the pairs i < j of a season.
 * var S = Σ σ_g² + 2 Σ σ_gh over the pairs of seasons g < h:
 * - σ_g² = (n (n − 1)(2n + 5) − Σ t (t − 1)(2t + 5)) / 18 over the groups of t equal values: Hirsch, Slack & Smith
 *   1982, Water Resources Research 18:107–121;
 * - σ_gh = (K + 4 Σ R_i R'_i − n (n + 1)²) / 3 over the n times that both have, R and R' the ranks (ties share theirs),
 *   K = Σ sign((y_j − y_i)(y'_j − y'_i)): Hirsch & Slack 1984, Water Resources Research 20:727–732, after Dietz &
 *   Killeen 1981, J Am Stat Assoc 76:169–174.
 *
 * Without the covariances a good or a bad wave would count once for each of its weeks. They are estimated if there are
 * at least SEASONAL_LEAST_SHARED times, and the sum is never taken below half of Σ σ_g².
 *
 * p is two-sided. With SEASONAL_LEAST_SHARED to SEASONAL_MOST_EXACT times in total, it is the share of the orders of
 * whole times in which |S| is at least as large, which needs neither covariance nor continuity correction (a
 * permutation test: Fisher 1935, The Design of Experiments, section 21; Pitman 1937, Suppl. J. R. Stat. Soc. 4:119–130,
 * from memory). With fewer times no order is rare enough for that; with fewer or more, p is that of
 * z = (S − sign S) / √var S by the normal distribution.
 *
 * Slope: the median of all slopes within seasons; its interval is Sen's (see statistics.h), by the same variance. */
#define SEASONAL_LEAST_SHARED 5
#define SEASONAL_MOST_EXACT 8

struct seasonal
{
    size_t points;           /* in seasons of two or more */
    size_t pairs;            /* that are compared */
    double s, variance;      /* covariances included */
    double p;                /* NAN without a pair, or if all values are equal */
    double slope, low, high; /* per unit of time; NAN without a pair */
};

/* `confidence`: 0.95 for the 95 % interval. The points may come in any order. Of more than SEASONAL_MOST_POINTS the
 * newest are taken. */
#define SEASONAL_MOST_POINTS 1500
struct seasonal seasonal_kendall(const struct seasonal_point *points, size_t count, double confidence);
double seasonal_slope(const struct seasonal_point *points, size_t count); /* its slope alone, at less cost */

#endif
