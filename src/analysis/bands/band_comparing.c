#include "analysis/bands/band_comparing.h"

#include "analysis/bands/band_fitting.h"
#include "base/text.h"

#include <math.h>
#include <stdlib.h>

#define PARTS 400 /* of the common range, for means by the trapezium rule; the curves are cubics between points */

void pulls_apart_see(struct pulls_apart *apart, double at_m, double left_kg, double right_kg)
{
    double mean_kg = (left_kg + right_kg) / 2, kg = left_kg - right_kg;
    if (!(mean_kg > 0) || (!isnan(apart->share) && fabs(kg) <= fabs(apart->kg)))
        return;
    *apart = (struct pulls_apart){kg, kg / mean_kg, at_m};
}

struct pulls_apart curves_apart(const struct band_curve *left, const struct band_curve *right, double low_m,
                                double high_m)
{
    struct pulls_apart apart = NO_PULLS_APART;
    for (int i = 0; i <= PARTS && low_m < high_m; i++) {
        double length_m = low_m + (high_m - low_m) * i / PARTS;
        pulls_apart_see(&apart, length_m, band_pull_kg(left, length_m), band_pull_kg(right, length_m));
    }
    return apart;
}

static double difference_kg(const struct band_comparison *comparison, double length_m)
{
    return band_pull_kg(comparison->a->curve, length_m) - band_pull_kg(comparison->b->curve, length_m);
}

/* The denominator of the share: the mean of a pair, the older of two. */
static double whole_kg(const struct band_comparison *comparison, double length_m)
{
    double a = band_pull_kg(comparison->a->curve, length_m), b = band_pull_kg(comparison->b->curve, length_m);
    return comparison->kind == LEFT_BESIDE_RIGHT ? (a + b) / 2 : b;
}

static void measure_difference(struct band_comparison *comparison)
{
    double sum = 0, sizes = 0, wholes = 0, weights = 0;
    for (int i = 0; i <= PARTS; i++) {
        double length = comparison->low_m + (comparison->high_m - comparison->low_m) * i / PARTS;
        double difference = difference_kg(comparison, length), weight = i == 0 || i == PARTS ? 0.5 : 1;
        sum += weight * difference;
        sizes += weight * fabs(difference);
        wholes += weight * whole_kg(comparison, length);
        weights += weight;
        if (i == 0 || fabs(difference) > fabs(comparison->worst_kg)) {
            comparison->worst_kg = difference;
            comparison->worst_m = length;
        }
    }
    comparison->mean_kg = sum / weights;
    comparison->share = copysign(sizes / wholes, sum);
    comparison->worst_share = comparison->worst_kg / whole_kg(comparison, comparison->worst_m);
    comparison->differs = fabs(comparison->kind == LEFT_BESIDE_RIGHT ? comparison->worst_share : comparison->share) >
                          BANDS_DIFFER;
}

struct band_comparison band_compare(enum comparison_kind kind, const struct band_fitting *a,
                                    const struct band_fitting *b)
{
    struct band_comparison comparison = {.kind = kind, .a = a, .b = b, .mean_kg = NAN, .share = NAN};
    comparison.worst_kg = comparison.worst_share = comparison.worst_m = NAN;
    comparison.low_m = fmax(a->calibration.range_low_m, b->calibration.range_low_m);
    comparison.high_m = fmin(a->calibration.range_high_m, b->calibration.range_high_m);
    if (comparison.low_m < comparison.high_m)
        measure_difference(&comparison);
    else
        comparison.low_m = comparison.high_m = NAN;
    return comparison;
}

static bool same_label(const struct band_fitting *a, const struct band_fitting *b)
{
    return text_same_name(a->measured->label, b->measured->label);
}

bool band_is_newest(const struct band_fittings *fittings, size_t at)
{
    const struct band_fitting *fitting = &fittings->list.items[at];
    for (size_t i = at + 1; i < fittings->list.count && same_label(fitting, &fittings->list.items[i]); i++)
        if (fittings->list.items[i].measured->side == fitting->measured->side)
            return false;
    return true;
}

/* Fittings are sorted by label, day, side. */
static const struct band_fitting *other_side_same_day(const struct band_fittings *fittings, size_t at)
{
    const struct band_fitting *all = fittings->list.items, *own = &all[at];
    size_t other = own->measured->side == SIDE_LEFT ? at + 1 : at - 1;
    if (own->measured->side == SIDE_UNSAID || other >= fittings->list.count || !same_label(own, &all[other]) ||
        all[other].measured->day != own->measured->day || all[other].measured->side == SIDE_UNSAID)
        return NULL;
    return &all[other];
}

