#include "analysis/verdict.h"

#include "analysis/statistics/statistics.h"
#include "analysis/waves/verdict_trend.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define LONG_WAVE 8         /* weeks: a longer run is not a wave, but a steady rise */
#define STALE_LEAST_DAYS 42 /* six weeks */
#define STALE_INTERVALS 3   /* and this many of the lift's usual intervals */
#define OTHER_SETUPS_MOST 4
#define FOLLOWS_POINTS 0.01 /* of the 1RM: a wave follows its percentages if each step is within this of them */
#define NEW_ONE_RM 0.01     /* a test that changes the 1RM by less is not a restart */

struct series /* of one lifter, lift and focus */
{
    const struct wave_week *weeks; /* all of them, including light and lone ones */
    size_t week_count;
    const struct wave *waves;
    size_t wave_count;
    day_number lifter_last; /* the lifter's last day in the log */
};

const char *verdict_word(enum verdict_kind kind)
{
    static const char *const words[] = {
        [VERDICT_TOO_EARLY] = "too-early",  [VERDICT_OPEN] = "open",           [VERDICT_LEVEL] = "level",
        [VERDICT_RISING] = "rising",        [VERDICT_FALLING] = "falling",     [VERDICT_STALE] = "stale",
        [VERDICT_NEW_SETUP] = "new-set-up", [VERDICT_RESTARTED] = "restarted", [VERDICT_NO_WAVES] = "no-waves",
    };
    return words[kind];
}

const char *tendency_word(enum tendency tendency)
{
    static const enum verdict_kind kinds[] = {
        [TENDENCY_TOO_EARLY] = VERDICT_TOO_EARLY, [TENDENCY_OPEN] = VERDICT_OPEN,
        [TENDENCY_LEVEL] = VERDICT_LEVEL,         [TENDENCY_RISING] = VERDICT_RISING,
        [TENDENCY_FALLING] = VERDICT_FALLING,
    };
    return verdict_word(kinds[tendency]);
}

const char *verdict_direction(const struct verdict *verdict)
{
    return verdict->trend.tendency == TENDENCY_RISING    ? "up"
           : verdict->trend.tendency == TENDENCY_FALLING ? "down"
                                                         : "";
}

int fact_direction(const struct verdict_fact *fact, enum load_measure measure)
{
    double share = fact->over_share[measure];
    return isnan(share) ? 2 : share > FACT_SAME ? 1 : share < -FACT_SAME ? -1 : 0;
}

/* --- the fact ------------------------------------------------------------------------------------------------------------- */

struct sums /* over the steps at which a load is known in both waves */
{
    double over[LOAD_MEASURES], before[LOAD_MEASURES], volume, ar, weight;
    size_t known[LOAD_MEASURES], splits, volumes;
};

static const struct wave_week *step_of(const struct wave *wave, unsigned step)
{
    for (size_t i = 0; i < wave->count; i++)
        if (wave->weeks[i].step == step && !wave->weeks[i].aside)
            return &wave->weeks[i];
    return NULL;
}

/* The week of `wave` that a week is compared with; NULL: none. */
static const struct wave_week *counterpart(const struct wave *wave, const struct wave_week *week, bool same_setup)
{
    const struct wave_week *other = week->aside ? NULL : step_of(wave, week->step);
    return other && (!same_setup || same_ar(week->working, other->working)) ? other : NULL;
}

static bool have_step_in_common(const struct wave *newest, const struct wave *other, bool same_setup)
{
    for (size_t i = 0; i < newest->count; i++)
        if (counterpart(other, &newest->weeks[i], same_setup))
            return true;
    return false;
}

/* The newest earlier wave with a step in common; within the newest waves, one with the same set-up there is
 * preferred. */
static const struct wave *wave_to_compare(const struct series *series)
{
    const struct wave *newest = &series->waves[series->wave_count - 1];
    for (int same_setup = 1; same_setup >= 0; same_setup--)
        for (size_t back = 1; back < series->wave_count && (back <= VERDICT_WAVES || !same_setup); back++)
            if (have_step_in_common(newest, newest - back, same_setup))
                return newest - back;
    return NULL;
}

