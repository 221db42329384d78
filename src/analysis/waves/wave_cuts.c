#include "analysis/waves/wave_cuts.h"

#include "analysis/statistics/statistics.h"
#include "analysis/waves/wave_steps.h"

#include <math.h>

#define LONGEST_GAP_WEEKS 2 /* Mondays at most 14 days apart */
#define MOST_GAP_WEEKS 6    /* however rarely a lift is trained */
#define USUAL_RISES 0.4     /* of the usual rise: a smaller rise is not a step up */
#define LEAST_RISES 3
#define LIGHT_WEEK_RISE 1.15 /* the load after a light week is higher by more than this */
#define LIGHT_WEEK_REPS 0.62 /* of the median */
#define LIGHT_WEEK_FALL 0.02 /* the weight after a light week does not fall by more than this */
#define ASIDE_ABOVE 1.12     /* of the highest nearby */
#define ASIDE_BELOW 0.62     /* of the lowest nearby */
#define ASIDE_ABOVE_END 1.25 /* the same at an end of the log, where only one side is known */
#define ASIDE_BELOW_END 0.50
#define NEAR_WEEKS 4
#define LEAST_NEAR 3
#define NEAR_STARTS_WEEKS 26 /* starts of waves within half a year show how low waves begin */
#define START_BELOW 0.93     /* of the highest start nearby: a lower week is rest */
#define STEEP_STARTS 0.6     /* share of them that must begin with a steep rise */
#define STEEP_NEXT 0.93      /* ratio of the next rise to the first, below which it is steep */
#define SAME_KG 1e-6         /* rounding left over from unit conversion */

struct cutting
{
    struct wave_week *weeks;
    size_t count;
    size_t *real; /* indices of the weeks that are not set aside */
    size_t real_count;
    struct usual usual;
    struct arena *scratch;
};

bool load_fell(double before_kg, double after_kg, double share)
{
    return after_kg < before_kg * (1 - share) - SAME_KG;
}

static double straight_kg(const struct wave_week *week)
{
    return week->load_kg[LOAD_STRAIGHT];
}

static double top_kg(const struct wave_week *week)
{
    return week->load_kg[LOAD_TOP];
}

/* --- what is usual ------------------------------------------------------------------------------------------------------------ */

struct usual usual_of(const struct wave_week *weeks, size_t count)
{
    struct usual usual = {LONGEST_GAP_WEEKS, LONGEST_GAP_WEEKS / 2, -1, NAN};
    struct arena *scratch = arena_new();
    double *values = ARENA_ARRAY(scratch, double, count);
    for (size_t i = 0; i < count; i++)
        values[i] = (double)weeks[i].main_lifts;
    usual.reps = median_of(values, count);
    for (size_t i = 1; i < count; i++)
        values[i - 1] = weeks[i].week - weeks[i - 1].week;
    if (count > LEAST_NEAR && weeks->focus != FOCUS_TEST) /* tests months apart are not a wave */
        usual.longest_gap = fmin(MOST_GAP_WEEKS, fmax(LONGEST_GAP_WEEKS, 2 * median_of(values, count - 1)));
    usual.longest_step = floor(usual.longest_gap / 2);
    arena_free(scratch);
    return usual;
}

static const struct wave_week *real_week(const struct cutting *cutting, size_t i)
{
    return &cutting->weeks[cutting->real[i]];
}

static void find_usual_rise(struct cutting *cutting)
{
    double *rises = ARENA_ARRAY(cutting->scratch, double, cutting->real_count);
    size_t count = 0;
    for (size_t i = 1; i < cutting->real_count; i++) {
        const struct wave_week *before = real_week(cutting, i - 1), *after = real_week(cutting, i);
        if (after->week - before->week <= cutting->usual.longest_step &&
            straight_kg(after) > straight_kg(before) * (1 + WAVE_FALL))
            rises[count++] = straight_kg(after) / straight_kg(before) - 1;
    }
    if (count >= LEAST_RISES)
        cutting->usual.least_rise = USUAL_RISES * median_of(rises, count);
}

/* --- weeks set aside ------------------------------------------------------------------------------------------------------------ */

