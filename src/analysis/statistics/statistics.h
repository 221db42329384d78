/* Robust statistics of short series: medians, slopes, trends. Pure; NAN: does not exist. */
#ifndef TAUTLINE_ANALYSIS_STATISTICS_H
#define TAUTLINE_ANALYSIS_STATISTICS_H

#include <stddef.h>

double median_of(const double *values, size_t count); /* NAN if there are none */
double sample_mean(const double *values, size_t count);
double sample_deviation(const double *values, size_t count,
                        double mean); /* about their sample_mean(); n − 1; NAN below two */

/* a − b; 0 if only their last bits differ, so that rounding does not show as a change. NAN is passed on. */
double difference(double a, double b);

/* Rounded to the nine digits that tables print: values that print the same are ties. */
double as_printed(double value);

/* The number of pairs grows with the square of the points: of longer series only the newest points are used. */
#define SLOPE_MOST_POINTS 1500

struct slope
{
    size_t points;    /* number of points used */
    double slope;     /* Theil–Sen: the median of all slopes between two points; NAN below two points */
    double low, high; /* Sen's interval for it; NAN if there are too few slopes */
    double p;         /* Mann–Kendall, two-sided; NAN below four points */
    double median;    /* of y */
    double s;         /* Kendall's S: pairs that rise minus pairs that fall */
};

/* x must rise; pairs with equal x have no slope and are left out. `confidence`: 0.95 for the 95 % interval. */
struct slope theil_sen(const double *x, const double *y, size_t count, double confidence);

/* "up" or "down" if p is below 0.05, else "". The interval may then still end at 0: with many equal values its rank
 * falls on a tie. */
const char *slope_direction(const struct slope *slope);

struct mann_kendall
{
    double s;        /* pairs that rise minus pairs that fall */
    double variance; /* of s without a trend, corrected for ties */
    double z;        /* with continuity correction; 0 if s is 0 */
    double p;        /* two-sided, by the normal approximation; NAN below four points */
};

struct mann_kendall mann_kendall(const double *y, size_t count); /* y in the order of time */

#endif
