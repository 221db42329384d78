#include "reading/measurements/measured_bands.h"

#include "base/names.h"
#include "base/number.h"
#include "base/text.h"
#include "model/band.h"
#include "reading/measurements/measurements.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

struct series /* readings of one band, side, day and way */
{
    uint32_t label; /* its number, in the order first named */
    bool down;      /* of the band let go */
    const struct pull_reading *first;
    LIST(struct pull_reading) readings;
};

struct grouping
{
    struct arena *arena, *own;
    const struct measurement_options *options;
    struct diags *diags;
    struct names *labels;
    struct map *found;
    LIST(struct series *) all;
};

static const char *fixed(struct arena *arena, double value, int decimals)
{
    char buffer[64];
    number_fixed(buffer, sizeof buffer, value, decimals);
    return arena_copy(arena, buffer);
}

static const char *kg_text(struct arena *arena, double kg)
{
    return arena_printf(arena, "%s kg", fixed(arena, kg, 2));
}

static const char *m_text(struct arena *arena, double m)
{
    return arena_printf(arena, "%s m", fixed(arena, m, 3));
}

/* --- what belongs together --------------------------------------------------------------------------------------- */

static struct series *series_of(struct grouping *grouping, const struct pull_reading *reading)
{
    const char *folded = text_fold(grouping->own, reading->label);
    uint32_t label = names_add(grouping->labels, folded, strlen(folded));
    bool down = reading->way == WAY_DOWN;
    const char *key = arena_printf(grouping->own, "%u %d %d %d", label, (int)reading->side, (int)reading->day, down);
    struct series *series = map_get(grouping->found, key, strlen(key));
    if (!series) {
        series = ARENA_NEW(grouping->own, struct series);
        series->label = label;
        series->down = down;
        series->first = reading;
        map_put(grouping->found, key, strlen(key), series);
        *LIST_ADD(grouping->own, &grouping->all) = series;
    }
    return series;
}

static int by_label_day_side_way(const void *left, const void *right)
{
    const struct series *a = *(struct series *const *)left, *b = *(struct series *const *)right;
    if (a->label != b->label)
        return a->label < b->label ? -1 : 1;
    if (a->first->day != b->first->day)
        return a->first->day < b->first->day ? -1 : 1;
    if (a->first->side != b->first->side)
        return a->first->side < b->first->side ? -1 : 1;
    return a->down - b->down;
}

static int by_place(const struct place *a, const struct place *b)
{
    if (a->line != b->line)
        return a->line < b->line ? -1 : 1;
    return (a->column > b->column) - (a->column < b->column);
}

static int by_length(const void *left, const void *right)
{
    const struct pull_reading *a = left, *b = right;
    if (a->length_m < b->length_m || a->length_m > b->length_m)
        return a->length_m < b->length_m ? -1 : 1;
    return by_place(&a->at, &b->at);
}

/* --- the flat length --------------------------------------------------------------------------------------------- */

struct flat
{
    double first_m, sum_m;
    size_t count;
    struct place at;
};

/* False: it contradicts the first one, which was reported. */
static bool add_flat(struct grouping *grouping, struct flat *flat, double flat_m, const struct pull_reading *reading)
{
    if (!flat->count) {
        *flat = (struct flat){flat_m, flat_m, 1, reading->at};
        return true;
    }
    flat->sum_m += flat_m;
    flat->count++;
    if (fabs(flat_m - flat->first_m) <= SAME_FLAT * flat->first_m)
        return true;
    diag_add(
        grouping->diags, DIAG_CONTRADICTION, reading->at, reading->excerpt,
        "keep the right one, the length of the loop laid flat; a slack band pulls nothing at shorter lengths either",
        "band '%s' is %s long when flat, and %s by line %u: the band is left out", reading->label,
        m_text(grouping->own, flat_m), m_text(grouping->own, flat->first_m), flat->at.line);
    return false;
}

