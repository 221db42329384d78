#include "analysis/trend.h"

#include "analysis/evaluated_set.h"
#include "analysis/statistics/statistics.h"

#include <math.h>

#define DAYS 7
#define EDGE_SLACK 1e-9 /* a share that equals an edge up to floating-point error belongs above it */

static const double zone_edges[ZONES - 1] = {0.55, 0.70, 0.80, 0.90};

int zone_of(double share)
{
    int zone = 0;
    for (int edge = 0; edge < ZONES - 1; edge++) /* branch-free over all edges: shares are unpredictable */
        zone += share >= zone_edges[edge] - EDGE_SLACK;
    return zone;
}

double inol_of(double reps, double share)
{
    return share >= 1 - EDGE_SLACK ? NAN : reps / (100 - 100 * share);
}

double monotony_of(const double day_kg[7])
{
    double mean = sample_mean(day_kg, DAYS), deviation = sample_deviation(day_kg, DAYS, mean);
    return deviation > EDGE_SLACK * fabs(mean) ? mean / deviation : NAN;
}

double ewma_next(double before, double load, int days)
{
    double weight = 2.0 / (days + 1);
    return weight * load + (1 - weight) * before;
}

/* After that many days without a load. */
static double ewma_rest(double before, int rest_days, int days)
{
    return rest_days ? before * pow(1 - 2.0 / (days + 1), rest_days) : before;
}

struct tally /* of one week, while its sets go by */
{
    size_t weighed_sets;
    double day_kg[DAYS];
    bool day_trained[DAYS], day_weighed[DAYS];
    double shares[LOAD_MEASURES]; /* Σ r (load/1RM) */
    double rated_lifts;           /* Σ r of the sets with a 1RM */
};

struct series /* rows as they are added; there is room for all of them */
{
    struct trend_week *rows;
    size_t count;
};

static void add_rated(struct trend_week *row, struct tally *tally, double reps, const double loads_kg[LOAD_MEASURES],
                      double one_rm_kg)
{
    double mean_share = loads_kg[LOAD_MEAN] / one_rm_kg;
    if (tally->rated_lifts == 0) {
        row->inol = 0;
        for (int zone = 0; zone < ZONES; zone++)
            row->zone_lifts[zone] = 0;
    }
    tally->rated_lifts += reps;
    for (int measure = 0; measure < LOAD_MEASURES; measure++)
        tally->shares[measure] += reps * loads_kg[measure] / one_rm_kg;
    row->zone_lifts[zone_of(mean_share)] += reps;
    row->inol += inol_of(reps, mean_share);
}

static void add_set(struct trend_week *row, struct tally *tally, const struct evaluated_set *evaluated)
{
    const struct effect *effect = evaluated->effect;
    const double reps = evaluated->set->reps;
    const double loads_kg[LOAD_MEASURES] = {
        [LOAD_STRAIGHT] = effect->straight_kg,
        [LOAD_BOTTOM] = effect->counted_bottom_kg,
        [LOAD_TOP] = effect->counted_top_kg,
        [LOAD_MEAN] = effect->counted_mean_kg,
    };
    int day = (int)(evaluated->set->day - week_monday(evaluated->week));
    row->sets++;
    row->lifts += evaluated->set->reps;
    row->days += !tally->day_trained[day];
    tally->day_trained[day] = true;
    if (isnan(effect->straight_kg))
        return;
    tally->weighed_sets++;
    tally->day_weighed[day] = true;
    tally->day_kg[day] += reps * loads_kg[LOAD_MEAN];
    for (int measure = 0; measure < LOAD_MEASURES; measure++)
        row->volume_kg[measure] += reps * loads_kg[measure];
    for (int measure = 0; measure < LOAD_MEASURES && is_believed(evaluated); measure++)
        row->peak_kg[measure] = row->peak_kg[measure] >= loads_kg[measure] ? row->peak_kg[measure]
                                                                           : loads_kg[measure]; /* NAN at first */
    if (evaluated->one_rm.kg > 0) {
        add_rated(row, tally, reps, loads_kg, evaluated->one_rm.kg);
        row->on_estimate |= evaluated->one_rm.from == ONE_RM_ESTIMATED;
    }
}

