#include "analysis/plan/plan.h"

#include "analysis/evaluated_set.h"
#include "analysis/plan/plan_maker.h"
#include "analysis/plan/plan_past.h"
#include "analysis/plan/plan_practice.h"
#include "analysis/plan/plan_weeks.h"
#include "analysis/setup/setup_search.h"
#include "analysis/statistics/statistics.h"
#include "analysis/week_work.h"
#include "model/heights.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define SAME_KG 1e-9 /* smaller differences are rounding */

/* --- straight weights --------------------------------------------------------------------------------------------------- */

static bool hangs_from_body(const struct plan_maker *maker)
{
    const struct lift *lift = gym_lift(&maker->gym, maker->plan->lift);
    const struct wave *last = maker->plan->last;
    return (lift && lift->bodyweight) || (last && last->weeks->working->set->weight->straight == STRAIGHT_BODYWEIGHT);
}

static double to_step(double kg, double step_kg)
{
    return round(kg / step_kg) * step_kg;
}

/* A barbell takes pairs of plates; a belt, or a weight in one hand, takes single ones. */
static struct load straight_load(struct plan_maker *maker, struct plan_week *week)
{
    const struct lift *lift = gym_lift(&maker->gym, maker->plan->lift);
    double smallest_kg = rack_step_kg(&maker->plan->rack) / 2;
    struct load load = {.straight = STRAIGHT_MASS, .kg = week->target_kg, .percent = NAN, .decimals = 2};
    if (hangs_from_body(maker)) {
        load.straight = STRAIGHT_BODYWEIGHT;
        load.kg = to_step(week->target_kg - maker->bodyweight_kg, smallest_kg);
    } else if (lift && lift->per_hand) {
        load.kg = to_step(week->target_kg / 2, smallest_kg);
        week->in_hand = true;
    } else {
        const struct rack *rack = &maker->plan->rack;
        week->has_plates = maker->wish->raise_said /* a rise that was asked for is met to the smallest plate */
                               ? plates_nearest(maker->arena, rack, week->target_kg, &week->plates)
                               : plates_fewest(maker->arena, rack, week->target_kg, week->least_kg, &week->plates);
        if (week->has_plates)
            load.kg = week->plates.kg;
    }
    week->written_kg = load.kg;
    return load;
}

/* --- chains and bands, sets and repetitions ----------------------------------------------------------------------------- */

static unsigned gear_of(const struct load *load)
{
    unsigned gear = 0;
    if (load && load_has(load, PIECE_CHAIN))
        gear |= SETUP_CHAINS;
    if (load && load_has(load, PIECE_BAND))
        gear |= SETUP_BANDS;
    return gear ? gear : SETUP_CHAINS | SETUP_BANDS;
}

static void add_anchor(struct plan_maker *maker, const struct setup *anchor)
{
    struct gym *gym = &maker->gym;
    struct setup *setups = ARENA_ARRAY(maker->arena, struct setup, gym->setup_count + 1);
    if (gym->setup_count)
        memcpy(setups, gym->setups, gym->setup_count * sizeof *setups);
    setups[gym->setup_count++] = *anchor;
    gym->setups = setups;
    maker->plan->anchor = &setups[gym->setup_count - 1];
}

/* From the kind of gear in the last wave, if it had any; else from all gear. */
static bool choose_ar(struct plan_maker *maker, const struct load *before)
{
    struct plan *plan = maker->plan;
    struct setup_wish wish = {
        .share = maker->wish->ar_share, .gear = gear_of(before), .most = 1, .tape = maker->wish->tape};
    double bottom_m, top_m;
    bool estimated;
    wish.context = (struct loading_context){.gym = &maker->gym,
                                            .lifter = maker->lifter,
                                            .lift = plan->lift,
                                            .day = maker->first_day,
                                            .one_rm_kg = plan->one_rm.kg,
                                            .bodyweight_kg = maker->bodyweight_kg};
    wish.straight = straight_load(maker, maker->weeks);
    if (!heights_find(&maker->gym, maker->lifter, plan->lift, &bottom_m, &top_m, &estimated))
        return false;
    struct setup_search search = setup_search(maker->arena, &wish);
    if (!search.count)
        return false;
    plan->ar = &search.found->load;
    plan->ar_chosen = true;
    plan->ar_miss = search.found->miss_share;
    if (search.found->anchor.name)
        add_anchor(maker, &search.found->anchor);
    return true;
}

