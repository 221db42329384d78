#include "analysis/judging/judging.h"

#include "analysis/judging/impossible.h"
#include "analysis/judging/lift_states.h"
#include "analysis/slips.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define SPEED_MOST_REPS 3
#define SPEED_LEAST_SETS 6
#define STRENGTH_MOST_REPS 5
#define SAME_KG 1e-6 /* loads closer than this are the same: rounding left over from unit conversion */

/* --- the current 1RM ------------------------------------------------------------------------------------------- */

static bool is_impossible(struct training_maker *maker, const struct evaluated_set *evaluated)
{
    if (maker->impossible_off)
        return false;
    if (evaluated->has_ar && evaluated->loading != maker->loading) { /* many sets share one loading */
        maker->loading = evaluated->loading;
        maker->impossible = impossible_loading(evaluated->loading, evaluated->lift,
                                               maker->lifter ? maker->lifter->stature_m : NAN);
    }
    return (evaluated->has_ar && maker->impossible) || impossible_reps(evaluated, maker->above);
}

static void number_and_measure(struct training_maker *maker, struct evaluated_set *day, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        struct evaluated_set *evaluated = &day[i];
        struct lift_state *state = lift_state_of(maker, evaluated->set->lift);
        state->number = state->day == evaluated->set->day ? state->number + 1 : 1;
        state->day = evaluated->set->day;
        if (state->number == 1) /* a day's sets count for the 1RM only after the day is over */
            state->one_rm = state->tested.from != ONE_RM_NONE ? state->tested : one_rm_rated(&state->rated, state->day);
        evaluated->number = state->number;
        evaluated->one_rm = state->one_rm;
        if (is_impossible(maker, evaluated))
            evaluated->doubts |= DOUBT_IMPOSSIBLE;
        evaluated->assumed = evaluated->set->assumed | evaluated->effect->assumed;
        if (evaluated->one_rm.from == ONE_RM_ESTIMATED && !isnan(evaluated->effect->straight_kg))
            evaluated->assumed |= ASSUMED_ONE_REP_MAX;
    }
}

static bool same_lift_and_load(const struct evaluated_set *a, const struct evaluated_set *b)
{
    double left = a->effect->straight_kg, right = b->effect->straight_kg;
    return a->set->lift == b->set->lift && (fabs(left - right) <= SAME_KG || (isnan(left) && isnan(right)));
}

/* Where none is logged, training.c may decide otherwise when all days are known. */
static void find_focus(struct evaluated_set *day, size_t count)
{
    for (size_t i = 0; i < count; i++)
        day[i].focus = day[i].set->focus != FOCUS_UNSAID        ? (enum focus)day[i].set->focus
                       : day[i].set->reps <= STRENGTH_MOST_REPS ? FOCUS_STRENGTH
                                                                : FOCUS_VOLUME;
}

/* --- a day's estimates ---------------------------------------------------------------------------------------------- */

#define LOOK_AT 64 /* sets of the day to each side: no session has more, and the square of a million takes for ever */

/* Many short sets with one weight and no logged effort are far from failure, whatever the focus. */
static bool is_one_of_many(const struct evaluated_set *day, size_t count, const struct evaluated_set *evaluated)
{
    size_t sets = 0, at = (size_t)(evaluated - day);
    if (evaluated->set->reps > SPEED_MOST_REPS || count < SPEED_LEAST_SETS)
        return false;
    for (size_t i = at > LOOK_AT ? at - LOOK_AT : 0; i < count && i <= at + LOOK_AT && sets < SPEED_LEAST_SETS; i++)
        sets += is_work(&day[i]) && same_lift_and_load(&day[i], evaluated) && day[i].set->reps <= SPEED_MOST_REPS;
    return sets >= SPEED_LEAST_SETS;
}

static void rate(struct arena *arena, struct rated *rated, const struct evaluated_set *day, size_t count,
                 const struct evaluated_set *evaluated)
{
    const struct set *set = evaluated->set;
    bool sure = set->to_failure || effort_is_sure(set->rpe, set->rir);
    if (isnan(evaluated->e1rm_low_kg) || !is_believed(evaluated) || set->weight->straight == STRAIGHT_PERCENT ||
        evaluated->focus == FOCUS_SPEED || evaluated->focus == FOCUS_SKILL ||
        (!sure && is_one_of_many(day, count, evaluated)))
        return;
    rated_add(arena, rated, set->day, evaluated->effect->bottom_kg, evaluated->e1rm_low_kg, sure);
}

