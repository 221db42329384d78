#include "analysis/statistics/seasonal.h"

#include "analysis/statistics/statistics.h"
#include "base/arena.h"

#include <gsl/gsl_cdf.h>

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

struct season /* points[0 .. count), by time */
{
    const struct seasonal_point *points;
    size_t count;
};

struct shared /* the values of two seasons at the times that both have */
{
    double *left, *right;
    size_t count;
};

static int sign(double value)
{
    return (value > 0) - (value < 0);
}

static int by_season_and_time(const void *a, const void *b)
{
    const struct seasonal_point *left = a, *right = b;
    if (left->season != right->season)
        return left->season < right->season ? -1 : 1;
    return (left->time > right->time) - (left->time < right->time);
}

static int newest_first(const void *a, const void *b)
{
    const struct seasonal_point *left = a, *right = b;
    if (left->time != right->time)
        return left->time < right->time ? 1 : -1;
    return (left->season > right->season) - (left->season < right->season);
}

static int rising(const void *a, const void *b)
{
    const double *left = a, *right = b;
    return (*left > *right) - (*left < *right);
}

/* The points with known values, rounded as printed, by season and time. */
static struct seasonal_point *known_points(struct arena *arena, const struct seasonal_point *points, size_t *count)
{
    struct seasonal_point *known = ARENA_ARRAY(arena, struct seasonal_point, *count);
    size_t kept = 0;
    for (size_t i = 0; i < *count; i++) {
        if (isnan(points[i].value))
            continue;
        known[kept] = points[i];
        known[kept++].value = as_printed(points[i].value);
    }
    if (kept > SEASONAL_MOST_POINTS) {
        qsort(known, kept, sizeof *known, newest_first);
        kept = SEASONAL_MOST_POINTS;
    }
    qsort(known, kept, sizeof *known, by_season_and_time);
    *count = kept;
    return known;
}

/* Seasons with one known point are dropped: there is nothing to compare. */
static struct season *split(struct arena *arena, const struct seasonal_point *all, size_t count, size_t *season_count)
{
    const struct seasonal_point *points = known_points(arena, all, &count);
    struct season *seasons = ARENA_ARRAY(arena, struct season, count);
    *season_count = 0;
    for (size_t start = 0, end; start < count; start = end) {
        for (end = start; end < count && points[end].season == points[start].season; end++)
            ;
        if (end - start > 1)
            seasons[(*season_count)++] = (struct season){&points[start], end - start};
    }
    return seasons;
}

static double season_variance(struct arena *scratch, const struct season *season)
{
    double *values = ARENA_ARRAY(scratch, double, season->count);
    for (size_t i = 0; i < season->count; i++)
        values[i] = season->points[i].value;
    return mann_kendall(values, season->count).variance;
}

static struct shared shared_times(struct arena *scratch, const struct season *a, const struct season *b)
{
    struct shared shared = {ARENA_ARRAY(scratch, double, a->count), ARENA_ARRAY(scratch, double, a->count), 0};
    for (size_t i = 0, j = 0; i < a->count && j < b->count;) {
        double left = a->points[i].time, right = b->points[j].time;
        if (left == right) {
            shared.left[shared.count] = a->points[i].value;
            shared.right[shared.count++] = b->points[j].value;
        }
        i += left <= right;
        j += right <= left;
    }
    return shared;
}

/* Ties share the mean of the ranks that they occupy. */
static double rank_of(const double *values, size_t count, size_t i)
{
    double rank = (double)(count + 1);
    for (size_t j = 0; j < count; j++)
        rank += sign(values[i] - values[j]);
    return rank / 2;
}

static double covariance(struct arena *scratch, const struct season *a, const struct season *b)
{
    struct shared shared = shared_times(scratch, a, b);
    double n = (double)shared.count, k = 0, products = 0;
    if (shared.count < SEASONAL_LEAST_SHARED)
        return 0;
    for (size_t i = 0; i < shared.count; i++) {
        for (size_t j = i + 1; j < shared.count; j++)
            k += sign((shared.left[j] - shared.left[i]) * (shared.right[j] - shared.right[i]));
        products += rank_of(shared.left, shared.count, i) * rank_of(shared.right, shared.count, i);
    }
    return (k + 4 * products - n * (n + 1) * (n + 1)) / 3;
}

