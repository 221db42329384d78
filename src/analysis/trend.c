#include "analysis/trend.h"

#include "analysis/evaluated_set.h"
#include "analysis/statistics/statistics.h"

#include <math.h>

#define DAYS 7
#define EDGE_SLACK 1e-9 /* a share that is an edge but for its last bits belongs above it */

static const double zone_edges[ZONES - 1] = {0.55, 0.70, 0.80, 0.90};

int zone_of(double share)
{
    int zone = 0;
    for (int edge = 0; edge < ZONES - 1;
         edge++) /* all of them, without a branch: nobody can guess where a share stops */
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

struct tally /* of one week, while its sets go by */
{
    size_t weighed_sets;
    double day_kg[DAYS];
    bool day_trained[DAYS], day_weighed[DAYS];
    double shares[LOAD_MEASURES]; /* Σ r (load/1RM) */
    double rated_lifts;           /* Σ r of the sets with a 1RM */
};

struct series /* rows as they grow, in room for all of them */
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

/* Both averages start with the first day that has a weight, at its load. */
static void decay(struct trend_week *row, const struct tally *tally, const struct trend_week *before)
{
    row->acute_kg = before ? before->acute_kg : NAN;
    row->chronic_kg = before ? before->chronic_kg : NAN;
    for (int day = 0; day < DAYS; day++) {
        if (!isnan(row->acute_kg)) {
            row->acute_kg = ewma_next(row->acute_kg, tally->day_kg[day], ACUTE_DAYS);
            row->chronic_kg = ewma_next(row->chronic_kg, tally->day_kg[day], CHRONIC_DAYS);
        } else if (tally->day_weighed[day]) {
            row->acute_kg = row->chronic_kg = tally->day_kg[day];
        }
    }
}

/* `rate`: with what rests on a 1RM of one lift. */
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

/* Leaves out what is not work before the first and after the last work set. False: there is none. */
static bool trim(const struct evaluated_set *const **sets, size_t *count)
{
    while (*count && !is_work(**sets))
        ++*sets, --*count;
    while (*count && !is_work((*sets)[*count - 1]))
        --*count;
    return *count;
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

/* What all of a lifter's lifts come to, week by week: the sums of theirs. */
struct totals
{
    struct weeks weeks;
    struct trend_week *rows;
    struct tally *tallies;
};

static void add_to_total(struct totals *totals, const struct trend_week *row, const struct tally *tally)
{
    struct trend_week *total = &totals->rows[row->week - totals->weeks.first];
    struct tally *of_total = &totals->tallies[row->week - totals->weeks.first];
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

static void add_weeks(struct series *series, const struct lift_sets *lift, struct totals *totals)
{
    const struct evaluated_set *const *sets = lift->sets;
    size_t next = 0, count = lift->count;
    if (!trim(&sets, &count))
        return;
    week_number first = sets[0]->week;
    for (week_number week = first; week <= sets[count - 1]->week; week++) {
        struct trend_week *row = &series->rows[series->count++];
        struct tally tally = {0};
        *row = empty_week(lift->lifter, lift->lift, week);
        for (; next < count && sets[next]->week == week; next++) {
            if (is_work(sets[next]))
                add_set(row, &tally, sets[next]);
        }
        if (totals && row->sets)
            add_to_total(totals, row, &tally);
        close_week(row, &tally, true);
        decay(row, &tally, week > first ? row - 1 : NULL);
    }
}

/* The lifter's lifts, from the first to where another's begin. */
static size_t lifts_of_lifter(const struct lift_sets *lifts, size_t count)
{
    size_t end = 1;
    while (end < count && lifts[end].lifter == lifts->lifter)
        end++;
    return end;
}

/* From the first week of any of a lifter's lifts to the last; *rows grows by the weeks of each. */
static struct weeks weeks_together(const struct lift_sets *lifts, size_t count, size_t *rows)
{
    struct weeks together = NO_WEEKS;
    for (size_t i = 0; i < count; i++) {
        struct weeks weeks = weeks_of(&lifts[i]);
        together.first = weeks.first < together.first ? weeks.first : together.first;
        together.last = weeks.last > together.last ? weeks.last : together.last;
        *rows += week_count(weeks);
    }
    return together;
}

/* Each lift's weeks, and those of all lifts together after them, which are filled in as the others go by. */
static void add_lifter(struct series *series, const struct lift_sets *lifts, size_t count)
{
    struct arena *scratch = arena_new();
    size_t behind = series->count;
    struct totals totals = {.weeks = weeks_together(lifts, count, &behind)};
    size_t total_count = week_count(totals.weeks);
    totals.rows = series->rows + behind;
    totals.tallies = ARENA_ARRAY(scratch, struct tally, total_count);
    for (size_t i = 0; i < total_count; i++) {
        totals.rows[i] = empty_week(lifts->lifter, ALL_LIFTS, totals.weeks.first + (week_number)i);
        totals.rows[i].all_lifts = true;
    }
    for (size_t i = 0; i < count; i++)
        add_weeks(series, &lifts[i], &totals);
    for (size_t i = 0; i < total_count; i++) {
        close_week(&totals.rows[i], &totals.tallies[i], false);
        decay(&totals.rows[i], &totals.tallies[i], i ? &totals.rows[i - 1] : NULL);
    }
    series->count += total_count;
    arena_free(scratch);
}

/* Each lift's weeks, and those of all of a lifter's lifts together. */
static size_t count_rows(const struct lift_sets *lifts, size_t count)
{
    size_t rows = 0;
    for (size_t i = 0, lifter_lifts; i < count; i += lifter_lifts) {
        lifter_lifts = lifts_of_lifter(lifts + i, count - i);
        struct weeks together = weeks_together(lifts + i, lifter_lifts, &rows);
        rows += week_count(together);
    }
    return rows;
}

const struct trend_week *trend_make(struct arena *arena, const struct training *training, size_t *count)
{
    struct arena *scratch = arena_new();
    size_t lift_count;
    const struct lift_sets *lifts = training_by_lift(scratch, training, &lift_count);
    struct series series = {arena_room(arena, count_rows(lifts, lift_count) * sizeof *series.rows), 0};
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
