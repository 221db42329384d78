#include "analysis/waves.h"

#include "analysis/statistics/statistics.h"
#include "base/names.h"
#include "analysis/lifted.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define FALL 0.005           /* of the load: less is no fall */
#define LONGEST_GAP_WEEKS 2  /* Mondays at most 14 days apart */
#define LIGHT_WEEK_RISE 1.15 /* after a light week the weight comes back by more */
#define WORKING_LEAST 0.80   /* of the week's heaviest, outside speed work: most logs mark no warm-ups */
#define SAME_KG 1e-6         /* what is left of a conversion */

struct weeks
{
    struct arena *arena;
    struct arena *lift_scratch, *week_scratch; /* emptied for each lift and focus, and for each week */
    LIST(struct wave_week) list;
};

struct marked_wave /* while the weeks may still move in memory: first week and count in the list */
{
    size_t first, count;
    enum wave_end end;
    size_t next; /* SIZE_MAX: none */
};

struct marked_waves
{
    struct arena *arena;
    LIST(struct marked_wave) list;
};

bool same_series(const struct wave_week *a, const struct wave_week *b)
{
    return a->focus == b->focus && !strcmp(a->lift, b->lift) && !strcmp(a->lifter, b->lifter);
}

bool same_ar(const struct lifted *a, const struct lifted *b)
{
    return a->ar_key == b->ar_key || !strcmp(a->ar_key, b->ar_key);
}

/* Heaviest straight weight first; equal ones in their order. */
static int heaviest_first(const void *a, const void *b)
{
    const struct lifted *left = *(const struct lifted *const *)a, *right = *(const struct lifted *const *)b;
    double l = left->effect->straight_kg, r = right->effect->straight_kg;
    return l != r ? (l < r) - (l > r) : (left > right) - (left < right);
}

struct load_run /* sets of one straight weight, in sets sorted by it */
{
    const struct lifted **sets;
    size_t count, reps;
};

static struct load_run working_run(const struct lifted **sets, size_t count, enum focus focus)
{
    struct load_run best = {.sets = sets};
    double heaviest = sets[0]->effect->straight_kg;
    for (size_t start = 0, end; start < count; start = end) {
        double kg = sets[start]->effect->straight_kg;
        if (focus != FOCUS_SPEED && kg < heaviest * WORKING_LEAST - SAME_KG)
            break;
        struct load_run run = {&sets[start], 0, 0};
        for (end = start; end < count && kg - sets[end]->effect->straight_kg <= SAME_KG; end++) {
            run.count++;
            run.reps += sets[end]->set->reps;
        }
        if (run.reps > best.reps)
            best = run;
    }
    return best;
}

struct ar_tally
{
    const struct lifted *first;
    size_t reps;
};

static bool one_ar(const struct load_run *run)
{
    for (size_t i = 1; i < run->count; i++)
        if (!same_ar(run->sets[0], run->sets[i]))
            return false;
    return true;
}

static bool outdoes(const struct ar_tally *tally, const struct ar_tally *best)
{
    return tally->reps > best->reps || (tally->reps == best->reps &&
                                        counted_load(tally->first, LOAD_TOP) > counted_load(best->first, LOAD_TOP));
}

/* The first set with the AR that has most repetitions at that load, then the heavier top. */
static const struct lifted *working_set(struct arena *scratch, const struct load_run *run)
{
    if (one_ar(run)) /* as nearly always */
        return run->sets[0];
    struct map *by_ar = map_new(scratch);
    LIST(struct ar_tally *) tallies = {0};
    for (size_t i = 0; i < run->count; i++) {
        const char *key = run->sets[i]->ar_key;
        struct ar_tally *tally = map_get(by_ar, key, strlen(key));
        if (!tally) {
            tally = ARENA_NEW(scratch, struct ar_tally);
            tally->first = run->sets[i];
            map_put(by_ar, key, strlen(key), tally);
            *LIST_ADD(scratch, &tallies) = tally;
        }
        tally->reps += run->sets[i]->set->reps;
    }
    const struct ar_tally *best = tallies.items[0];
    for (size_t i = 1; i < tallies.count; i++)
        if (outdoes(tallies.items[i], best))
            best = tallies.items[i];
    return best->first;
}