/* With an identical set-up whose own weight is unknown, the straight weight's difference is the whole difference. */
static double over(const struct wave_week *week, const struct wave_week *before, enum load_measure measure)
{
    double kg = difference(week->load_kg[measure], before->load_kg[measure]);
    return isnan(kg) && same_ar(week->working, before->working)
               ? difference(week->load_kg[LOAD_STRAIGHT], before->load_kg[LOAD_STRAIGHT])
               : kg;
}

static double known_or_straight(const struct wave_week *week, enum load_measure measure)
{
    return isnan(week->load_kg[measure]) ? week->load_kg[LOAD_STRAIGHT] : week->load_kg[measure];
}

static void add_split(struct sums *sums, const struct wave_week *week, const struct wave_week *before)
{
    double weight = difference(week->load_kg[LOAD_STRAIGHT], before->load_kg[LOAD_STRAIGHT]);
    double mean = over(week, before, LOAD_MEAN);
    if (isnan(mean) || isnan(weight))
        return;
    sums->splits++;
    sums->weight += weight;
    sums->ar += difference(mean, weight);
}

static void add_step(struct verdict_fact *fact, struct sums *sums, const struct wave_week *week,
                     const struct wave_week *before)
{
    fact->steps++;
    fact->same_setup &= same_ar(week->working, before->working);
    fact->ar = week->ar;
    fact->against_ar = before->ar;
    for (int measure = 0; measure < LOAD_MEASURES; measure++) {
        double kg = over(week, before, (enum load_measure)measure);
        if (isnan(kg))
            continue;
        sums->known[measure]++;
        sums->over[measure] += kg;
        sums->before[measure] += known_or_straight(before, (enum load_measure)measure);
    }
    add_split(sums, week, before);
    double volume = difference(week->volume_kg[LOAD_MEAN], before->volume_kg[LOAD_MEAN]);
    if (isnan(volume))
        return;
    sums->volumes++;
    sums->volume += volume;
}

static void add_dates(struct verdict_fact *fact, const struct wave *newest, const struct wave *against)
{
    fact->wave = newest->weeks->wave;
    fact->against = against->weeks->wave;
    fact->wave_first = newest->weeks->first_day;
    fact->wave_last = newest->weeks[newest->count - 1].last_day;
    fact->against_first = against->weeks->first_day;
    fact->against_last = against->weeks[against->count - 1].last_day;
}

static struct verdict_fact fact_of(const struct wave *newest, const struct wave *against)
{
    struct verdict_fact fact = {.exists = true, .same_setup = true};
    struct sums sums = {.volume = 0};
    add_dates(&fact, newest, against);
    for (size_t i = 0; i < newest->count; i++) {
        const struct wave_week *before = counterpart(against, &newest->weeks[i], false);
        if (before)
            add_step(&fact, &sums, &newest->weeks[i], before);
    }
    for (int measure = 0; measure < LOAD_MEASURES; measure++) { /* 0 / 0 gives NAN: unknown */
        fact.over_kg[measure] = sums.over[measure] / (double)sums.known[measure];
        fact.over_share[measure] = sums.over[measure] / sums.before[measure];
    }
    fact.over_volume_kg = sums.volume / (double)sums.volumes;
    fact.over_ar_kg = sums.ar / (double)sums.splits;
    fact.over_weight_kg = sums.weight / (double)sums.splits;
    return fact;
}

/* --- the verdict ---------------------------------------------------------------------------------------------------------- */

static size_t newest_of(size_t count, size_t most)
{
    return count < most ? count : most;
}

static bool has_ar_key(const struct wave *wave, const char *ar_key)
{
    for (size_t i = 0; i < wave->count; i++)
        if (!strcmp(wave->weeks[i].working->ar_key, ar_key))
            return true;
    return false;
}

static const char *newest_ar_key(const struct wave *wave)
{
    return wave->weeks[wave->count - 1].working->ar_key;
}

/* True if none of the eight waves before the newest has one of its set-ups. */
static bool has_new_setup(const struct series *series)
{
    if (series->wave_count < 2)
        return false;
    const struct wave *newest = &series->waves[series->wave_count - 1];
    for (size_t back = 1; back <= newest_of(series->wave_count - 1, VERDICT_WAVES); back++)
        for (size_t i = 0; i < newest->count; i++)
            if (has_ar_key(newest - back, newest->weeks[i].working->ar_key))
                return false;
    return true;
}

