#include "analysis/statistics/statistics.h"

#include "analysis/statistics/pairs.h"
#include "base/arena.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_statistics_double.h>

#include <math.h>
#include <stdbool.h>
#include <string.h>

#define LEAST_POINTS_FOR_P 4
#define DIRECTION_P 0.05
#define LAST_BITS 1e-12 /* of the larger number: differences caused by the order of summation */

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

/* These two are by hand because measured: a log has hundreds of thousands of weeks, and the library's 80-bit division
 * for each of their days takes ten times as long. */
double sample_mean(const double *values, size_t count)
{
    double sum = 0;
    for (size_t i = 0; i < count; i++)
        sum += values[i];
    return count ? sum / (double)count : NAN;
}

double sample_deviation(const double *values, size_t count, double mean)
{
    double squares = 0;
    for (size_t i = 0; i < count; i++)
        squares += (values[i] - mean) * (values[i] - mean);
    return count > 1 ? sqrt(squares / (double)(count - 1)) : NAN;
}

double difference(double a, double b)
{
    return fabs(a - b) <= LAST_BITS * fmax(fabs(a), fabs(b)) ? 0 : a - b;
}

/* Ties determine Var S and p, but two weeks of the same training differ in the last bits of their means. So values
 * that print the same (nine digits) count as equal. */
double as_printed(double value)
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

static int sign(double value)
{
    return (value > 0) - (value < 0);
}

/* Mann 1945, Econometrica 13:245–259; Kendall 1975, Rank Correlation Methods: S = Σ sign(y_j − y_i) over i < j, which
 * is the number of pairs, minus those that are equal, minus twice those that fall; Var S = (n (n − 1)(2n + 5) − Σ t
 * (t − 1)(2t + 5)) / 18 over the groups of t equal values. */
static struct mann_kendall mann_kendall_of(struct arena *scratch, const double *printed, size_t count)
{
    double *sorted = ARENA_ARRAY(scratch, double, count);
    double n = (double)count, equal = 0, sum = count ? n * (n - 1) * (2 * n + 5) : 0;
    memcpy(sorted, printed, count * sizeof *sorted);
    double falling = sort_counting(scratch, sorted, count);
    for (size_t start = 0, end; start < count; start = end) {
        for (end = start; end < count && sorted[end] <= sorted[start]; end++)
            ;
        double t = (double)(end - start);
        equal += t * (t - 1) / 2;
        sum -= t * (t - 1) * (2 * t + 5);
    }
    struct mann_kendall test = {.variance = sum / 18, .p = NAN};
    if (count)
        test.s = n * (n - 1) / 2 - equal - 2 * falling;
    if (test.s != 0)
        test.z = (test.s - sign(test.s)) / sqrt(test.variance);
    if (count >= LEAST_POINTS_FOR_P)
        test.p = fmin(1, 2 * gsl_cdf_ugaussian_Q(fabs(test.z)));
    return test;
}

struct mann_kendall mann_kendall(const double *y, size_t count)
{
    struct arena *scratch = arena_new();
    struct mann_kendall test = mann_kendall_of(scratch, as_printed_all(scratch, y, count), count);
    arena_free(scratch);
    return test;
}

/* Sen 1968, J Am Stat Assoc 63:1379–1389: with N slopes and C = z sqrt(Var S), the limits have the ranks round((N −
 * C)/2) and round((N + C)/2) + 1, counted from 1; with too few slopes the first is below 1, and there is no interval.
 * Values that print the same have the slope 0 between them: otherwise their last bits would create a trend. */
struct slope theil_sen(const double *x, const double *y, size_t count, double confidence)
{
    if (count > SLOPE_MOST_POINTS) {
        x += count - SLOPE_MOST_POINTS;
        y += count - SLOPE_MOST_POINTS;
        count = SLOPE_MOST_POINTS;
    }
    struct arena *scratch = arena_new();
    struct pairs pairs = {x, y, as_printed_all(scratch, y, count), count};
    struct mann_kendall test = mann_kendall_of(scratch, pairs.alike, count);
    struct slope result = {count, NAN, NAN, NAN, test.p, median_of(y, count), test.s};
    size_t all = pairs_count(&pairs);
    if (all) {
        double c = gsl_cdf_ugaussian_Pinv((1 + confidence) / 2) * sqrt(test.variance), n = (double)all, slopes[4];
        double low = round((n - c) / 2) - 1, high = round((n + c) / 2); /* from 0 */
        bool enough = low >= 0 && high < n;
        size_t ranks[] = {enough ? (size_t)low : 0, (all - 1) / 2, all / 2, enough ? (size_t)high : all - 1};
        pairs_slopes_at(&pairs, ranks, 4, slopes);
        result.slope = (slopes[1] + slopes[2]) / 2;
        result.low = enough ? slopes[0] : NAN;
        result.high = enough ? slopes[3] : NAN;
    }
    arena_free(scratch);
    return result;
}

const char *slope_direction(const struct slope *slope)
{
    if (!(slope->p < DIRECTION_P))
        return "";
    return slope->s > 0 ? "up" : "down";
}