static void set_working(struct wave_week *week, const struct lifted *working)
{
    /* Releasers of unknown mass leave all known: they are off before the bar is lifted. */
    bool unknown = working->effect->assumed & ASSUMED_UNKNOWN_GEAR && isnan(working->effect->mean_kg);
    week->working = working;
    week->ar = working->set->load->ar;
    for (int measure = 0; measure < LOAD_MEASURES; measure++)
        week->load_kg[measure] =
            unknown && measure != LOAD_STRAIGHT ? NAN : known_load(working, (enum load_measure)measure);
    week->straight_share = working->one_rm.kg > 0 ? week->load_kg[LOAD_STRAIGHT] / working->one_rm.kg : NAN;
    week->share = unknown ? NAN : ar_share(working);
}

/* One week from its work sets; none is added where no set has a weight. */
static void add_week(struct weeks *weeks, const struct lifted *const *sets, size_t count, enum focus focus)
{
    const struct lifted **weighed = ARENA_ARRAY(weeks->week_scratch, const struct lifted *, count);
    size_t weighed_count = 0;
    struct wave_week week = {.lifter = sets[0]->lifter, .lift = sets[0]->lift, .focus = focus, .week = sets[0]->week,
                             .first_day = sets[0]->set->day, .last_day = sets[count - 1]->set->day};
    for (size_t i = 0; i < count; i++) {
        week.sets++;
        week.lifts += sets[i]->set->reps;
        if (isnan(sets[i]->effect->straight_kg))
            continue;
        weighed[weighed_count++] = sets[i];
        for (int measure = 0; measure < LOAD_MEASURES; measure++)
            week.volume_kg[measure] += sets[i]->set->reps * counted_load(sets[i], (enum load_measure)measure);
    }
    if (weighed_count) {
        qsort(weighed, weighed_count, sizeof *weighed, heaviest_first);
        struct load_run run = working_run(weighed, weighed_count, focus);
        set_working(&week, working_set(weeks->week_scratch, &run));
        *LIST_ADD(weeks->arena, &weeks->list) = week;
    }
    arena_reset(weeks->week_scratch);
}

static void add_weeks(struct weeks *weeks, const struct lift_sets *lift, enum focus focus)
{
    const struct lifted **sets = ARENA_ARRAY(weeks->lift_scratch, const struct lifted *, lift->count);
    size_t count = 0;
    for (size_t i = 0; i < lift->count; i++)
        if (lift->sets[i]->focus == focus && is_work(lift->sets[i]))
            sets[count++] = lift->sets[i];
    for (size_t start = 0, end; start < count; start = end) {
        for (end = start; end < count && sets[end]->week == sets[start]->week; end++)
            ;
        add_week(weeks, sets + start, end - start, focus);
    }
    arena_reset(weeks->lift_scratch);
}

static bool fell(double before_kg, double after_kg)
{
    return after_kg < before_kg * (1 - FALL) - SAME_KG;
}

/* What, if anything, keeps two training weeks that follow each other from being of one wave. The top load decides where
 * the straight weight stood still; a straight weight that rose excuses it. */
static enum wave_end break_between(const struct wave_week *before, const struct wave_week *after)
{
    double straight_before = before->load_kg[LOAD_STRAIGHT], straight_after = after->load_kg[LOAD_STRAIGHT];
    if (after->week - before->week > LONGEST_GAP_WEEKS)
        return WAVE_ENDED_BY_GAP;
    if (fell(straight_before, straight_after))
        return WAVE_ENDED_BY_FALL;
    if (straight_after <= straight_before + SAME_KG && fell(before->load_kg[LOAD_TOP], after->load_kg[LOAD_TOP]))
        return WAVE_ENDED_BY_TOP;
    return WAVE_OPEN;
}

/* A lone week below the one before, after which the weight comes back: rest, and no start of anything. */
static bool is_light(const struct wave_week *weeks, size_t count, size_t i)
{
    if (i == 0 || i + 1 >= count || weeks[i].week - weeks[i - 1].week > LONGEST_GAP_WEEKS ||
        weeks[i + 1].week - weeks[i].week > LONGEST_GAP_WEEKS)
        return false;
    double before_kg = weeks[i - 1].load_kg[LOAD_STRAIGHT], kg = weeks[i].load_kg[LOAD_STRAIGHT];
    return fell(before_kg, kg) && weeks[i + 1].load_kg[LOAD_STRAIGHT] > kg * LIGHT_WEEK_RISE + SAME_KG;
}