/* From lines with pull 0 and from the column; if there is neither, from the user. */
static bool find_flat(struct grouping *grouping, const struct series *series, double *flat_m)
{
    struct flat flat = {0};
    for (size_t i = 0; i < series->readings.count; i++) {
        const struct pull_reading *reading = &series->readings.items[i];
        if (!isnan(reading->flat_m) && !add_flat(grouping, &flat, reading->flat_m, reading))
            return false;
        if (!(reading->pull_kg > 0) && !reading->is_extension && !add_flat(grouping, &flat, reading->length_m, reading))
            return false;
    }
    *flat_m = flat.count ? flat.sum_m / (double)flat.count : grouping->options->flat_m;
    if (!isnan(*flat_m))
        return true;
    diag_add(grouping->diags, DIAG_NO_FLAT_LENGTH, series->first->at, series->first->excerpt, NULL,
             "band '%s' has no flat length: it is left out", series->first->label);
    return false;
}

/* --- from readings to points ------------------------------------------------------------------------------------- */

/* Keeps lengths that stretch the band, in rising order; the others are reported and dropped. */
static void keep_stretched(struct grouping *grouping, struct series *series, double flat_m)
{
    struct pull_reading *items = series->readings.items;
    size_t kept = 0;
    for (size_t i = 0; i < series->readings.count; i++) {
        struct pull_reading reading = items[i];
        if (reading.is_extension)
            reading.length_m += flat_m;
        bool slack = !(reading.pull_kg > 0);
        if (slack && (!series->down || reading.length_m <= flat_m + SAME_LENGTH_M))
            continue; /* it has told the flat length; let go, a band is slack before it is as short as that */
        if (reading.length_m > flat_m + SAME_LENGTH_M)
            items[kept++] = reading;
        else
            diag_add(grouping->diags, DIAG_BELOW_FLAT, reading.at, reading.excerpt, NULL,
                     "%s at %s, which is not longer than the band laid flat, %s: the line is left out",
                     kg_text(grouping->own, reading.pull_kg), m_text(grouping->own, reading.length_m),
                     m_text(grouping->own, flat_m));
    }
    series->readings.count = kept;
    if (kept)
        qsort(items, kept, sizeof *items, by_length);
}

/* False: the readings at this length differ beyond repeatability, which was reported. */
static bool take_point(struct grouping *grouping, const struct pull_reading *readings, size_t count,
                       struct measured_point *point)
{
    const struct pull_reading *least = readings, *most = readings;
    double lengths = 0, pulls = 0;
    for (size_t i = 0; i < count; i++) {
        lengths += readings[i].length_m;
        pulls += readings[i].pull_kg;
        least = readings[i].pull_kg < least->pull_kg ? &readings[i] : least;
        most = readings[i].pull_kg > most->pull_kg ? &readings[i] : most;
    }
    double n = (double)count, spread = most->pull_kg - least->pull_kg;
    *point = (struct measured_point){lengths / n, pulls / n, spread, count, readings->at, readings->excerpt};
    if (spread <= fmax(REPEATABILITY * pulls / n, SCALE_STEP_KG))
        return true;
    const struct pull_reading *later = by_place(&least->at, &most->at) > 0 ? least : most,
                              *earlier = later == least ? most : least;
    diag_add(grouping->diags, DIAG_REPEATS_DIFFER, later->at, later->excerpt, NULL,
             "%s at %s, where line %u has %s: repeated readings do not differ that much, so this length is left out",
             kg_text(grouping->own, later->pull_kg), m_text(grouping->own, later->length_m), earlier->at.line,
             kg_text(grouping->own, earlier->pull_kg));
    return false;
}

/* Index one past the readings at the same length as the first. */
static size_t same_length_end(const struct series *series, size_t first)
{
    size_t end = first + 1;
    while (end < series->readings.count &&
           series->readings.items[end].length_m - series->readings.items[first].length_m < SAME_LENGTH_M)
        end++;
    return end;
}

/* Marks the largest number of points whose pulls never fall: a longest non-decreasing subsequence, the first if
 * tied. */
static void mark_rising(struct arena *own, const struct measured_point *points, size_t count, bool *rises)
{
    size_t *length = ARENA_ARRAY(own, size_t, count), *before = ARENA_ARRAY(own, size_t, count), best = 0;
    for (size_t i = 0; i < count; i++) {
        length[i] = 1;
        before[i] = i;
        for (size_t k = 0; k < i; k++) {
            if (points[k].pull_kg <= points[i].pull_kg && length[k] + 1 > length[i]) {
                length[i] = length[k] + 1;
                before[i] = k;
            }
        }
        best = length[i] > length[best] ? i : best;
    }
    for (size_t i = best;; i = before[i]) {
        rises[i] = true;
        if (before[i] == i)
            break;
    }
}

