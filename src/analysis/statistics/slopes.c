#include "analysis/statistics/slopes.h"

#include "analysis/statistics/seasonal.h"

#include <math.h>
#include <string.h>

#define RECENT_WEEKS 12
#define LEAST_WAVES 4 /* with fewer there is no p */

static double volume_mean(const struct trend_week *week)
{
    return week->volume_kg[LOAD_MEAN];
}

static double intensity_mean(const struct trend_week *week)
{
    return week->intensity[LOAD_MEAN];
}

static double peak_straight(const struct trend_week *week)
{
    return week->peak_kg[LOAD_STRAIGHT];
}

static double peak_top(const struct trend_week *week)
{
    return week->peak_kg[LOAD_TOP];
}

static const struct trend_measure
{
    const char *name;
    bool in_kg, of_all_lifts, of_one_rm;
    double (*of)(const struct trend_week *week);
} trend_measures[] = {
    {"volume_mean_kg", true, true, false, volume_mean},
    {"intensity_mean", false, false, true, intensity_mean},
    {"peak_straight_kg", true, false, false, peak_straight},
    {"peak_top_kg", true, false, false, peak_top},
};

struct points
{
    double *x, *y;
    size_t count;
};

static struct points points_new(struct arena *arena, size_t most)
{
    return (struct points){ARENA_ARRAY(arena, double, most), ARENA_ARRAY(arena, double, most), 0};
}

static void add_point(struct points *points, double x, double y)
{
    if (isnan(y))
        return;
    points->x[points->count] = x;
    points->y[points->count++] = y;
}

/* Median of the points with from <= x < to; x rises. */
static double median_between(const struct points *points, double from, double to)
{
    size_t first = 0, end;
    while (first < points->count && points->x[first] < from)
        first++;
    for (end = first; end < points->count && points->x[end] < to; end++)
        ;
    return median_of(points->y + first, end - first);
}

/* A share of an estimated 1RM and one of a tested 1RM are different measures. Once a lift was tested, only the weeks
 * since then count. */
static bool is_comparable(const struct trend_measure *measure, const struct trend_week *week, bool tested)
{
    return !measure->of_one_rm || !tested || !week->on_estimate;
}

static bool any_on_test(const struct trend_week *weeks, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (!isnan(weeks[i].intensity[LOAD_MEAN]) && !weeks[i].on_estimate)
            return true;
    return false;
}

/* weeks[0 .. count) of one lift, without the current week. */
static struct trend_slope trend_slope_of(const struct trend_measure *measure, const struct trend_week *weeks,
                                         size_t count)
{
    struct arena *scratch = arena_new();
    struct points points = points_new(scratch, count);
    bool tested = measure->of_one_rm && any_on_test(weeks, count);
    for (size_t i = 0; i < count; i++)
        if (is_comparable(measure, &weeks[i], tested))
            add_point(&points, weeks[i].week, measure->of(&weeks[i]));
    struct trend_slope row = {.measure = measure->name, .in_kg = measure->in_kg, .percent_4w = NAN};
    row.fit = theil_sen(points.x, points.y, points.count, SLOPE_CONFIDENCE);
    if (row.fit.median != 0)
        row.percent_4w = 100 * 4 * row.fit.slope / row.fit.median;
    double end = count ? weeks[count - 1].week + 1 : 0;
    row.recent_12 = median_between(&points, end - RECENT_WEEKS, end);
    row.before_12 = median_between(&points, end - 2 * RECENT_WEEKS, end - RECENT_WEEKS);
    arena_free(scratch);
    return row;
}

/* The weeks that are over: only the week that holds `today` can be unfinished, and it is the last one unless the log
 * has later dates. */
static size_t copy_finished(struct trend_week *out, const struct trend_week *weeks, size_t count, day_number today)
{
    size_t kept = 0;
    for (size_t i = 0; i < count; i++)
        if (today == NO_DAY || weeks[i].week != week_of(today))
            out[kept++] = weeks[i];
    return kept;
}

/* For the first `measures` of trend_measures. */
static const struct trend_slope *slopes_by(struct arena *arena, const struct training *training,
                                           const struct trend_week *weeks, size_t week_count, size_t measures,
                                           size_t *count)
{
    LIST(struct trend_slope) rows = {0};
    struct arena *scratch = arena_new();
    for (size_t start = 0, end; start < week_count; start = end) {
        const struct trend_week *first = &weeks[start];
        end = start + 1;
        while (end < week_count && weeks[end].lifter == first->lifter && weeks[end].lift == first->lift &&
               weeks[end].all_lifts == first->all_lifts)
            end++;
        struct trend_week *finished = ARENA_ARRAY(scratch, struct trend_week, end - start);
        size_t finished_count = copy_finished(finished, first, end - start, training->options.today);
        for (size_t i = 0; i < measures; i++) {
            if (first->all_lifts && !trend_measures[i].of_all_lifts)
                continue;
            struct trend_slope *row = LIST_ADD(arena, &rows);
            *row = trend_slope_of(&trend_measures[i], finished, finished_count);
            row->lifter = first->lifter;
            row->lift = first->lift;
            row->all_lifts = first->all_lifts;
        }
        arena_reset(scratch);
    }
    arena_free(scratch);
    *count = rows.count;
    return rows.items;
}