static struct trend_week empty_week(const char *lifter, const char *lift, week_number week)
{
    struct trend_week row = {.lifter = lifter, .lift = lift, .week = week, .inol = NAN, .monotony = NAN, .strain = NAN};
    for (int measure = 0; measure < LOAD_MEASURES; measure++)
        row.intensity[measure] = row.peak_kg[measure] = NAN;
    for (int zone = 0; zone < ZONES; zone++)
        row.zone_lifts[zone] = NAN;
    return row;
}

/* Both averages start with the first day that has a weight, at its load. Weeks that have no row are days of rest, too.
 */
static void decay(struct trend_week *row, const struct tally *tally, const struct trend_week *before)
{
    int rest_days = before ? DAYS * (row->week - before->week - 1) : 0;
    row->acute_kg = before ? ewma_rest(before->acute_kg, rest_days, ACUTE_DAYS) : NAN;
    row->chronic_kg = before ? ewma_rest(before->chronic_kg, rest_days, CHRONIC_DAYS) : NAN;
    for (int day = 0; day < DAYS; day++) {
        if (!isnan(row->acute_kg)) {
            row->acute_kg = ewma_next(row->acute_kg, tally->day_kg[day], ACUTE_DAYS);
            row->chronic_kg = ewma_next(row->chronic_kg, tally->day_kg[day], CHRONIC_DAYS);
        } else if (tally->day_weighed[day]) {
            row->acute_kg = row->chronic_kg = tally->day_kg[day];
        }
    }
}

/* `rate`: including what depends on the 1RM of a single lift. */
static void close_week(struct trend_week *row, const struct tally *tally, bool rate)
{
    if (!row->sets && rate) {
        row->inol = 0;
        for (int zone = 0; zone < ZONES; zone++)
            row->zone_lifts[zone] = 0;
    }
    for (int measure = 0; measure < LOAD_MEASURES; measure++) {
        if (row->sets && !tally->weighed_sets)
            row->volume_kg[measure] = NAN;
        if (tally->rated_lifts > 0)
            row->intensity[measure] = tally->shares[measure] / tally->rated_lifts;
    }
    if (tally->weighed_sets) {
        row->monotony = monotony_of(tally->day_kg);
        row->strain = row->volume_kg[LOAD_MEAN] * row->monotony;
    }
}

/* Drops everything before the first and after the last work set. False: there is none. */
static bool trim(const struct evaluated_set *const **sets, size_t *count)
{
    while (*count && !is_work(**sets))
        ++*sets, --*count;
    while (*count && !is_work((*sets)[*count - 1]))
        --*count;
    return *count;
}

/* --- the weeks that have a row ---------------------------------------------------------------------------------------- */

/* Weeks without a row between two trained ones: those of a break that is too long to show. */
static week_number skipped(week_number before, week_number next)
{
    return next - before - 1 > LONGEST_SHOWN_BREAK ? next - before - 1 : 0;
}

/* Where the first work set after `from` is that is in a later week; the end: none is. Sets are in order of week, and a
 * week may have very many: it is leapt over in growing steps. */
static size_t next_trained(const struct evaluated_set *const *sets, size_t count, size_t from)
{
    week_number week = sets[from]->week;
    size_t low = from, step = 1; /* sets[low] is of this week */
    for (; step < count - low && sets[low + step]->week == week; step *= 2)
        low += step;
    size_t high = step < count - low ? low + step : count; /* and this one is not */
    while (high - low > 1) {
        size_t middle = low + (high - low) / 2;
        if (sets[middle]->week == week)
            low = middle;
        else
            high = middle;
    }
    while (high < count && !is_work(sets[high]))
        high++;
    return high;
}

struct weeks
{
    week_number first, last; /* first > last: none */
};

#define NO_WEEKS ((struct weeks){INT32_MAX, INT32_MIN})

static size_t week_count(struct weeks weeks)
{
    return weeks.first <= weeks.last ? (size_t)(weeks.last - weeks.first) + 1 : 0;
}