/* True if the newest set-up was replaced and came back among these waves. */
static bool alternates(const struct wave *waves, size_t count)
{
    const char *key = newest_ar_key(&waves[count - 1]);
    bool gone = false;
    for (size_t i = count; i-- > 0;) {
        bool here = has_ar_key(&waves[i], key);
        if (here && gone)
            return true;
        gone |= !here;
    }
    return false;
}

/* If set-ups alternate, the trend is that of the newest wave's set-up, if it has enough waves; else that of all
 * together, each compared with the same set-up. */
static struct verdict_trend trend_of_newest(const struct wave *waves, size_t count)
{
    struct verdict_trend all = trend_of_waves(waves, count, NULL);
    if (!count || !alternates(waves, count))
        return all;
    struct verdict_trend own = trend_of_waves(waves, count, newest_ar_key(&waves[count - 1]));
    return own.waves >= VERDICT_LEAST_WAVES ? own : all;
}

/* The other set-ups of waves[0 .. count), newest first. */
static void add_others(struct arena *arena, struct verdict *verdict, const struct wave *waves, size_t count)
{
    const char *seen[OTHER_SETUPS_MOST + 1] = {newest_ar_key(&waves[count - 1])};
    LIST(struct verdict_trend) others = {0};
    for (size_t i = count - 1; i-- > 0 && others.count < OTHER_SETUPS_MOST;) {
        const char *key = newest_ar_key(&waves[i]);
        bool known = false;
        for (size_t j = 0; j <= others.count; j++)
            known |= !strcmp(seen[j], key);
        if (known)
            continue;
        *LIST_ADD(arena, &others) = trend_of_waves(waves, i + 1, key);
        seen[others.count] = key;
    }
    verdict->others = others.items;
    verdict->other_count = others.count;
}

static double usual_interval_days(const struct series *series)
{
    struct arena *scratch = arena_new();
    double *weeks = ARENA_ARRAY(scratch, double, series->week_count);
    for (size_t i = 1; i < series->week_count; i++)
        weeks[i - 1] = series->weeks[i].week - series->weeks[i - 1].week;
    double median = median_of(weeks, series->week_count - 1);
    arena_free(scratch);
    return isnan(median) ? 0 : 7 * median;
}

static bool is_stale(const struct series *series, day_number as_of)
{
    return series->lifter_last - as_of > fmax(STALE_LEAST_DAYS, STALE_INTERVALS * usual_interval_days(series));
}

/* Does the newest wave keep the percentages of the wave before, of a 1RM that was tested in between? */
static bool follows_test(const struct series *series)
{
    if (series->wave_count < 2)
        return false;
    const struct wave *newest = &series->waves[series->wave_count - 1], *before = newest - 1;
    const struct one_rm *test = &newest->weeks->working->one_rm, *old = &before->weeks->working->one_rm;
    if (test->from != ONE_RM_TESTED || old->from == ONE_RM_NONE ||
        test->day <= before->weeks[before->count - 1].last_day || test->day > newest->weeks->first_day ||
        fabs(test->kg / old->kg - 1) < NEW_ONE_RM)
        return false;
    size_t steps = 0;
    for (size_t i = 0; i < newest->count; i++) {
        const struct wave_week *week = &newest->weeks[i], *like = counterpart(before, week, false);
        if (!like)
            continue;
        if (!(fabs(week->straight_share - like->straight_share) <= FOLLOWS_POINTS))
            return false;
        steps++;
    }
    return steps > 0;
}

/* No waves, or a single endless one: the trend is then over weeks. */
static bool has_no_waves(const struct series *series)
{
    return !series->wave_count || series->waves[series->wave_count - 1].count >= LONG_WAVE;
}

static enum verdict_kind kind_of_trend(const struct verdict_trend *trend)
{
    static const enum verdict_kind kinds[] = {
        [TENDENCY_TOO_EARLY] = VERDICT_TOO_EARLY, [TENDENCY_OPEN] = VERDICT_OPEN,
        [TENDENCY_LEVEL] = VERDICT_LEVEL,         [TENDENCY_RISING] = VERDICT_RISING,
        [TENDENCY_FALLING] = VERDICT_FALLING,
    };
    return kinds[trend->tendency];
}

static void judge_weeks(struct verdict *verdict, const struct series *series)
{
    size_t count = newest_of(series->week_count, VERDICT_WEEKS);
    verdict->trend = trend_of_weeks(series->weeks + series->week_count - count, count);
    verdict->kind = VERDICT_NO_WAVES;
}

