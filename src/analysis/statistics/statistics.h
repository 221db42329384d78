/* Robust statistics of short series: medians, slopes, trends. Pure; NAN: does not exist. */
#ifndef TAUTLINE_ANALYSIS_STATISTICS_H
#define TAUTLINE_ANALYSIS_STATISTICS_H

#include <stddef.h>

double median_of(const double *values, size_t count); /* NAN of none */
double sample_mean(const double *values, size_t count);
double sample_deviation(const double *values, size_t count,
                        double mean); /* about their sample_mean(); n − 1; NAN below two */

/* a − b; 0 where only their last bits differ: what did not change shows no change. NAN stays. */
double difference(double a, double b);

/* Rounded to the nine digits that tables print: values that print alike are ties. */
double as_printed(double value);

/* Pairs grow with the square of the points: of longer series the newest points are taken. */
#define SLOPE_MOST_POINTS 1500

struct slope
{
    size_t points;    /* used */
    double slope;     /* Theil–Sen: the median of all slopes between two points; NAN below two points */
    double low, high; /* Sen's interval for it; NAN where there are too few slopes for one */
    double p;         /* Mann–Kendall, two-sided; NAN below four points */
    double median;    /* of y */
    double s;         /* Kendall's S: pairs that rise less pairs that fall */
};

/* x rising; pairs of equal x have no slope and are left out. `confidence`: 0.95 for the 95 % interval. */
struct slope theil_sen(const double *x, const double *y, size_t count, double confidence);

/* "up" or "down" where p is below 0.05, else "". The interval may then still end at 0: with many equal values its rank
 * falls on a tie. */
const char *slope_direction(const struct slope *slope);

struct mann_kendall
{
    double s;        /* pairs that rise less pairs that fall */
    double variance; /* of s if there is no trend, ties taken into account */
    double z;        /* with continuity correction; 0 where s is */
    double p;        /* two-sided, by the normal approximation; NAN below four points */
};

struct mann_kendall mann_kendall(const double *y, size_t count); /* y in the order of time */

#endif
