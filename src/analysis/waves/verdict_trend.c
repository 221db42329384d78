#include "analysis/waves/verdict_trend.h"

#include "analysis/statistics/seasonal.h"
#include "analysis/statistics/statistics.h"

#include <math.h>
#include <string.h>

#define CONFIDENCE 0.95
#define NORMAL_LIMIT 1.959964 /* of CONFIDENCE */
#define STANDS_OUT 2          /* standard deviations */

struct place /* a week in the test */
{
    const struct wave_week *week;
    double time;   /* wave or week number */
    size_t season; /* of the same step and AR */
};

struct places
{
    struct arena *scratch;
    LIST(struct place) list;
};

static size_t season_of(const struct places *places, const struct wave_week *week, bool by_week)
{
    for (size_t i = 0; i < places->list.count; i++) {
        const struct wave_week *other = places->list.items[i].week;
        if ((by_week || other->step == week->step) && same_ar(other->working, week->working))
            return places->list.items[i].season;
    }
    return places->list.count;
}

static void add_place(struct places *places, const struct wave_week *week, bool by_week, const char *ar_key)
{
    if (week->aside || (ar_key && strcmp(week->working->ar_key, ar_key) != 0))
        return;
    size_t season = season_of(places, week, by_week);
    double time = by_week ? (double)week->week : (double)week->wave;
    *LIST_ADD(places->scratch, &places->list) = (struct place){week, time, season};
}

/* With the same set-up, the straight weight's difference applies to both ends: it is used if an end is unknown. */
static double load_of(const struct wave_week *week, enum load_measure measure)
{
    return isnan(week->load_kg[measure]) ? week->load_kg[LOAD_STRAIGHT] : week->load_kg[measure];
}

static struct seasonal_point *points_of(const struct places *places, enum load_measure measure)
{
    struct seasonal_point *points = ARENA_ARRAY(places->scratch, struct seasonal_point, places->list.count);
    for (size_t i = 0; i < places->list.count; i++) {
        const struct place *place = &places->list.items[i];
        points[i] = (struct seasonal_point){place->season, place->time, load_of(place->week, measure)};
    }
    return points;
}

static double median_load(const struct places *places)
{
    double *loads = ARENA_ARRAY(places->scratch, double, places->list.count);
    for (size_t i = 0; i < places->list.count; i++)
        loads[i] = load_of(places->list.items[i].week, LOAD_TOP);
    return median_of(loads, places->list.count);
}

/* The standard error of a slope over n equidistant waves is proportional to n to the power of −3/2. A trend is
 * settled once the interval excludes 0 while the slope keeps its size, or once the interval is within what matters. */
static unsigned more_waves(const struct verdict_trend *trend)
{
    double error = (trend->high_kg - trend->low_kg) / 2, slope = fabs(trend->slope_kg[LOAD_TOP]);
    double wanted = fmax(slope, trend->matters_kg - slope);
    double waves = wanted > 0 ? ceil((double)trend->waves * pow(error / wanted, 2.0 / 3)) : INFINITY;
    if (!(waves <= VERDICT_WAVES))
        return 0;
    return waves > (double)trend->waves ? (unsigned)(waves - (double)trend->waves) : 1;
}

struct scatter /* of the differences between adjacent waves at the same step, about their mean */
{
    double squares;
    size_t freedom;
    size_t steps; /* steps compared in the newest pair */
};

/* Compares the wave of places[start .. end) with the one before it in the list; times rise. */
static void add_pair(struct scatter *scatter, const struct places *places, size_t start, size_t end)
{
    double sum = 0, squares = 0, n = 0;
    for (size_t i = start; i < end; i++)
        for (size_t j = start; j-- > 0 && places->list.items[j].time >= places->list.items[start - 1].time;) {
            const struct place *after = &places->list.items[i], *before = &places->list.items[j];
            if (after->season != before->season)
                continue;
            double over = load_of(after->week, LOAD_TOP) - load_of(before->week, LOAD_TOP);
            sum += over;
            squares += over * over;
            n++;
        }
    if (n > 0)
        scatter->steps = (size_t)n;
    if (n < 2)
        return;
    scatter->squares += fmax(0, squares - sum * sum / n);
    scatter->freedom += (size_t)n - 1;
}