static void rate_day(struct training_maker *maker, const struct evaluated_set *day, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (lift_state_of(maker, day[i].set->lift)->tested.from == ONE_RM_NONE)
            rate(maker->kept, &lift_state_of(maker, day[i].set->lift)->rated, day, count, &day[i]);
}

struct one_rm one_rm_estimated_on(const struct training *training, uint32_t lifter, uint32_t lift, day_number day)
{
    struct arena *scratch = arena_new();
    struct rated rated = {0};
    rated_clear(&rated);
    for (size_t start = 0, end; start < training->count; start = end) {
        const struct set *first = training->sets[start].set;
        for (end = start; end < training->count && training->sets[end].set->lifter == first->lifter &&
                          training->sets[end].set->day == first->day;
             end++)
            ;
        if (first->lifter != lifter || first->day >= day)
            continue;
        one_rm_rated(&rated, first->day); /* makes the current 1RM known, against which light work is judged */
        for (size_t i = start; i < end; i++)
            if (training->sets[i].set->lift == lift)
                rate(scratch, &rated, &training->sets[start], end - start, &training->sets[i]);
    }
    struct one_rm one_rm = one_rm_rated(&rated, day);
    arena_free(scratch);
    return one_rm;
}

/* A lifter's sets lift by lift, each in order of day and place. */
static void find_slips(struct training_maker *maker, struct evaluated_set *sets, size_t count)
{
    struct evaluated_set **room = ARENA_ARRAY(maker->scratch, struct evaluated_set *, count);
    maker->lifts_seen.count = 0;
    for (size_t i = 0; i < count; i++) {
        struct lift_state *state = lift_state_of(maker, sets[i].set->lift);
        if (!state->count++)
            *LIST_ADD(maker->kept, &maker->lifts_seen) = sets[i].set->lift;
    }
    for (size_t i = 0; i < maker->lifts_seen.count; i++) {
        struct lift_state *state = &maker->lifts[maker->lifts_seen.items[i]];
        state->sets = room;
        room += state->count;
        state->count = 0;
    }
    for (size_t i = 0; i < count; i++) {
        struct lift_state *state = lift_state_of(maker, sets[i].set->lift);
        state->sets[state->count++] = &sets[i];
    }
    for (size_t i = 0; i < maker->lifts_seen.count; i++) {
        struct lift_state *state = &maker->lifts[maker->lifts_seen.items[i]];
        slips_find(state->sets, state->count, maker->training, &maker->slips);
    }
}

static void judge_day(struct training_maker *maker, struct evaluated_set *day, size_t count)
{
    training_offer_tests(maker, day, count);
    number_and_measure(maker, day, count);
    find_focus(day, count);
    rate_day(maker, day, count);
}

/* One lifter's sets, of which the first is sets[from]: judging one needs all of them. Only the sets that were asked
 * for are kept. */
static size_t judge_lifter(struct training_maker *maker, size_t from, size_t count, size_t kept)
{
    struct evaluated_set *sets = maker->training->sets;
    training_begin_lifter(maker, sets[from].set->lifter);
    if (!maker->slips_off)
        find_slips(maker, &sets[from], count);
    for (size_t start = from, end; start < from + count; start = end) {
        day_number day = sets[start].set->day;
        for (end = start; end < from + count && sets[end].set->day == day; end++)
            ;
        judge_day(maker, &sets[start], end - start);
        if (!training_day_is_wanted(maker, day))
            continue;
        if (kept != start)
            memmove(&sets[kept], &sets[start], (end - start) * sizeof *sets);
        kept += end - start;
    }
    return kept;
}

void judge_training(struct training_maker *maker)
{
    struct training *training = maker->training;
    size_t kept = 0;
    maker->loading = NULL;
    for (size_t start = 0, end; start < training->count; start = end) {
        for (end = start; end < training->count && training->sets[end].set->lifter == training->sets[start].set->lifter;
             end++)
            ;
        kept = judge_lifter(maker, start, end - start, kept);
    }
    training->count = kept;
    training->slips = maker->slips.list.items;
    training->slip_count = maker->slips.list.count;
}