/* The neighbour among the rising points that contradicts a point left out. */
static const struct measured_point *contradicted(const struct measured_point *points, size_t count, const bool *rises,
                                                 size_t at)
{
    for (size_t i = at; i-- > 0;)
        if (rises[i] && points[i].pull_kg > points[at].pull_kg)
            return &points[i];
    for (size_t i = at + 1; i < count; i++)
        if (rises[i] && points[i].pull_kg < points[at].pull_kg)
            return &points[i];
    return &points[at];
}

static size_t keep_rising(struct grouping *grouping, struct measured_point *points, size_t count)
{
    size_t kept = 0;
    bool *rises = ARENA_ARRAY(grouping->own, bool, count + 1);
    struct measured_point *all = ARENA_ARRAY(grouping->own, struct measured_point, count + 1);
    if (!count)
        return 0;
    memcpy(all, points, count * sizeof *points);
    mark_rising(grouping->own, all, count, rises);
    for (size_t i = 0; i < count; i++) {
        if (rises[i]) {
            points[kept++] = all[i];
            continue;
        }
        const struct measured_point *other = contradicted(all, count, rises, i);
        diag_add(grouping->diags, DIAG_PULL_FALLS, all[i].at, all[i].excerpt, NULL,
                 "%s at %s, but %s at %s in line %u: a band pulls more the longer it is, so this length is left out",
                 kg_text(grouping->own, all[i].pull_kg), m_text(grouping->own, all[i].length_m),
                 kg_text(grouping->own, other->pull_kg), m_text(grouping->own, other->length_m), other->at.line);
    }
    return kept;
}

/* --- bands ------------------------------------------------------------------------------------------------------- */

static bool few_enough(struct grouping *grouping, const struct series *series, size_t count)
{
    if (count < MOST_LENGTHS)
        return true;
    diag_add(grouping->diags, DIAG_LIMIT_REACHED, series->first->at, NULL, NULL,
             "band '%s' has more than %d lengths: it is left out", series->first->label, MOST_LENGTHS);
    return false;
}

static bool take_points(struct grouping *grouping, const struct series *series, struct measured_band *band)
{
    LIST(struct measured_point) points = {0};
    for (size_t i = 0, end; i < series->readings.count; i = end) {
        struct measured_point point;
        end = same_length_end(series, i);
        if (!take_point(grouping, &series->readings.items[i], end - i, &point))
            continue;
        if (!few_enough(grouping, series, points.count))
            return false;
        *LIST_ADD(grouping->arena, &points) = point;
    }
    band->points = points.items;
    band->count = keep_rising(grouping, points.items, points.count);
    for (size_t i = 0; i < band->count; i++)
        band->readings += band->points[i].readings;
    return true;
}

static bool make_band(struct grouping *grouping, struct series *series, struct measured_band *band)
{
    const struct pull_reading *first = series->first;
    *band = (struct measured_band){
        .label = first->label, .side = first->side, .way = first->way, .day = first->day, .at = first->at};
    if (!find_flat(grouping, series, &band->flat_m))
        return false;
    keep_stretched(grouping, series, band->flat_m);
    if (!take_points(grouping, series, band))
        return false;
    if (!band->count)
        diag_add(grouping->diags, DIAG_NO_POINTS, first->at, first->excerpt, NULL,
                 "band '%s' has no length with a pull: it is left out", band->label);
    if (band->count == 1)
        diag_add(grouping->diags, DIAG_ONE_POINT, first->at, first->excerpt, NULL,
                 "band '%s' was measured at one length only, %s: its pull at all other lengths is a guess, by the "
                 "neo-Hookean law",
                 band->label, m_text(grouping->own, band->points[0].length_m));
    return band->count > 0;
}

/* --- let go ------------------------------------------------------------------------------------------------------ */

/* The band that these readings are of, stretched: the one before, if any. */
static struct measured_band *stretched_of(const struct series *series, const struct measured_bands *bands)
{
    struct measured_band *band = bands->list.count ? &bands->list.items[bands->list.count - 1] : NULL;
    const struct pull_reading *first = series->first;
    return band && band->side == first->side && band->day == first->day && text_same_name(band->label, first->label)
               ? band
               : NULL;
}