static bool is_far_off(const struct wave_week *weeks, size_t count, size_t at)
{
    double highest = 0, lowest = INFINITY;
    size_t near = 0, first = at > NEAR_WEEKS ? at - NEAR_WEEKS : 0;
    for (size_t i = first; i < count && i <= at + NEAR_WEEKS; i++) {
        if (i == at)
            continue;
        near++;
        highest = fmax(highest, straight_kg(&weeks[i]));
        lowest = fmin(lowest, straight_kg(&weeks[i]));
    }
    bool at_end = !at || at + 1 == count;
    double kg = straight_kg(&weeks[at]), above = at_end ? ASIDE_ABOVE_END : ASIDE_ABOVE,
           below = at_end ? ASIDE_BELOW_END : ASIDE_BELOW;
    return near >= LEAST_NEAR && (kg > above * highest || kg < below * lowest);
}

/* A week far below the others with few repetitions, or between the end of one wave and the beginning of the next, is
 * rest, not a slip. */
static bool is_rest(const struct cutting *cutting, size_t i)
{
    const struct wave_week *week = &cutting->weeks[i];
    if (!i || straight_kg(week) >= straight_kg(week - 1))
        return false;
    return (double)week->main_lifts <= LIGHT_WEEK_REPS * cutting->usual.reps ||
           (i + 1 < cutting->count && load_fell(straight_kg(week - 1), straight_kg(week + 1), WAVE_FALL));
}

static void set_aside(struct cutting *cutting)
{
    cutting->real = ARENA_ARRAY(cutting->scratch, size_t, cutting->count);
    for (size_t i = 0; i < cutting->count; i++) {
        cutting->weeks[i].aside = cutting->weeks[i].far_off = is_far_off(cutting->weeks, cutting->count, i) &&
                                                              !is_rest(cutting, i);
        if (!cutting->weeks[i].aside)
            cutting->real[cutting->real_count++] = i;
    }
}

/* --- light weeks ---------------------------------------------------------------------------------------------------------------- */

/* Where a wave may begin: the load falls to the real week `i`, and another week follows soon. */
static bool starts_near(const struct cutting *cutting, size_t i, const struct wave_week *around)
{
    const struct wave_week *before = real_week(cutting, i - 1), *start = real_week(cutting, i),
                           *after = real_week(cutting, i + 1);
    return load_fell(straight_kg(before), straight_kg(start), WAVE_FALL) &&
           after->week - start->week <= LONGEST_GAP_WEEKS && start->week - around->week <= NEAR_STARTS_WEEKS &&
           around->week - start->week <= NEAR_STARTS_WEEKS;
}

/* How the rise after the start compares with the next rise. */
static double bend_after(const struct cutting *cutting, size_t i)
{
    double start = straight_kg(real_week(cutting, i)), next = straight_kg(real_week(cutting, i + 1));
    double third = straight_kg(real_week(cutting, i + 2 < cutting->real_count ? i + 2 : i + 1));
    return (third / next) / (next / start);
}

/* Do the waves nearby begin as low as the real week `at`, and as steeply? Then it is a start like the others. */
static bool begins_waves(const struct cutting *cutting, size_t at)
{
    const struct wave_week *week = real_week(cutting, at);
    double highest = 0, *bends = ARENA_ARRAY(cutting->scratch, double, cutting->real_count);
    size_t starts = 0, steep = 0;
    for (size_t i = 1; i + 1 < cutting->real_count; i++) {
        if (!starts_near(cutting, i, week))
            continue;
        starts++;
        highest = fmax(highest, straight_kg(real_week(cutting, i)));
        if (straight_kg(real_week(cutting, i + 1)) > LIGHT_WEEK_RISE * straight_kg(real_week(cutting, i)))
            bends[steep++] = bend_after(cutting, i);
    }
    if (starts < LEAST_NEAR || straight_kg(week) < START_BELOW * highest)
        return false;
    return (double)steep < STEEP_STARTS * (double)starts || !(median_of(bends, steep) < STEEP_NEXT);
}