static struct weeks weeks_of(const struct lift_sets *lift)
{
    const struct evaluated_set *const *sets = lift->sets;
    size_t count = lift->count;
    return trim(&sets, &count) ? (struct weeks){sets[0]->week, sets[count - 1]->week} : NO_WEEKS;
}

/* Rows of the lift; `trained`, if there is one, notes its weeks, the first of all being number 0. */
static size_t rows_of(const struct lift_sets *lift, bool *trained, week_number first)
{
    const struct evaluated_set *const *sets = lift->sets;
    size_t count = lift->count;
    if (!trim(&sets, &count))
        return 0;
    size_t rows = week_count((struct weeks){sets[0]->week, sets[count - 1]->week});
    if (rows <= LONGEST_SHOWN_BREAK + 2 && !trained)
        return rows;
    for (size_t at = 0, next; at < count; at = next) {
        next = next_trained(sets, count, at);
        if (trained)
            trained[sets[at]->week - first] = true;
        if (next < count)
            rows -= (size_t)skipped(sets[at]->week, sets[next]->week);
    }
    return rows;
}

/* What all of a lifter's lifts come to, week by week: the sums of theirs. */
struct totals
{
    struct weeks weeks;
    uint32_t *places; /* in rows, of each of these weeks that has one */
    struct trend_week *rows;
    size_t count;
    struct tally *tallies;
};

static void add_to_total(struct totals *totals, const struct trend_week *row, const struct tally *tally)
{
    uint32_t place = totals->places[row->week - totals->weeks.first];
    struct trend_week *total = &totals->rows[place];
    struct tally *of_total = &totals->tallies[place];
    total->sets += row->sets;
    total->lifts += row->lifts;
    for (int measure = 0; measure < LOAD_MEASURES; measure++)
        total->volume_kg[measure] += row->volume_kg[measure];
    of_total->weighed_sets += tally->weighed_sets;
    for (int day = 0; day < DAYS; day++) {
        total->days += tally->day_trained[day] && !of_total->day_trained[day];
        of_total->day_trained[day] |= tally->day_trained[day];
        of_total->day_weighed[day] |= tally->day_weighed[day];
        of_total->day_kg[day] += tally->day_kg[day];
    }
}

static void add_rest_weeks(struct series *series, const struct lift_sets *lift, week_number week, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        struct trend_week *row = &series->rows[series->count++];
        struct tally nothing = {0};
        *row = empty_week(lift->lifter, lift->lift, week + (week_number)i);
        close_week(row, &nothing, true);
        decay(row, &nothing, row - 1);
    }
}

static void add_weeks(struct series *series, const struct lift_sets *lift, struct totals *totals)
{
    const struct evaluated_set *const *sets = lift->sets;
    const struct trend_week *before = NULL;
    size_t count = lift->count;
    if (!trim(&sets, &count))
        return;
    for (size_t next = 0; next < count;) { /* sets[next] is work, the first of its week */
        struct trend_week *row = &series->rows[series->count++];
        struct tally tally = {0};
        *row = empty_week(lift->lifter, lift->lift, sets[next]->week);
        for (; next < count && sets[next]->week == row->week; next++) {
            if (is_work(sets[next]))
                add_set(row, &tally, sets[next]);
        }
        if (totals)
            add_to_total(totals, row, &tally);
        close_week(row, &tally, true);
        decay(row, &tally, before);
        while (next < count && !is_work(sets[next]))
            next++;
        if (next < count && !skipped(row->week, sets[next]->week))
            add_rest_weeks(series, lift, row->week + 1, (size_t)(sets[next]->week - row->week) - 1);
        before = &series->rows[series->count - 1];
    }
}

/* The number of lifts of the first lifter. */
static size_t lifts_of_lifter(const struct lift_sets *lifts, size_t count)
{
    size_t end = 1;
    while (end < count && lifts[end].lifter == lifts->lifter)
        end++;
    return end;
}