static double variance_of(const struct season *seasons, size_t count)
{
    struct arena *scratch = arena_new();
    double alone = 0, together = 0;
    for (size_t i = 0; i < count; i++) {
        alone += season_variance(scratch, &seasons[i]);
        for (size_t j = i + 1; j < count; j++)
            together += 2 * covariance(scratch, &seasons[i], &seasons[j]);
        arena_reset(scratch);
    }
    arena_free(scratch);
    return fmax(alone + together, alone / 2);
}

/* Fills `slopes` with those of all pairs, in rising order; returns S. */
static double compare_pairs(const struct season *seasons, size_t count, double *slopes)
{
    double s = 0;
    size_t pairs = 0;
    for (size_t g = 0; g < count; g++)
        for (size_t i = 0; i < seasons[g].count; i++)
            for (size_t j = i + 1; j < seasons[g].count; j++) {
                const struct seasonal_point *from = &seasons[g].points[i], *to = &seasons[g].points[j];
                s += sign(to->value - from->value);
                slopes[pairs++] = (to->value - from->value) / (to->time - from->time);
            }
    qsort(slopes, pairs, sizeof *slopes, rising);
    return s;
}

/* --- the exact distribution of S over all orders of whole waves --------------------------------------------------- */

static size_t distinct_times(const struct season *seasons, size_t count, double times[SEASONAL_MOST_EXACT])
{
    size_t found = 0;
    for (size_t g = 0; g < count; g++)
        for (size_t i = 0; i < seasons[g].count; i++) {
            size_t known = 0;
            while (known < found && times[known] != seasons[g].points[i].time)
                known++;
            if (known < found)
                continue;
            if (found == SEASONAL_MOST_EXACT)
                return found + 1;
            times[found++] = seasons[g].points[i].time;
        }
    return found;
}

static size_t index_of(const double *times, double time)
{
    size_t i = 0;
    while (times[i] != time)
        i++;
    return i;
}

/* signs[i][j]: added to S if wave i comes before wave j. */
static void sum_signs(const struct season *season, const double *times,
                      int signs[SEASONAL_MOST_EXACT][SEASONAL_MOST_EXACT])
{
    for (size_t i = 0; i < season->count; i++)
        for (size_t j = i + 1; j < season->count; j++) {
            size_t a = index_of(times, season->points[i].time), b = index_of(times, season->points[j].time);
            int over = sign(season->points[j].value - season->points[i].value);
            signs[a][b] += over;
            signs[b][a] -= over;
        }
}

struct orders /* of the waves of each set of waves, counted by their S: 8 waves have 40,320 orders, but only 256 sets */
{
    uint32_t *of_set; /* [set][S + most] */
    int *reach;       /* [set]: the largest |S| that is possible */
    size_t width, most;
};

/* Extends the orders of the waves in `before` by wave `next`, which comes last. */
static void add_wave(const struct orders *orders, unsigned before, size_t next,
                     const int signs[SEASONAL_MOST_EXACT][SEASONAL_MOST_EXACT])
{
    unsigned after = before | 1u << next;
    int gain = 0, more = 0;
    for (size_t i = 0; i < SEASONAL_MOST_EXACT; i++)
        if (before & 1u << i) {
            gain += signs[i][next];
            more += abs(signs[i][next]);
        }
    orders->reach[after] = orders->reach[before] + more;
    const uint32_t *from = orders->of_set + before * orders->width + orders->most;
    uint32_t *to = orders->of_set + after * orders->width + orders->most;
    for (int s = -orders->reach[before]; s <= orders->reach[before]; s++)
        to[s + gain] += from[s];
}

/* The share of all orders with an |S| at least as large; NAN: too few or too many waves for it. An order and its
 * reverse have the same |S|, so those in which wave 0 comes before wave 1 are enough. */