static bool same_flat(struct grouping *grouping, const struct series *series, const struct measured_band *band)
{
    struct flat flat = {band->flat_m, band->flat_m, 1, band->at};
    for (size_t i = 0; i < series->readings.count; i++) {
        const struct pull_reading *reading = &series->readings.items[i];
        if (!isnan(reading->flat_m) && !add_flat(grouping, &flat, reading->flat_m, reading))
            return false;
    }
    return true;
}

static const struct band_curve *curve_of(struct arena *arena, const struct measured_band *band)
{
    struct calibration calibration = {.flat_m = band->flat_m,
                                      .points = ARENA_ARRAY(arena, struct tension_point, band->count),
                                      .point_count = band->count,
                                      .c1_kg = NAN,
                                      .c2_kg = NAN,
                                      .range_low_m = NAN,
                                      .range_high_m = NAN};
    for (size_t i = 0; i < band->count; i++)
        calibration.points[i] = (struct tension_point){band->points[i].length_m, band->points[i].pull_kg};
    return band_curve_new(arena, &calibration);
}

/* A band let go pulls less than stretched to the same length: points that do not are said and go. */
static void keep_below(struct grouping *grouping, const struct measured_band *stretched, struct measured_band *down)
{
    const struct band_curve *curve = curve_of(grouping->own, stretched);
    size_t kept = 0;
    for (size_t i = 0; i < down->count; i++) {
        struct measured_point point = down->points[i];
        struct tension_point at = {point.length_m, point.pull_kg};
        if (!curve || !band_pulls_more_let_go(curve, &at)) {
            down->points[kept++] = point;
            continue;
        }
        down->readings -= point.readings;
        diag_add(grouping->diags, DIAG_CONTRADICTION, point.at, point.excerpt,
                 "write up where the band was being stretched, down where it was let go: are they swapped?",
                 "%s at %s on the way down, more than the %s on the way up: this length is left out",
                 kg_text(grouping->own, point.pull_kg), m_text(grouping->own, point.length_m),
                 kg_text(grouping->own, band_pull_kg(curve, point.length_m)));
    }
    down->count = kept;
}

static void add_down(struct grouping *grouping, struct series *series, const struct measured_bands *bands)
{
    const struct pull_reading *first = series->first;
    struct measured_band *stretched = stretched_of(series, bands);
    if (!stretched) {
        diag_add(grouping->diags, DIAG_NO_POINTS, first->at, first->excerpt,
                 "measure it while it is stretched, too: way = up",
                 "band '%s' was measured on the way down only: it is left out", first->label);
        return;
    }
    struct measured_band *down = ARENA_NEW(grouping->arena, struct measured_band);
    *down = *stretched;
    down->way = WAY_DOWN;
    down->at = first->at;
    down->readings = down->count = 0;
    if (!same_flat(grouping, series, stretched))
        return;
    keep_stretched(grouping, series, stretched->flat_m);
    if (!take_points(grouping, series, down))
        return;
    keep_below(grouping, stretched, down);
    stretched->down = down->count ? down : NULL;
}

struct measured_bands measured_bands_make(struct arena *arena, const struct pull_readings *readings,
                                          const struct measurement_options *options, struct diags *diags)
{
    struct grouping grouping = {.arena = arena, .own = arena_new(), .options = options, .diags = diags};
    struct measured_bands bands = {0};
    struct measured_band band;
    grouping.labels = names_new(grouping.own);
    grouping.found = map_new(grouping.own);
    for (size_t i = 0; i < readings->list.count; i++)
        *LIST_ADD(grouping.own, &series_of(&grouping, &readings->list.items[i])->readings) = readings->list.items[i];
    if (grouping.all.count)
        qsort(grouping.all.items, grouping.all.count, sizeof *grouping.all.items, by_label_day_side_way);
    for (size_t i = 0; i < grouping.all.count; i++)
        if (grouping.all.items[i]->down)
            add_down(&grouping, grouping.all.items[i], &bands);
        else if (make_band(&grouping, grouping.all.items[i], &band))
            *LIST_ADD(arena, &bands.list) = band;
    arena_free(grouping.own);
    return bands;
}
