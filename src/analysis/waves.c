#include "analysis/waves.h"

#include "analysis/evaluated_set.h"
#include "analysis/statistics/statistics.h"
#include "analysis/waves/wave_cuts.h"
#include "analysis/waves/wave_weeks.h"

#include <math.h>
#include <string.h>

bool same_series(const struct wave_week *a, const struct wave_week *b)
{
    return a->focus == b->focus && !strcmp(a->lift, b->lift) && !strcmp(a->lifter, b->lifter);
}

bool same_ar(const struct evaluated_set *a, const struct evaluated_set *b)
{
    return a->ar_key == b->ar_key || !strcmp(a->ar_key, b->ar_key);
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

static const struct wave_week *same_step(const struct wave *wave, unsigned step)
{
    for (size_t i = 0; i < wave->count; i++)
        if (wave->weeks[i].step == step)
            return &wave->weeks[i];
    return NULL;
}

/* `previous`: the wave before of the same lifter, lift and focus; NULL: none. */
static void measure_wave(struct wave_week *weeks, size_t count, const struct wave *previous)
{
    for (size_t i = 0; i < count; i++) {
        const struct wave_week *before = previous ? same_step(previous, weeks[i].step) : NULL;
        if (i)
            weeks[i].step_points = difference(weeks[i].straight_share, weeks[i - 1].straight_share);
        if (before && !weeks[i].aside && !before->aside)
            compare(&weeks[i], before);
    }
}

static void lay_out(struct arena *arena, struct waves *result, const struct marked_waves *marked,
                    struct week_maker *maker)
{
    struct wave *waves = ARENA_ARRAY(arena, struct wave, marked->list.count);
    struct wave_week *kept = ARENA_ARRAY(arena, struct wave_week, maker->list.count);
    for (size_t i = 0; i < maker->list.count; i++)
        compare_with_none(&maker->list.items[i]);
    for (size_t i = 0; i < marked->list.count; i++) {
        const struct marked_wave *mark = &marked->list.items[i];
        struct wave_week *first = &kept[result->count];
        memcpy(first, &maker->list.items[mark->first], mark->count * sizeof *first);
        waves[i] = (struct wave){first, mark->count, mark->end == WAVE_ENDED_BY_TOP, mark->end,
                                 mark->next == SIZE_MAX ? NULL : &maker->list.items[mark->next]};
        measure_wave(first, mark->count, first->wave > 1 ? &waves[i - 1] : NULL);
        result->count += mark->count;
    }
    *result = (struct waves){kept, result->count, waves, marked->list.count, maker->list.items, maker->list.count};
}

const struct waves *waves_make(struct arena *arena, const struct training *training)
{
    struct waves *waves = ARENA_NEW(arena, struct waves);
    struct arena *scratch = arena_new();
    struct week_maker maker = {.arena = arena, .lift_scratch = arena_new(), .week_scratch = arena_new()};
    struct marked_waves marked = {.arena = scratch};
    size_t lift_count;
    const struct lift_sets *lifts = training_by_lift(scratch, training, &lift_count);
    for (size_t i = 0; i < lift_count; i++) {
        for (int focus = FOCUS_SPEED; focus <= FOCUS_TEST; focus++) {
            size_t first = maker.list.count;
            week_maker_add(&maker, &lifts[i], (enum focus)focus);
            if (maker.list.count > first)
                mark_waves(&maker.list.items[first], first, maker.list.count - first, &marked);
        }
    }
    lay_out(arena, waves, &marked, &maker);
    arena_free(maker.lift_scratch);
    arena_free(maker.week_scratch);
    arena_free(scratch);
    return waves;
}

static bool is_within(const struct wave_week *week, day_number from, day_number to)
{
    return (from == NO_DAY || week->last_day >= from) && (to == NO_DAY || week->first_day <= to);
}

static size_t copy_within(struct wave_week *out, const struct wave_week *weeks, size_t count, day_number from,
                          day_number to)
{
    size_t kept = 0;
    for (size_t i = 0; i < count; i++)
        if (is_within(&weeks[i], from, to))
            out[kept++] = weeks[i];
    return kept;
}

const struct waves *waves_window(struct arena *arena, const struct waves *all, day_number from, day_number to)
{
    if (from == NO_DAY && to == NO_DAY)
        return all;
    struct waves *shown = ARENA_NEW(arena, struct waves);
    struct wave *waves = ARENA_ARRAY(arena, struct wave, all->wave_count);
    struct wave_week *weeks = ARENA_ARRAY(arena, struct wave_week, all->count),
                     *every = ARENA_ARRAY(arena, struct wave_week, all->all_count);
    *shown = (struct waves){.weeks = weeks, .waves = waves, .all = every};
    for (size_t i = 0; i < all->wave_count; i++) {
        struct wave wave = all->waves[i];
        wave.weeks = &weeks[shown->count];
        wave.count = copy_within(&weeks[shown->count], all->waves[i].weeks, all->waves[i].count, from, to);
        shown->count += wave.count;
        if (wave.count)
            waves[shown->wave_count++] = wave;
    }
    shown->all_count = copy_within(every, all->all, all->all_count, from, to);
    return shown;
}
