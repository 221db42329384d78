#include "analysis/overload.h"

#include <math.h>
#include <string.h>

struct sums /* over the steps at which a load is known in both waves */
{
    double over[LOAD_MEASURES], before[LOAD_MEASURES], volume, ar, weight;
    size_t known[LOAD_MEASURES], splits;
};

static void add_step(struct overload *overload, struct sums *sums, const struct wave_week *week)
{
    overload->steps++;
    overload->same_ar &= week->same_ar;
    for (int measure = 0; measure < LOAD_MEASURES; measure++) {
        if (isnan(week->over_kg[measure]))
            continue;
        sums->known[measure]++;
        sums->over[measure] += week->over_kg[measure];
        sums->before[measure] += week->before->load_kg[measure];
    }
    sums->volume += isnan(week->over_volume_kg) ? 0 : week->over_volume_kg;
    if (isnan(week->over_ar_kg) || isnan(week->over_weight_kg))
        return;
    sums->splits++;
    sums->ar += week->over_ar_kg;
    sums->weight += week->over_weight_kg;
}

/* -1 lighter, 0 the same, 1 heavier; 2 unknown. */
static int direction(double share)
{
    return isnan(share) ? 2 : share > OVERLOAD_SAME ? 1 : share < -OVERLOAD_SAME ? -1 : 0;
}

static enum overload_verdict judge(const struct overload *overload)
{
    int bottom = direction(overload->over_share[LOAD_BOTTOM]), top = direction(overload->over_share[LOAD_TOP]);
    if (bottom == 2 && top == 2)
        return OVERLOAD_UNKNOWN;
    if (bottom == 1 && top == 1)
        return OVERLOAD_BOTH;
    if (top == 1)
        return OVERLOAD_TOP;
    if (bottom == 1)
        return OVERLOAD_BOTTOM;
    return bottom == -1 || top == -1 ? OVERLOAD_LIGHTER : OVERLOAD_NONE;
}

/* Theil and Sen's slope over all waves: the newest two may be a step back in a year that goes up. */
static struct slope top_slope(struct arena *arena, const struct wave_week *weeks, size_t count)
{
    double *wave = ARENA_ARRAY(arena, double, count), *top = ARENA_ARRAY(arena, double, count);
    size_t points = 0;
    for (size_t i = 0; i < count; i++) {
        bool is_last = i + 1 == count || weeks[i + 1].wave != weeks[i].wave;
        if (!is_last || isnan(weeks[i].load_kg[LOAD_TOP]))
            continue;
        wave[points] = weeks[i].wave;
        top[points++] = weeks[i].load_kg[LOAD_TOP];
    }
    return theil_sen(wave, top, points, 0.95);
}

static void compare(struct overload *overload, const struct wave_week *weeks, size_t count)
{
    struct sums sums = {{0}, {0}, 0, 0, 0, {0}, 0};
    overload->same_ar = true;
    for (size_t i = 0; i < count; i++) {
        overload->has_ar |= *weeks[i].ar;
        if (weeks[i].wave == overload->newest && weeks[i].before)
            add_step(overload, &sums, &weeks[i]);
    }
    if (!overload->steps) {
        overload->verdict = OVERLOAD_ONE_WAVE;
        return;
    }
    for (int measure = 0; measure < LOAD_MEASURES; measure++) {
        overload->over_kg[measure] = sums.over[measure] / (double)sums.known[measure]; /* 0 / 0: unknown */
        overload->over_share[measure] = sums.over[measure] / sums.before[measure];
    }
    overload->over_volume_kg = sums.volume / (double)overload->steps;
    overload->over_ar_kg = sums.ar / (double)sums.splits;
    overload->over_weight_kg = sums.weight / (double)sums.splits;
    overload->before = overload->newest - 1;
    overload->verdict = judge(overload);
}

const struct overload *overload_make(struct arena *arena, const struct waves *waves, size_t *count)
{
    LIST(struct overload) list = {0};
    size_t from = 0, to; /* waves->weeks stands in the same order */
    for (size_t i = 0, end; i < waves->all_count; i = end) {
        const struct wave_week *first = &waves->all[i];
        struct overload *overload = LIST_ADD(arena, &list);
        *overload = (struct overload){.lifter = first->lifter, .lift = first->lift, .focus = first->focus};
        for (end = i; end < waves->all_count && same_series(first, &waves->all[end]); end++)
            overload->has_ar |= *waves->all[end].ar != 0;
        for (to = from; to < waves->count && same_series(first, &waves->weeks[to]); to++)
            overload->waves = overload->newest = waves->weeks[to].wave;
        overload->verdict = OVERLOAD_NO_WAVE;
        if (overload->waves) {
            compare(overload, &waves->weeks[from], to - from);
            overload->top = top_slope(arena, &waves->weeks[from], to - from);
        }
        from = to;
    }
    *count = list.count;
    return list.items;
}