/* Marks waves in the weeks of one lifter, lift and focus that the list holds from `first` on. */
static void mark_waves(struct weeks *weeks, size_t first, struct marked_waves *marked)
{
    size_t count = weeks->list.count - first;
    struct wave_week *list = count ? &weeks->list.items[first] : NULL;
    unsigned waves = 0;
    for (size_t i = 0; i < count; i++)
        list[i].light = is_light(list, count, i);
    for (size_t start = 0, end; start < count; start = end) {
        enum wave_end reason = list[start].light ? WAVE_ENDED_BY_LIGHT : WAVE_OPEN;
        for (end = start + 1; end < count && reason == WAVE_OPEN; end += reason == WAVE_OPEN)
            reason = list[end].light ? WAVE_ENDED_BY_LIGHT : break_between(&list[end - 1], &list[end]);
        if (end - start < 2)
            continue;
        waves++;
        for (size_t i = start; i < end; i++) {
            list[i].wave = waves;
            list[i].step = (unsigned)(i - start) + 1;
        }
        *LIST_ADD(marked->arena, &marked->list) =
            (struct marked_wave){first + start, end - start, reason, end < count ? first + end : SIZE_MAX};
    }
}

static double ar_mean_kg(const struct wave_week *week)
{
    return week->load_kg[LOAD_MEAN] - week->load_kg[LOAD_STRAIGHT];
}

static void compare(struct wave_week *week, const struct wave_week *before)
{
    week->before = before;
    week->same_ar = same_ar(week->working, before->working);
    for (int measure = 0; measure < LOAD_MEASURES; measure++)
        week->over_kg[measure] = difference(week->load_kg[measure], before->load_kg[measure]);
    week->over_volume_kg = difference(week->volume_kg[LOAD_MEAN], before->volume_kg[LOAD_MEAN]);
    week->over_weight_kg = isnan(week->over_kg[LOAD_MEAN]) ? NAN : week->over_kg[LOAD_STRAIGHT];
    week->over_ar_kg = difference(ar_mean_kg(week), ar_mean_kg(before));
}

static void compare_with_none(struct wave_week *week)
{
    for (int measure = 0; measure < LOAD_MEASURES; measure++)
        week->over_kg[measure] = NAN;
    week->over_volume_kg = week->over_ar_kg = week->over_weight_kg = week->step_points = NAN;
}

/* `previous`: the wave before of the same lifter, lift and focus; NULL: none. */
static void measure_wave(struct wave_week *weeks, size_t count, const struct wave *previous)
{
    for (size_t i = 0; i < count; i++) {
        if (i)
            weeks[i].step_points = difference(weeks[i].straight_share, weeks[i - 1].straight_share);
        if (previous && i < previous->count)
            compare(&weeks[i], &previous->weeks[i]);
    }
}

static void lay_out(struct arena *arena, struct waves *result, const struct marked_waves *marked, struct weeks *weeks)
{
    struct wave *waves = ARENA_ARRAY(arena, struct wave, marked->list.count);
    struct wave_week *kept = ARENA_ARRAY(arena, struct wave_week, weeks->list.count);
    for (size_t i = 0; i < weeks->list.count; i++)
        compare_with_none(&weeks->list.items[i]);
    for (size_t i = 0; i < marked->list.count; i++) {
        const struct marked_wave *mark = &marked->list.items[i];
        struct wave_week *first = &kept[result->count];
        memcpy(first, &weeks->list.items[mark->first], mark->count * sizeof *first);
        waves[i] = (struct wave){first, mark->count, mark->end == WAVE_ENDED_BY_TOP, mark->end,
                                 mark->next == SIZE_MAX ? NULL : &weeks->list.items[mark->next]};
        measure_wave(first, mark->count, first->wave > 1 ? &waves[i - 1] : NULL);
        result->count += mark->count;
    }
    *result = (struct waves){kept, result->count, waves, marked->list.count, weeks->list.items, weeks->list.count};
}

const struct waves *waves_make(struct arena *arena, const struct training *training)
{
    struct waves *waves = ARENA_NEW(arena, struct waves);
    struct arena *scratch = arena_new();
    struct weeks weeks = {.arena = arena, .lift_scratch = arena_new(), .week_scratch = arena_new()};
    struct marked_waves marked = {.arena = scratch};
    size_t lift_count;
    const struct lift_sets *lifts = training_by_lift(scratch, training, &lift_count);
    for (size_t i = 0; i < lift_count; i++) {
        for (int focus = FOCUS_SPEED; focus <= FOCUS_TEST; focus++) {
            size_t first = weeks.list.count;
            add_weeks(&weeks, &lifts[i], (enum focus)focus);
            mark_waves(&weeks, first, &marked);
        }
    }
    lay_out(arena, waves, &marked, &weeks);
    arena_free(weeks.lift_scratch);
    arena_free(weeks.week_scratch);
    arena_free(scratch);
    return waves;
}