static bool is_light(const struct cutting *cutting, size_t i)
{
    if (real_week(cutting, i)->working->set->light) /* it is marked in the log */
        return true;
    if (i == 0 || i + 1 >= cutting->real_count)
        return false;
    const struct wave_week *before = real_week(cutting, i - 1), *week = real_week(cutting, i),
                           *after = real_week(cutting, i + 1);
    if (week->week - before->week > cutting->usual.longest_gap || after->week - week->week > cutting->usual.longest_gap)
        return false;
    double kg = straight_kg(week);
    if (kg <= straight_kg(before) + SAME_KG && (double)week->main_lifts <= LIGHT_WEEK_REPS * cutting->usual.reps &&
        !load_fell(kg, straight_kg(after), LIGHT_WEEK_FALL))
        return true;
    return load_fell(straight_kg(before), kg, WAVE_FALL) && straight_kg(after) > kg * LIGHT_WEEK_RISE + SAME_KG &&
           !begins_waves(cutting, i);
}

/* --- waves ---------------------------------------------------------------------------------------------------------------------- */

/* Why a week cannot belong to the wave whose newest week is `newest`, and whose newest week not set aside is `before`
 * (NULL: none). The top load decides if the straight weight stayed the same; a higher straight weight excuses a lower
 * top load. */
static enum wave_end break_between(const struct usual *usual, const struct wave_week *newest,
                                   const struct wave_week *before, const struct wave_week *week)
{
    if (week->week - newest->week > usual->longest_gap)
        return WAVE_ENDED_BY_GAP;
    if (!before || week->aside)
        return WAVE_OPEN;
    double kg_before = straight_kg(before), kg = straight_kg(week);
    if (load_fell(kg_before, kg, WAVE_FALL))
        return WAVE_ENDED_BY_FALL;
    if (kg <= kg_before + SAME_KG && load_fell(top_kg(before), top_kg(week), WAVE_FALL))
        return WAVE_ENDED_BY_TOP;
    if (week->week - before->week > usual->longest_step && kg < kg_before * (1 + usual->least_rise))
        return WAVE_ENDED_BY_GAP;
    return WAVE_OPEN;
}

/* The end of the run that begins at `start`, and why it ends there. */
static size_t run_end(const struct cutting *cutting, size_t start, enum wave_end *reason)
{
    const struct wave_week *weeks = cutting->weeks, *before = weeks[start].aside ? NULL : &weeks[start];
    *reason = weeks[start].light ? WAVE_ENDED_BY_LIGHT : WAVE_OPEN;
    for (size_t end = start + 1; end < cutting->count; end++) {
        if (*reason == WAVE_OPEN)
            *reason = weeks[end].light ? WAVE_ENDED_BY_LIGHT
                                       : break_between(&cutting->usual, &weeks[end - 1], before, &weeks[end]);
        if (*reason != WAVE_OPEN)
            return end;
        if (!weeks[end].aside)
            before = &weeks[end];
    }
    return cutting->count;
}

static void cut(struct cutting *cutting, size_t first, struct marked_waves *marked)
{
    unsigned waves = 0;
    for (size_t start = 0, end; start < cutting->count; start = end) {
        enum wave_end reason;
        end = run_end(cutting, start, &reason);
        if (end - start < 2)
            continue;
        waves++;
        for (size_t i = start; i < end; i++) {
            cutting->weeks[i].wave = waves;
            cutting->weeks[i].step = (unsigned)(i - start) + 1;
        }
        *LIST_ADD(marked->arena, &marked->list) = (struct marked_wave){first + start, end - start, reason,
                                                                       end < cutting->count ? first + end : SIZE_MAX};
    }
}

void mark_waves(struct wave_week *weeks, size_t first, size_t count, struct marked_waves *marked)
{
    struct cutting cutting = {.weeks = weeks, .count = count, .scratch = arena_new()};
    size_t waves_before = marked->list.count;
    cutting.usual = usual_of(weeks, count);
    set_aside(&cutting);
    find_usual_rise(&cutting);
    for (size_t i = 0; i < cutting.real_count; i++)
        cutting.weeks[cutting.real[i]].light = is_light(&cutting, i);
    cut(&cutting, first, marked);
    struct marked_wave *added = waves_before ? marked->list.items + waves_before
                                             : marked->list.items; /* NULL if no wave was marked yet */
    size_t added_count = marked->list.count - waves_before;
    place_steps(weeks, first, added, added_count);
    set_aside_off_place(weeks, first, added, added_count);
    arena_free(cutting.scratch);
}