static void judge_waves(struct arena *arena, struct verdict *verdict, const struct series *series)
{
    size_t left_out = follows_test(series), count = newest_of(series->wave_count - left_out, VERDICT_WAVES);
    const struct wave *waves = series->waves + (series->wave_count - left_out - count);
    if (has_new_setup(series)) {
        verdict->kind = VERDICT_NEW_SETUP;
        verdict->trend = trend_of_waves(&series->waves[series->wave_count - 1], 1, NULL);
        add_others(arena, verdict, series->waves + (series->wave_count - newest_of(series->wave_count, VERDICT_WAVES)),
                   newest_of(series->wave_count, VERDICT_WAVES));
        return;
    }
    verdict->trend = trend_of_newest(waves, count);
    verdict->kind = left_out ? VERDICT_RESTARTED : kind_of_trend(&verdict->trend);
    if (left_out)
        verdict->tested = series->waves[series->wave_count - 1].weeks->working->one_rm;
    if (count)
        add_others(arena, verdict, waves, count);
}

static const struct verdict_fact no_fact = {.over_kg = {NAN, NAN, NAN, NAN},
                                            .over_share = {NAN, NAN, NAN, NAN},
                                            .over_volume_kg = NAN,
                                            .over_ar_kg = NAN,
                                            .over_weight_kg = NAN,
                                            .ar = "",
                                            .against_ar = "",
                                            .wave_first = NO_DAY,
                                            .wave_last = NO_DAY,
                                            .against_first = NO_DAY,
                                            .against_last = NO_DAY};

static struct verdict judge(struct arena *arena, const struct series *series)
{
    const struct wave_week *last = &series->weeks[series->week_count - 1];
    struct verdict verdict = {.lifter = last->lifter,
                              .lift = last->lift,
                              .focus = last->focus,
                              .as_of = last->last_day,
                              .week = last->week,
                              .waves = (unsigned)series->wave_count,
                              .tested = NO_ONE_RM,
                              .log_last = series->lifter_last};
    for (size_t i = 0; i < series->week_count; i++)
        verdict.has_ar |= *series->weeks[i].ar != 0;
    if (has_no_waves(series))
        judge_weeks(&verdict, series);
    else
        judge_waves(arena, &verdict, series);
    if (is_stale(series, verdict.as_of))
        verdict.kind = VERDICT_STALE;
    if (series->wave_count) {
        verdict.newest = &series->waves[series->wave_count - 1];
        verdict.against = wave_to_compare(series);
    }
    verdict.fact = verdict.against ? fact_of(verdict.newest, verdict.against) : no_fact;
    return verdict;
}

/* The training's sets are sorted by lifter and day. */
static day_number last_day_of(const struct training *training, size_t *from, const char *lifter)
{
    day_number last = NO_DAY;
    while (*from < training->count && strcmp(training->sets[*from].lifter, lifter) != 0)
        ++*from;
    for (; *from < training->count && !strcmp(training->sets[*from].lifter, lifter); ++*from)
        if (training->options.to == NO_DAY || training->sets[*from].set->day <= training->options.to)
            last = training->sets[*from].set->day;
    return last;
}

const struct verdict *verdicts_make(struct arena *arena, const struct training *training, const struct waves *waves,
                                    day_number from, size_t *count)
{
    LIST(struct verdict) list = {0};
    size_t sets = 0, wave = 0;
    struct series series = {0};
    for (size_t i = 0, end; i < waves->all_count; i = end) {
        const struct wave_week *first = &waves->all[i];
        if (!i || strcmp(first->lifter, waves->all[i - 1].lifter) != 0)
            series.lifter_last = last_day_of(training, &sets, first->lifter);
        for (end = i; end < waves->all_count && same_series(first, &waves->all[end]); end++)
            ;
        series.weeks = first;
        series.week_count = end - i;
        series.waves = &waves->waves[wave];
        while (wave < waves->wave_count && same_series(first, waves->waves[wave].weeks))
            wave++;
        series.wave_count = (size_t)(&waves->waves[wave] - series.waves);
        if (first->focus != FOCUS_TEST && (from == NO_DAY || waves->all[end - 1].last_day >= from))
            *LIST_ADD(arena, &list) = judge(arena, &series);
    }
    *count = list.count;
    return list.items;
}