static bool settle_ar(struct plan_maker *maker)
{
    const struct load *before = maker->newest ? maker->newest->working->set->ar : NULL;
    if (!isnan(maker->wish->ar_share))
        return choose_ar(maker, before);
    const struct load *held = maker->wish->ar ? maker->wish->ar : before;
    maker->plan->ar = held && held->piece_count ? held : NULL;
    return true;
}

static void settle_sets(struct plan_maker *maker)
{
    const struct wave *last = maker->plan->last;
    for (size_t i = 0; i < maker->plan->week_count; i++) {
        struct plan_week *week = &maker->weeks[i];
        struct week_work work = {0, 0};
        if (last)
            work = week_work(
                maker->arena, maker->past,
                &last->weeks[maker->plan->done + i < last->count ? maker->plan->done + i : last->count - 1]);
        week->sets = maker->wish->sets ? maker->wish->sets : work.sets > PLAN_MOST_SETS ? PLAN_MOST_SETS : work.sets;
        week->reps = maker->wish->reps ? maker->wish->reps : work.reps;
    }
}

/* --- the plan, as if it had been lifted --------------------------------------------------------------------------------- */

/* Where planned sets go: a log, and the numbers of the lifter and the lift in it. */
struct plan_place
{
    struct log *log;
    uint32_t lifter, lift;
};

static void add_sets(struct plan_maker *maker, const struct plan_place *place, struct plan_week *week)
{
    struct loads *loads = place->log->loads;
    const struct load like = straight_load(maker, week);
    const struct load *ar = maker->plan->ar ? load_intern(loads, maker->plan->ar) : *loads_ars(loads);
    struct set set = {.weight = load_intern(loads, &like),
                      .ar = load_ar(loads, ar),
                      .rpe = NAN,
                      .rir = NAN,
                      .velocity_ms = NAN,
                      .bodyweight_kg = maker->bodyweight_kg,
                      .day = week->day,
                      .file = maker->file,
                      .line = week->step,
                      .lifter = place->lifter,
                      .lift = place->lift,
                      .kind = SET_WORK,
                      .focus = (uint8_t)maker->wish->focus,
                      .reps = (uint16_t)(week->reps ? week->reps : 1)};
    for (int i = 0; i < (week->sets ? week->sets : 1); i++)
        *LIST_ADD(maker->arena, &place->log->sets) = set;
}

static const struct training *train_plan(struct plan_maker *maker, const struct plan_place *place)
{
    for (size_t i = 0; i < maker->plan->week_count; i++)
        add_sets(maker, place, &maker->weeks[i]);
    return plan_train(maker, place->log);
}

static const struct wave_week *week_lifted(const struct waves *waves, week_number week)
{
    for (size_t i = 0; i < waves->all_count; i++)
        if (waves->all[i].week == week)
            return &waves->all[i];
    return NULL;
}

static void measure(struct plan_maker *maker, struct plan_week *week, const struct wave_week *evaluated)
{
    double one_rm_kg = maker->plan->one_rm.kg > 0 ? maker->plan->one_rm.kg : NAN;
    bool counted = week->sets && week->reps;
    for (int i = 0; i < LOAD_MEASURES; i++) {
        week->load_kg[i] = evaluated ? evaluated->load_kg[i] : NAN;
        week->volume_kg[i] = evaluated && counted ? evaluated->volume_kg[i] : NAN;
        week->over_kg[i] = week->before ? difference(week->load_kg[i], week->before->load_kg[i]) : NAN;
        week->over_part[i] = week->before ? week->over_kg[i] / week->before->load_kg[i] : NAN;
    }
    week->set = evaluated ? evaluated->working : NULL;
    week->rounding_kg = difference(week->load_kg[LOAD_STRAIGHT], week->target_kg);
    week->straight_share = week->load_kg[LOAD_STRAIGHT] / one_rm_kg;
    week->share = maker->plan->ar ? (week->load_kg[LOAD_TOP] - week->load_kg[LOAD_BOTTOM]) / one_rm_kg : 0;
    week->above_one_rm = one_rm_kg > 0 && week->load_kg[LOAD_STRAIGHT] > one_rm_kg + SAME_KG;
    week->top_too_heavy = one_rm_kg > 0 && week->load_kg[LOAD_TOP] > PLAN_MOST_TOP * one_rm_kg + SAME_KG;
}

