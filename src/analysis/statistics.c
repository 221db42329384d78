#include "analysis/statistics.h"

#include "base/arena.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_sort.h>
#include <gsl/gsl_statistics_double.h>

#include <math.h>
#include <string.h>

#define LEAST_POINTS_FOR_P 4
#define LAST_BITS 1e-12 /* of the larger: what sums in another order leave */

double median_of(const double *values, size_t count)
{
    if (!count)
        return NAN;
    struct arena *scratch = arena_new();
    double *copy = ARENA_ARRAY(scratch, double, count);
    memcpy(copy, values, count * sizeof *copy);
    double median = gsl_stats_median(copy, 1, count);
    arena_free(scratch);
    return median;
}

double sample_mean(const double *values, size_t count)
{
    return count ? gsl_stats_mean(values, 1, count) : NAN;
}

double sample_deviation(const double *values, size_t count)
{
    return count > 1 ? gsl_stats_sd(values, 1, count) : NAN;
}

double difference(double a, double b)
{
    return fabs(a - b) <= LAST_BITS * fmax(fabs(a), fabs(b)) ? 0 : a - b;
}

/* Ties decide Var S and p, and two weeks of the same training differ in the last bits of their means: what prints alike (nine digits) is
 * alike. */
static double as_printed(double value)
{
    if (value == 0 || !isfinite(value))
        return value;
    double unit = pow(10, floor(log10(fabs(value))) - 8);
    return round(value / unit) * unit;
}

static double *as_printed_all(struct arena *arena, const double *values, size_t count)
{
    double *printed = ARENA_ARRAY(arena, double, count);
    for (size_t i = 0; i < count; i++)
        printed[i] = as_printed(values[i]);
    return printed;
}

/* Var S = (n (n − 1)(2n + 5) − Σ t (t − 1)(2t + 5)) / 18 over the groups of t equal values: Kendall 1975. */
static double variance_of_s(struct arena *scratch, const double *y, size_t count)
{
    double *sorted = ARENA_ARRAY(scratch, double, count);
    memcpy(sorted, y, count * sizeof *sorted);
    gsl_sort(sorted, 1, count);
    double n = (double)count, sum = n * (n - 1) * (2 * n + 5);
    for (size_t start = 0, end; start < count; start = end) {
        for (end = start; end < count && sorted[end] <= sorted[start]; end++)
            ;
        double t = (double)(end - start);
        sum -= t * (t - 1) * (2 * t + 5);
    }
    return sum / 18;
}

static int sign(double value)
{
    return (value > 0) - (value < 0);
}

/* Mann 1945, Econometrica 13:245–259; Kendall 1975, Rank Correlation Methods. */
struct mann_kendall mann_kendall(const double *y, size_t count)
{
    struct arena *scratch = arena_new();
    const double *printed = as_printed_all(scratch, y, count);
    struct mann_kendall test = {.variance = count ? variance_of_s(scratch, printed, count) : 0, .p = NAN};
    for (size_t i = 0; i < count; i++)
        for (size_t j = i + 1; j < count; j++)
            test.s += sign(printed[j] - printed[i]);
    arena_free(scratch);
    if (test.s != 0)
        test.z = (test.s - sign(test.s)) / sqrt(test.variance);
    if (count >= LEAST_POINTS_FOR_P)
        test.p = fmin(1, 2 * gsl_cdf_ugaussian_Q(fabs(test.z)));
    return test;
}

/* Values that are alike as printed have the slope 0 between them: their last bits would make a trend of nothing. */
static size_t pair_slopes(const double *x, const double *y, const double *printed, size_t count, double *slopes)
{
    size_t pairs = 0;
    for (size_t i = 0; i < count; i++)
        for (size_t j = i + 1; j < count; j++)
            if (x[j] > x[i])
                slopes[pairs++] = sign(printed[j] - printed[i]) ? (y[j] - y[i]) / (x[j] - x[i]) : 0;
    return pairs;
}

/* The slope of that rank, from 0; ranks beyond the ends are the ends. Rearranges `slopes`. */
static double slope_at(double *slopes, size_t pairs, double rank)
{
    double last = (double)pairs - 1, held = rank < 0 ? 0 : rank > last ? last : rank;
    return gsl_stats_select(slopes, 1, pairs, (size_t)held);
}

/* Sen 1968, J Am Stat Assoc 63:1379–1389: with N slopes and C = z sqrt(Var S), the limits have the ranks
 * round((N − C)/2) and round((N + C)/2) + 1, counted from 1. */
struct slope theil_sen(const double *x, const double *y, size_t count, double confidence)
{
    if (count > SLOPE_MOST_POINTS) {
        x += count - SLOPE_MOST_POINTS;
        y += count - SLOPE_MOST_POINTS;
        count = SLOPE_MOST_POINTS;
    }
    struct mann_kendall test = mann_kendall(y, count);
    struct slope result = {count, NAN, NAN, NAN, test.p, median_of(y, count)};
    struct arena *scratch = arena_new();
    double *slopes = ARENA_ARRAY(scratch, double, count * count / 2 + 1);
    size_t pairs = pair_slopes(x, y, as_printed_all(scratch, y, count), count, slopes);
    if (pairs) {
        double c = gsl_cdf_ugaussian_Pinv((1 + confidence) / 2) * sqrt(test.variance), n = (double)pairs;
        result.slope = gsl_stats_median(slopes, 1, pairs);
        result.low = slope_at(slopes, pairs, round((n - c) / 2) - 1);
        result.high = slope_at(slopes, pairs, round((n + c) / 2));
    }
    arena_free(scratch);
    return result;
}

const char *slope_direction(const struct slope *slope)
{
    if (slope->points < LEAST_POINTS_FOR_P)
        return "";
    return slope->low > 0 ? "up" : slope->high < 0 ? "down" : "";
}