static double exact_p(const struct seasonal *result, const struct season *seasons, size_t count)
{
    double times[SEASONAL_MOST_EXACT], as_far = 0, in_all = 0;
    int signs[SEASONAL_MOST_EXACT][SEASONAL_MOST_EXACT] = {{0}};
    size_t waves = distinct_times(seasons, count, times);
    if (waves < SEASONAL_LEAST_SHARED || waves > SEASONAL_MOST_EXACT)
        return NAN;
    for (size_t g = 0; g < count; g++)
        sum_signs(&seasons[g], times, signs);
    struct arena *scratch = arena_new();
    unsigned all = (1u << waves) - 1;
    struct orders orders = {.width = 2 * result->pairs + 1, .most = result->pairs};
    orders.of_set = ARENA_ARRAY(scratch, uint32_t, (all + 1) * orders.width);
    orders.reach = ARENA_ARRAY(scratch, int, all + 1);
    orders.of_set[orders.most] = 1;
    for (unsigned before = 0; before < all; before++)
        for (size_t next = 0; next < waves && (before & 3) != 2; next++)
            if (!(before & 1u << next) && (next != 1 || before & 1))
                add_wave(&orders, before, next, signs);
    for (size_t i = 0; i < orders.width; i++) {
        double n = orders.of_set[all * orders.width + i];
        in_all += n;
        as_far += fabs((double)i - (double)orders.most) >= fabs(result->s) ? n : 0;
    }
    arena_free(scratch);
    return as_far / in_all;
}

static double normal_p(const struct seasonal *result)
{
    double z = fmax(fabs(result->s) - 1, 0) / sqrt(result->variance);
    return fmin(1, 2 * gsl_cdf_ugaussian_Q(z));
}

static double at_rank(const double *slopes, size_t pairs, double rank)
{
    double last = (double)pairs - 1;
    return slopes[(size_t)(rank < 0 ? 0 : rank > last ? last : rank)];
}

/* Counts the seasons' points and pairs, S and the slope; `slopes`: those of all pairs, rising. */
static struct seasonal compare(struct arena *scratch, const struct season *seasons, size_t count, double **slopes)
{
    struct seasonal result = {0, 0, 0, 0, NAN, NAN, NAN, NAN};
    for (size_t i = 0; i < count; i++) {
        result.points += seasons[i].count;
        result.pairs += seasons[i].count * (seasons[i].count - 1) / 2;
    }
    *slopes = ARENA_ARRAY(scratch, double, result.pairs);
    if (result.pairs) {
        result.s = compare_pairs(seasons, count, *slopes);
        result.slope = ((*slopes)[(result.pairs - 1) / 2] + (*slopes)[result.pairs / 2]) / 2;
    }
    return result;
}

/* Adds the variance, the interval and p. */
static void test(struct seasonal *result, const struct season *seasons, size_t count, const double *slopes,
                 double confidence)
{
    result->variance = variance_of(seasons, count);
    double n = (double)result->pairs, c = gsl_cdf_ugaussian_Pinv((1 + confidence) / 2) * sqrt(result->variance);
    result->low = at_rank(slopes, result->pairs, round((n - c) / 2) - 1);
    result->high = at_rank(slopes, result->pairs, round((n + c) / 2));
    if (result->variance > 0) {
        double exact = exact_p(result, seasons, count);
        result->p = isnan(exact) ? normal_p(result) : exact;
    }
}

struct seasonal seasonal_kendall(const struct seasonal_point *points, size_t count, double confidence)
{
    struct arena *scratch = arena_new();
    size_t season_count;
    const struct season *seasons = split(scratch, points, count, &season_count);
    double *slopes;
    struct seasonal result = compare(scratch, seasons, season_count, &slopes);
    if (result.pairs)
        test(&result, seasons, season_count, slopes, confidence);
    arena_free(scratch);
    return result;
}

double seasonal_slope(const struct seasonal_point *points, size_t count)
{
    struct arena *scratch = arena_new();
    size_t season_count;
    const struct season *seasons = split(scratch, points, count, &season_count);
    double *slopes;
    double slope = compare(scratch, seasons, season_count, &slopes).slope;
    arena_free(scratch);
    return slope;
}