/* The right band that a left one is compared with. */
static const struct band_fitting *partner(const struct band_fittings *fittings, size_t left)
{
    const struct band_fitting *same_day = other_side_same_day(fittings, left);
    if (same_day || !band_is_newest(fittings, left))
        return same_day;
    size_t first = left;
    while (first > 0 && same_label(&fittings->list.items[first - 1], &fittings->list.items[left]))
        first--;
    for (size_t i = first;
         i < fittings->list.count && same_label(&fittings->list.items[i], &fittings->list.items[left]); i++)
        if (fittings->list.items[i].measured->side == SIDE_RIGHT && band_is_newest(fittings, i) &&
            !other_side_same_day(fittings, i))
            return &fittings->list.items[i];
    return NULL;
}

static void add_pairs(struct arena *arena, const struct band_fittings *fittings, struct band_comparisons *comparisons)
{
    for (size_t i = 0; i < fittings->list.count; i++) {
        const struct band_fitting *left = &fittings->list.items[i];
        const struct band_fitting *right = left->measured->side == SIDE_LEFT ? partner(fittings, i) : NULL;
        if (right)
            *LIST_ADD(arena, &comparisons->list) = band_compare(LEFT_BESIDE_RIGHT, left, right);
    }
}

static void add_ages(struct arena *arena, const struct band_fittings *fittings, struct band_comparisons *comparisons)
{
    for (size_t i = 0; i < fittings->list.count; i++) {
        const struct band_fitting *newest = &fittings->list.items[i];
        if (!band_is_newest(fittings, i))
            continue;
        for (size_t k = i; k-- > 0 && same_label(newest, &fittings->list.items[k]);)
            if (fittings->list.items[k].measured->side == newest->measured->side)
                *LIST_ADD(arena, &comparisons->list) = band_compare(NEWEST_BESIDE_OLDER, newest,
                                                                    &fittings->list.items[k]);
    }
}

struct band_comparisons band_comparisons_make(struct arena *arena, const struct band_fittings *fittings)
{
    struct band_comparisons comparisons = {0};
    add_pairs(arena, fittings, &comparisons);
    add_ages(arena, fittings, &comparisons);
    return comparisons;
}

/* --- a pair as one band ------------------------------------------------------------------------------------------ */

static int by_length(const void *left, const void *right)
{
    double a = *(const double *)left, b = *(const double *)right;
    return (a > b) - (a < b);
}

static size_t add_lengths(double *lengths, size_t count, const struct measured_band *band, double low_m, double high_m)
{
    for (size_t i = 0; i < band->count; i++)
        if (band->points[i].length_m >= low_m && band->points[i].length_m <= high_m)
            lengths[count++] = band->points[i].length_m;
    return count;
}

#define APART_M 0.001 /* nearer lengths count as one */

const struct measured_band *band_pair_mean(struct arena *arena, const struct band_fitting *left,
                                           const struct band_fitting *right)
{
    const struct measured_band *a = left->measured, *b = right->measured;
    double low = fmax(left->calibration.range_low_m, right->calibration.range_low_m);
    double high = fmin(left->calibration.range_high_m, right->calibration.range_high_m);
    double *lengths = ARENA_ARRAY(arena, double, a->count + b->count);
    size_t count = add_lengths(lengths, add_lengths(lengths, 0, a, low, high), b, low, high);
    if (!count)
        return NULL;
    qsort(lengths, count, sizeof *lengths, by_length);
    struct measured_band *mean = ARENA_NEW(arena, struct measured_band);
    *mean = *a;
    mean->side = SIDE_UNSAID;
    mean->down = left->down && right->down ? band_pair_mean(arena, left->down, right->down) : NULL;
    mean->flat_m = (a->flat_m + b->flat_m) / 2;
    mean->readings = a->readings + b->readings;
    mean->points = ARENA_ARRAY(arena, struct measured_point, count);
    mean->count = 0;
    for (size_t i = 0; i < count; i++) {
        double pulls[] = {band_pull_kg(left->curve, lengths[i]), band_pull_kg(right->curve, lengths[i])};
        if (mean->count && lengths[i] - mean->points[mean->count - 1].length_m < APART_M)
            continue;
        mean->points[mean->count++] = (struct measured_point){.length_m = lengths[i],
                                                              .pull_kg = (pulls[0] + pulls[1]) / 2,
                                                              .spread_kg = fabs(pulls[0] - pulls[1]),
                                                              .readings = 2};
    }
    return mean;
}
