#include "analysis/evaluated_set.h"

#include "analysis/training.h"

#include "analysis/ordering.h"

#include <math.h>

double known_load(const struct evaluated_set *evaluated, enum load_measure measure)
{
    const struct effect *effect = evaluated->effect;
    const double known[LOAD_MEASURES] = {
        [LOAD_STRAIGHT] = effect->straight_kg,
        [LOAD_BOTTOM] = effect->bottom_kg,
        [LOAD_TOP] = effect->top_kg,
        [LOAD_MEAN] = effect->mean_kg,
    };
    return known[measure];
}

double counted_load(const struct evaluated_set *evaluated, enum load_measure measure)
{
    const struct effect *effect = evaluated->effect;
    const double counted[LOAD_MEASURES] = {
        [LOAD_STRAIGHT] = effect->straight_kg,
        [LOAD_BOTTOM] = effect->counted_bottom_kg,
        [LOAD_TOP] = effect->counted_top_kg,
        [LOAD_MEAN] = effect->counted_mean_kg,
    };
    return counted[measure];
}

double ar_share(const struct evaluated_set *evaluated)
{
    if (!(evaluated->one_rm.kg > 0))
        return NAN;
    return evaluated->has_ar ? (evaluated->effect->top_kg - evaluated->effect->bottom_kg) / evaluated->one_rm.kg : 0;
}

double intensity_of(const struct evaluated_set *evaluated)
{
    double load_kg = evaluated->has_ar ? evaluated->effect->mean_kg : evaluated->effect->straight_kg;
    return evaluated->one_rm.kg > 0 ? load_kg / evaluated->one_rm.kg : NAN;
}

/* Indexes of the training's sets, sorted by lifter, lift, day and place in the log. */
static uint32_t *lift_order(struct arena *scratch, const struct training *training)
{
    const struct log *log = training->log;
    uint32_t *order = ARENA_ARRAY(scratch, uint32_t, training->count);
    uint32_t *keys = ARENA_ARRAY(scratch, uint32_t, training->count);
    const uint32_t *lifts = training->lift_ranks, *lifters = training->lifter_ranks;
    for (size_t i = 0; i < training->count; i++) {
        order[i] = (uint32_t)i;
        keys[i] = lifts[training->sets[i].set->lift];
    }
    counting_sort(scratch, order, training->count, keys, names_count(log->lifts));
    if (!training->count || training->sets[0].lifter == training->sets[training->count - 1].lifter)
        return order;
    for (size_t i = 0; i < training->count; i++)
        keys[i] = lifters[training->sets[i].set->lifter];
    counting_sort(scratch, order, training->count, keys, names_count(log->lifters));
    return order;
}

const struct lift_sets *training_by_lift(struct arena *arena, const struct training *training, size_t *count)
{
    LIST(struct lift_sets) groups = {0};
    struct arena *scratch = arena_new();
    const uint32_t *order = lift_order(scratch, training);
    const struct evaluated_set **sets = ARENA_ARRAY(arena, const struct evaluated_set *, training->count);
    for (size_t i = 0; i < training->count; i++) {
        sets[i] = &training->sets[order[i]];
        if (!i || sets[i]->set->lifter != sets[i - 1]->set->lifter || sets[i]->set->lift != sets[i - 1]->set->lift)
            *LIST_ADD(arena, &groups) = (struct lift_sets){sets[i]->lifter, sets[i]->lift, &sets[i], 0};
        groups.items[groups.count - 1].count++;
    }
    arena_free(scratch);
    *count = groups.count;
    return groups.items;
}