/* From the first week of any of a lifter's lifts to the last. */
static struct weeks weeks_together(const struct lift_sets *lifts, size_t count)
{
    struct weeks together = NO_WEEKS;
    for (size_t i = 0; i < count; i++) {
        struct weeks weeks = weeks_of(&lifts[i]);
        together.first = weeks.first < together.first ? weeks.first : together.first;
        together.last = weeks.last > together.last ? weeks.last : together.last;
    }
    return together;
}

/* The lifter's weeks, whatever was trained in them, and where each has its row; *rows grows by the rows of each lift.
 */
static struct totals totals_make(struct arena *scratch, const struct lift_sets *lifts, size_t count, size_t *rows)
{
    struct totals totals = {.weeks = weeks_together(lifts, count)};
    size_t week_total = week_count(totals.weeks);
    bool *trained = ARENA_ARRAY(scratch, bool, week_total + 1);
    totals.places = ARENA_ARRAY(scratch, uint32_t, week_total + 1);
    for (size_t i = 0; i < count; i++)
        *rows += rows_of(&lifts[i], trained, totals.weeks.first);
    for (size_t i = 0, next; i < week_total; i = next) {
        for (next = i + 1; next < week_total && !trained[next]; next++)
            ;
        size_t shown = skipped((week_number)i, (week_number)next) ? 1 : next - i;
        for (size_t j = 0; j < shown; j++)
            totals.places[i + j] = (uint32_t)totals.count++;
    }
    return totals;
}

static void begin_totals(struct totals *totals, struct trend_week *rows, struct arena *scratch, const char *lifter)
{
    totals->rows = rows;
    totals->tallies = ARENA_ARRAY(scratch, struct tally, totals->count + 1);
    for (size_t i = 0; i < week_count(totals->weeks); i++) {
        struct trend_week *row = &rows[totals->places[i]];
        if (i && !totals->places[i]) /* a week without a row */
            continue;
        *row = empty_week(lifter, ALL_LIFTS, totals->weeks.first + (week_number)i);
        row->all_lifts = true;
    }
}

/* Each lift's weeks, and those of all lifts together after them, which are filled in as the others go by. */
static void add_lifter(struct series *series, const struct lift_sets *lifts, size_t count)
{
    struct arena *scratch = arena_new();
    size_t behind = series->count;
    struct totals totals = totals_make(scratch, lifts, count, &behind);
    begin_totals(&totals, series->rows + behind, scratch, lifts->lifter);
    for (size_t i = 0; i < count; i++)
        add_weeks(series, &lifts[i], &totals);
    for (size_t i = 0; i < totals.count; i++) {
        close_week(&totals.rows[i], &totals.tallies[i], false);
        decay(&totals.rows[i], &totals.tallies[i], i ? &totals.rows[i - 1] : NULL);
    }
    series->count += totals.count;
    arena_free(scratch);
}

/* Each lift's weeks, and those of all of a lifter's lifts together. */
static size_t count_rows(const struct lift_sets *lifts, size_t count, bool with_totals)
{
    size_t rows = 0;
    struct arena *scratch = arena_new();
    for (size_t i = 0, taken; i < count; i += taken) {
        taken = with_totals ? lifts_of_lifter(lifts + i, count - i) : 1;
        size_t together = with_totals ? totals_make(scratch, lifts + i, taken, &rows).count : 0;
        rows += with_totals ? together : rows_of(lifts + i, NULL, 0);
        arena_reset(scratch);
    }
    arena_free(scratch);
    return rows;
}

const struct trend_week *trend_make(struct arena *arena, const struct training *training, size_t *count)
{
    struct arena *scratch = arena_new();
    size_t lift_count;
    const struct lift_sets *lifts = training_by_lift(scratch, training, &lift_count);
    struct series series = {
        arena_room(arena, count_rows(lifts, lift_count, !training->options.lifts.count) * sizeof *series.rows), 0};
    for (size_t i = 0, taken; i < lift_count; i += taken) {
        taken = training->options.lifts.count ? 1 : lifts_of_lifter(lifts + i, lift_count - i);
        if (training->options.lifts.count)
            add_weeks(&series, &lifts[i], NULL);
        else
            add_lifter(&series, lifts + i, taken);
    }
    arena_free(scratch);
    *count = series.count;
    return series.rows;
}
