#include "analysis/statistics/pairs.h"

#include <gsl/gsl_sort.h>
#include <gsl/gsl_statistics_double.h>

#include <math.h>
#include <stdint.h>
#include <string.h>

/* A sample tells between which two slopes the asked ones are; a visit to all pairs then counts what is below and keeps
 * what is between, a tenth of them. By hand because measured: to keep and rearrange all pairs took three times as many
 * instructions. */
#define SAMPLE 1024
#define SAMPLE_MARGIN 48       /* three standard deviations of a rank in the sample */
#define FEW_PAIRS (4 * SAMPLE) /* are not worth a sample */

#define SHORT 12 /* sorted by insertion */

static double merge(const double *left, size_t left_count, const double *right, size_t right_count, double *out)
{
    double crossed = 0;
    while (left_count && right_count) {
        if (*right < *left) {
            crossed += (double)left_count;
            *out++ = *right++;
            right_count--;
        } else {
            *out++ = *left++;
            left_count--;
        }
    }
    memcpy(out, left, left_count * sizeof *out);
    memcpy(out + left_count, right, right_count * sizeof *out);
    return crossed;
}

static double insert_each(double *values, size_t count)
{
    double crossed = 0;
    for (size_t i = 1; i < count; i++) {
        double value = values[i];
        size_t at = i;
        for (; at && values[at - 1] > value; at--)
            values[at] = values[at - 1];
        values[at] = value;
        crossed += (double)(i - at);
    }
    return crossed;
}

static double sort_by(double *values, double *room, size_t count)
{
    size_t half = count / 2;
    if (count <= SHORT)
        return insert_each(values, count);
    double crossed = sort_by(values, room, half) + sort_by(values + half, room, count - half);
    memcpy(room, values, count * sizeof *values);
    return crossed + merge(room, half, room + half, count - half, values);
}

double sort_counting(struct arena *scratch, double *values, size_t count)
{
    return sort_by(values, arena_room(scratch, count * sizeof *values), count);
}

/* The first point after `i` whose x is another. */
static size_t next_x(const struct pairs *pairs, size_t i)
{
    size_t j = i + 1;
    while (j < pairs->points && !(pairs->x[j] > pairs->x[i]))
        j++;
    return j;
}

size_t pairs_count(const struct pairs *pairs)
{
    size_t count = 0;
    for (size_t i = 0; i < pairs->points; i++)
        count += pairs->points - next_x(pairs, i);
    return count;
}

struct point
{
    double x, y, alike;
};

static struct point point_at(const struct pairs *pairs, size_t i)
{
    return (struct point){pairs->x[i], pairs->y[i], pairs->alike[i]};
}

static double slope_between(struct point a, struct point b)
{
    double slope = (b.y - a.y) / (b.x - a.x);
    return b.alike == a.alike ? 0 : slope;
}

struct between /* the slopes from `low` to `high` */
{
    double low, high;
    size_t below; /* slopes less than low */
    double *slopes;
    size_t count;
};

static void collect(const struct pairs *pairs, struct between *between)
{
    const struct pairs series = *pairs; /* which no slope that is kept can change */
    double low = between->low, high = between->high, *slopes = between->slopes;
    size_t below = 0, count = 0;
    for (size_t i = 0; i < series.points; i++) {
        struct point from = point_at(&series, i);
        for (size_t j = next_x(&series, i); j < series.points; j++) {
            double slope = slope_between(from, point_at(&series, j));
            slopes[count] = slope; /* written over by the next one unless it counts: no branch that guesses wrong */
            count += slope >= low && slope <= high;
            below += slope < low;
        }
    }
    between->below = below;
    between->count = count;
}

/* Slopes of pairs at odd distances, so that no period of the series meets one of ours; always the same ones. */
static size_t take_sample(const struct pairs *pairs, size_t pair_count, double sample[2 * SAMPLE])
{
    size_t taken = 0, step = pair_count / SAMPLE;
    uint32_t state = 1;
    for (size_t i = 0, skip = 0; i < pairs->points; i++) {
        size_t j = next_x(pairs, i) + skip;
        while (j < pairs->points && taken < 2 * (size_t)SAMPLE) {
            sample[taken++] = slope_between(point_at(pairs, i), point_at(pairs, j));
            state = state * 1664525U + 1013904223U;
            j += 1 + (state >> 8) % (2 * step - 1);
        }
        skip = j > pairs->points ? j - pairs->points : 0;
    }
    return taken;
}

static struct between bracket(const struct pairs *pairs, size_t pair_count, size_t first, size_t last, size_t margin)
{
    struct between between = {.low = -(double)INFINITY, .high = (double)INFINITY};
    double sample[2 * SAMPLE];
    if (pair_count < FEW_PAIRS)
        return between;
    size_t taken = take_sample(pairs, pair_count, sample);
    gsl_sort(sample, 1, taken);
    size_t low = (size_t)((double)first / (double)pair_count * (double)taken);
    size_t high = (size_t)((double)last / (double)pair_count * (double)taken);
    if (low >= margin)
        between.low = sample[low - margin];
    if (high + margin < taken)
        between.high = sample[high + margin];
    return between;
}

void pairs_slopes_near(const struct pairs *pairs, const size_t *ranks, size_t count, size_t margin, double *slopes)
{
    size_t pair_count = pairs_count(pairs);
    struct arena *scratch = arena_new();
    struct between between = bracket(pairs, pair_count, ranks[0], ranks[count - 1], margin);
    between.slopes = arena_room(scratch, (pair_count + 1) * sizeof *between.slopes);
    collect(pairs, &between);
    if (ranks[0] < between.below || ranks[count - 1] >= between.below + between.count) {
        between.low = -(double)INFINITY;
        between.high = (double)INFINITY;
        collect(pairs, &between);
    }
    size_t past = 0; /* left of the slope found last, all are less or equal */
    for (size_t i = 0; i < count; i++) {
        size_t at = ranks[i] - between.below;
        slopes[i] = gsl_stats_select(between.slopes + past, 1, between.count - past, at - past);
        past = at;
    }
    arena_free(scratch);
}

void pairs_slopes_at(const struct pairs *pairs, const size_t *ranks, size_t count, double *slopes)
{
    pairs_slopes_near(pairs, ranks, count, SAMPLE_MARGIN, slopes);
}
