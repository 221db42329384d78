#include "analysis/findings/findings_doubts.h"

#include "analysis/judging/impossible.h"
#include "analysis/slips.h"
#include "base/names.h"

#include <math.h>

#define SAME_KG 1e-6 /* rounding left over from unit conversion */

/* --- slips -------------------------------------------------------------------------------------------------------- */

struct map *slips_by_set(struct arena *scratch, const struct training *training)
{
    struct map *map = map_new(scratch);
    for (size_t i = 0; i < training->slip_count; i++)
        map_put(map, (const char *)&training->slips[i].set, sizeof training->slips[i].set,
                (void *)(uintptr_t)&training->slips[i]);
    return map;
}

/* Worded as a question: only the lifter knows what was lifted. */
static const char *question(struct findings_maker *maker, const struct evaluated_set *set, const struct slip *slip)
{
    const char *written = load_words(maker, set->effect->straight_kg), *around = load_words(maker, slip->around_kg);
    const char *meant = isnan(slip->likely_kg)
                            ? "what was lifted?"
                            : arena_printf(maker->scratch, "was it %s?", load_words(maker, slip->likely_kg));
    return slip->kind == SLIP_AMONG_SETS
               ? arena_printf(maker->scratch, "%s among sets of %s: %s", written, around, meant)
               : arena_printf(maker->scratch, "%s where the sessions around have %s: %s", written, around, meant);
}

/* Sets of one day with the same weight make one question. */
static bool asks_the_same(const struct finding *finding, const struct evaluated_set *set)
{
    return finding && finding->last->set->day == set->set->day &&
           fabs(finding->value - set->effect->straight_kg) <= SAME_KG;
}

static void look_for_slips(struct findings_maker *maker, const struct lift_review *review)
{
    struct finding *finding = NULL;
    for (size_t i = 0; i < review->sets.count; i++) {
        const struct evaluated_set *set = review->sets.sets[i];
        const struct slip *slip = set->doubts & DOUBT_SLIP
                                      ? map_get(maker->slips, (const char *)&set->set, sizeof set->set)
                                      : NULL;
        if (!slip)
            continue;
        if (!asks_the_same(finding, set))
            finding = finding_new(maker, FINDING_SLIP);
        finding_add(finding, set);
        if (finding_update_worst(finding, set->effect->straight_kg, slip->around_kg))
            finding->fact = question(maker, set, slip);
    }
}

/* --- impossible loads --------------------------------------------------------------------------------------------- */

struct doubting
{
    struct findings_maker *maker;
    const struct lift_review *review;
    struct episodes episodes;
    size_t session;
};

static struct finding *finding_of(struct doubting *doubting, const struct evaluated_set *set, const char *key,
                                  enum finding_unit unit)
{
    struct finding *finding = episode_finding(doubting->maker, &doubting->episodes, FINDING_LOAD_IMPOSSIBLE, key,
                                              doubting->session);
    finding->unit = unit;
    finding_add(finding, set);
    return finding;
}

static void tell_reps(struct doubting *doubting, const struct evaluated_set *set)
{
    struct findings_maker *maker = doubting->maker;
    double above = set->effect->bottom_kg / set->one_rm.kg - 1;
    struct finding *finding = finding_of(doubting, set, "repetitions", FINDING_SHARE);
    if (finding_update_worst(finding, above, maker->limits[FINDING_LOAD_IMPOSSIBLE]))
        finding->fact = arena_printf(maker->scratch, "%s at the bottom for %d repetitions is %s above the 1RM of %s",
                                     load_words(maker, set->effect->bottom_kg), (int)set->set->reps,
                                     percent_words(maker, above), load_words(maker, set->one_rm.kg));
}

static void tell_heights(struct doubting *doubting, const struct evaluated_set *set)
{
    struct findings_maker *maker = doubting->maker;
    const struct loading *loading = set->loading;
    double stature_m = doubting->review->lifter ? doubting->review->lifter->stature_m : NAN;
    struct height_range range = height_range_of(set->lift, stature_m);
    struct finding *finding = finding_of(doubting, set, "heights", FINDING_PLAIN);
    if (!finding->fact)
        finding->fact = arena_printf(
            maker->scratch,
            "the bar's heights, %s at the bottom and %s at the top, should be between %s and %s, and %s to %s apart",
            length_words(maker, loading->bottom_m), length_words(maker, loading->top_m),
            length_words(maker, range.low_m), length_words(maker, range.high_m), length_words(maker, range.least_m),
            length_words(maker, range.most_m));
}

static void tell_stretch(struct doubting *doubting, const struct evaluated_set *set)
{
    struct findings_maker *maker = doubting->maker;
    for (size_t i = 0; i < set->loading->hung_count; i++) {
        const struct hung *hung = &set->loading->hung[i];
        double beyond = hung->kind == HUNG_BAND ? stretch_beyond(set->loading, &hung->band) : NAN;
        if (!(beyond > 1))
            continue;
        const char *label = hung->gym_band->label;
        struct finding *finding = finding_of(doubting, set, label, FINDING_SHARE);
        finding->subject = arena_printf(maker->arena, "band %s", label);
        if (finding_update_worst(finding, beyond, 1))
            finding->fact = arena_printf(maker->scratch,
                                         "band %s is stretched %s further than its longest measured extension", label,
                                         percent_words(maker, beyond));
    }
}

static void look_for_impossible(struct findings_maker *maker, const struct lift_review *review)
{
    struct doubting doubting = {.maker = maker, .review = review};
    day_number day = NO_DAY;
    double stature_m = review->lifter ? review->lifter->stature_m : NAN;
    for (size_t i = 0; i < review->sets.count; i++) {
        const struct evaluated_set *set = review->sets.sets[i];
        doubting.session += set->set->day != day;
        day = set->set->day;
        if (!(set->doubts & DOUBT_IMPOSSIBLE) || !is_work(set))
            continue;
        unsigned loading = set->has_ar ? impossible_loading(set->loading, set->lift, stature_m) : 0;
        if (loading & IMPOSSIBLE_HEIGHTS)
            tell_heights(&doubting, set);
        if (loading & IMPOSSIBLE_STRETCH)
            tell_stretch(&doubting, set);
        if (impossible_reps(set, maker->limits[FINDING_LOAD_IMPOSSIBLE]))
            tell_reps(&doubting, set);
    }
}

void find_doubts(struct findings_maker *maker, const struct lift_review *review)
{
    look_for_slips(maker, review);
    look_for_impossible(maker, review);
}