/* The difference of two means over that many steps, each week with its share of the scatter, that equals STANDS_OUT
 * of its own standard deviations; NAN without two steps in common. */
static double stands_out(const struct places *places)
{
    struct scatter scatter = {0, 0, 0};
    for (size_t start = 0, end; start < places->list.count; start = end) {
        for (end = start; end < places->list.count && places->list.items[end].time <= places->list.items[start].time;
             end++)
            ;
        if (start)
            add_pair(&scatter, places, start, end);
    }
    if (!scatter.freedom)
        return NAN;
    return STANDS_OUT * sqrt(scatter.squares / (double)scatter.freedom / (double)scatter.steps);
}

static enum tendency tendency_of(const struct verdict_trend *trend, double s)
{
    if (trend->waves < VERDICT_LEAST_WAVES)
        return TENDENCY_TOO_EARLY;
    if (trend->p < VERDICT_P)
        return s > 0 ? TENDENCY_RISING : TENDENCY_FALLING;
    return trend->low_kg > -trend->matters_kg && trend->high_kg < trend->matters_kg ? TENDENCY_LEVEL : TENDENCY_OPEN;
}

/* If all loads are equal there is no doubt: p is 1. */
static double p_of(const struct verdict_trend *trend, const struct seasonal *top)
{
    return trend->waves < VERDICT_LEAST_WAVES ? NAN : top->pairs && isnan(top->p) ? 1 : top->p;
}

static size_t distinct_times(const struct places *places)
{
    size_t count = 0;
    for (size_t i = 0; i < places->list.count; i++)
        count += !i || places->list.items[i].time > places->list.items[i - 1].time;
    return count;
}

static struct verdict_trend trend_of(const struct places *places, bool by_week)
{
    struct verdict_trend trend = {
        .by_week = by_week, .since = NO_DAY, .as_of = NO_DAY, .p = NAN, .stands_out_kg = NAN, .ar = ""};
    struct seasonal top = seasonal_kendall(points_of(places, LOAD_TOP), places->list.count, CONFIDENCE);
    trend.waves = distinct_times(places);
    trend.points = top.points;
    trend.low_kg = top.low;
    trend.high_kg = top.high;
    for (int measure = 0; measure < LOAD_MEASURES; measure++)
        trend.slope_kg[measure] = measure == LOAD_TOP ? top.slope
                                                      : seasonal_slope(points_of(places, (enum load_measure)measure),
                                                                       places->list.count);
    trend.load_kg = median_load(places);
    trend.matters_kg = VERDICT_MATTERS * trend.load_kg;
    trend.p = p_of(&trend, &top);
    trend.tendency = top.pairs ? tendency_of(&trend, top.s) : TENDENCY_TOO_EARLY;
    if (trend.tendency == TENDENCY_OPEN)
        trend.more_waves = more_waves(&trend);
    if (trend.tendency == TENDENCY_TOO_EARLY && !by_week)
        trend.stands_out_kg = stands_out(places);
    if (!places->list.count)
        return trend;
    const struct wave_week *first = places->list.items[0].week, *last = places->list.items[places->list.count - 1].week;
    trend.since = first->first_day;
    trend.as_of = last->last_day;
    trend.first_wave = by_week ? 0 : first->wave;
    trend.last_wave = by_week ? 0 : last->wave;
    trend.ar = last->ar;
    return trend;
}

struct verdict_trend trend_of_waves(const struct wave *waves, size_t count, const char *ar_key)
{
    struct places places = {.scratch = arena_new()};
    for (size_t i = 0; i < count; i++)
        for (size_t j = 0; j < waves[i].count; j++)
            add_place(&places, &waves[i].weeks[j], false, ar_key);
    struct verdict_trend trend = trend_of(&places, false);
    arena_free(places.scratch);
    return trend;
}

struct verdict_trend trend_of_weeks(const struct wave_week *weeks, size_t count)
{
    struct places places = {.scratch = arena_new()};
    for (size_t i = 0; i < count; i++)
        if (!weeks[i].light)
            add_place(&places, &weeks[i], true, NULL);
    struct verdict_trend trend = trend_of(&places, true);
    arena_free(places.scratch);
    return trend;
}