const struct trend_slope *trend_slopes(struct arena *arena, const struct training *training,
                                       const struct trend_week *weeks, size_t week_count, size_t *count)
{
    return slopes_by(arena, training, weeks, week_count, sizeof trend_measures / sizeof *trend_measures, count);
}

const struct trend_slope *trend_volume_slopes(struct arena *arena, const struct training *training,
                                              const struct trend_week *weeks, size_t week_count, size_t *count)
{
    return slopes_by(arena, training, weeks, week_count, 1, count);
}

struct wave_slope_list
{
    struct wave_slope *items;
    size_t count, capacity;
};

static const struct wave_measure
{
    const char *name;
    enum load_measure load;
    bool last; /* use the wave's last week, not its first */
} wave_measures[] = {
    {"first_straight_kg", LOAD_STRAIGHT, false}, {"last_straight_kg", LOAD_STRAIGHT, true},
    {"first_bottom_kg", LOAD_BOTTOM, false},     {"last_bottom_kg", LOAD_BOTTOM, true},
    {"first_top_kg", LOAD_TOP, false},           {"last_top_kg", LOAD_TOP, true},
};

/* waves[0 .. count) of one lifter, lift and focus. */
static struct slope wave_slope_of(struct arena *scratch, const struct wave_measure *measure, const struct wave *waves,
                                  size_t count)
{
    struct points points = points_new(scratch, count);
    for (size_t i = 0; i < count; i++) {
        const struct wave_week *week = &waves[i].weeks[measure->last ? waves[i].count - 1 : 0];
        add_point(&points, week->wave, week->load_kg[measure->load]);
    }
    return theil_sen(points.x, points.y, points.count, SLOPE_CONFIDENCE);
}

static const struct
{
    const char *name;
    enum load_measure load;
} pooled_measures[] = {{"straight_kg", LOAD_STRAIGHT}, {"bottom_kg", LOAD_BOTTOM}, {"top_kg", LOAD_TOP}};
#define POOLED_MEASURES (sizeof pooled_measures / sizeof *pooled_measures)

/* All weeks of the waves, each compared with the same step of the others. */
static struct slope pooled_slope(struct arena *scratch, enum load_measure load, const struct wave *waves, size_t count)
{
    LIST(struct seasonal_point) points = {0};
    LIST(double) loads = {0};
    for (size_t i = 0; i < count; i++)
        for (size_t j = 0; j < waves[i].count; j++) {
            const struct wave_week *week = &waves[i].weeks[j];
            if (week->aside || isnan(week->load_kg[load]))
                continue;
            *LIST_ADD(scratch, &points) = (struct seasonal_point){week->step, week->wave, week->load_kg[load]};
            *LIST_ADD(scratch, &loads) = week->load_kg[load];
        }
    struct seasonal test = seasonal_kendall(points.items, points.count, SLOPE_CONFIDENCE);
    return (struct slope){test.points,
                          test.slope,
                          test.low,
                          test.high,
                          count < LEAST_WAVES ? NAN : test.p,
                          median_of(loads.items, loads.count),
                          test.s};
}

static void add_wave_slope(struct arena *arena, struct wave_slope_list *rows, const struct wave_week *first,
                           const char *measure, struct slope fit)
{
    *LIST_ADD(arena, rows) = (struct wave_slope){first->lifter, first->lift, first->focus, measure, fit};
}

static bool is_running(const struct wave *wave, day_number today)
{
    return today != NO_DAY && wave->weeks[wave->count - 1].week == week_of(today);
}

const struct wave_slope *wave_slopes(struct arena *arena, const struct waves *waves, day_number today, size_t *count)
{
    struct wave_slope_list rows = {0};
    struct arena *scratch = arena_new();
    for (size_t start = 0, end; start < waves->wave_count; start = end) {
        const struct wave_week *first = waves->waves[start].weeks;
        for (end = start + 1; end < waves->wave_count && waves->waves[end].weeks->wave > 1; end++)
            ;
        size_t over = end - start - is_running(&waves->waves[end - 1], today);
        for (size_t i = 0; i < sizeof wave_measures / sizeof *wave_measures; i++) {
            const struct wave_measure *measure = &wave_measures[i];
            struct slope fit = wave_slope_of(scratch, measure, &waves->waves[start], over);
            add_wave_slope(arena, &rows, first, measure->name, fit);
        }
        for (size_t i = 0; i < POOLED_MEASURES; i++)
            add_wave_slope(arena, &rows, first, pooled_measures[i].name,
                           pooled_slope(scratch, pooled_measures[i].load, &waves->waves[start], over));
        arena_reset(scratch);
    }
    arena_free(scratch);
    *count = rows.count;
    return rows.items;
}

/* By lifter, then lift, all lifts together last. */
static int slope_order(const struct trend_slope *slope, const struct trend_week *week)
{
    int order = strcmp(slope->lifter, week->lifter);
    if (order || slope->all_lifts != week->all_lifts)
        return order ? order : (slope->all_lifts ? 1 : -1);
    return strcmp(slope->lift, week->lift);
}

const struct trend_slope *trend_volume_slope_find(const struct trend_slope *slopes, size_t count,
                                                  const struct trend_week *week)
{
    size_t low = 0, high = count; /* they are in the order of the weeks */
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        int order = slope_order(&slopes[middle], week);
        if (!order)
            return &slopes[middle];
        low = order < 0 ? middle + 1 : low;
        high = order < 0 ? high : middle;
    }
    return NULL;
}