static int gravest_first(const void *a, const void *b)
{
    const struct finding *left = *(const struct finding *const *)a, *right = *(const struct finding *const *)b;
    int l = (int)finding_kinds[left->id].severity, r = (int)finding_kinds[right->id].severity;
    return l != r ? r - l : (left->id > right->id) - (left->id < right->id);
}

/* Findings that last into the plan: those that end before it belong to the log. */
static void find(struct plan_maker *maker)
{
    struct log log = plan_log_after_past(maker);
    struct plan_place place = {&log, maker->lifter_number, maker->lift_number};
    const struct training *planned = train_plan(maker, &place);
    struct findings_options options = {ALL_FINDINGS, FINDING_NOTE, maker->wish->unit};
    const struct findings *findings = findings_make(maker->arena, planned, &options);
    struct plan *plan = maker->plan;
    plan->findings = ARENA_ARRAY(maker->arena, const struct finding *, findings->count);
    for (size_t i = 0; i < findings->count; i++)
        if (findings->items[i]->last->set->file == maker->file)
            plan->findings[plan->finding_count++] = findings->items[i];
    if (plan->finding_count)
        qsort(plan->findings, plan->finding_count, sizeof *plan->findings, gravest_first);
}

/* Compares straight weight and top load: a wave that is lighter in either must be pointed out. */
static void look_for_lighter(struct plan *plan)
{
    for (size_t i = 0; i < plan->week_count; i++) {
        for (int measure = LOAD_STRAIGHT; measure <= LOAD_TOP; measure++) {
            if (!(-plan->weeks[i].over_kg[measure] > plan->lighter_kg + SAME_KG))
                continue;
            plan->lighter_kg = -plan->weeks[i].over_kg[measure];
            plan->lighter_at = (enum load_measure)measure;
        }
    }
}

/* Weights do not depend on the past: the planned weeks are weighed in a log of their own, however long the lifter's
 * log is. */
static void weigh_plan(struct plan_maker *maker)
{
    struct plan *plan = maker->plan;
    struct log *log = log_new(maker->arena);
    struct plan_place place = {log, names_add(log->lifters, plan->lifter, strlen(plan->lifter)),
                               names_add(log->lifts, plan->lift, strlen(plan->lift))};
    const struct waves *waves = waves_make(maker->arena, train_plan(maker, &place));
    for (size_t i = 0; i < plan->week_count; i++)
        measure(maker, &maker->weeks[i], week_lifted(waves, maker->weeks[i].week));
    plan->same_ar = maker->newest && plan->weeks->set && same_ar(plan->weeks->set, maker->newest->working);
    look_for_lighter(plan);
    if (!maker->wish->without_findings)
        find(maker);
}

static enum plan_state make(struct plan_maker *maker)
{
    enum plan_state state = plan_lay_out(maker);
    if (state != PLAN_MADE)
        return state;
    if (hangs_from_body(maker) && isnan(maker->bodyweight_kg))
        return PLAN_NO_BODYWEIGHT;
    if (!settle_ar(maker))
        return PLAN_NO_SETUP;
    settle_sets(maker);
    if (maker->plan->basis == PLAN_FROM_PRACTICE) {
        straight_load(maker, maker->weeks); /* the number of chains depends on the large discs chosen here */
        plan_by_practice(maker);
    }
    weigh_plan(maker);
    return PLAN_MADE;
}

const struct plan *plan_make(struct arena *arena, const struct training *training, const struct plan_wish *wish)
{
    return plan_make_after(arena, plan_past_make(arena, training, wish->lifter, wish->start), wish);
}

const struct plan *plan_make_after(struct arena *arena, const struct plan_past *past, const struct plan_wish *wish)
{
    struct plan_maker maker = {.arena = arena, .shared = past, .wish = wish, .plan = ARENA_NEW(arena, struct plan)};
    *maker.plan = (struct plan){.lifter = wish->lifter,
                                .lift = wish->lift,
                                .focus = wish->focus,
                                .one_rm = NO_ONE_RM,
                                .raise_kg = NAN,
                                .slope_kg = NAN};
    plan_look_back(&maker);
    maker.plan->state = make(&maker);
    return maker.plan;
}
