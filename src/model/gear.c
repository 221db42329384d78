#include "model/gear.h"

#include "base/names.h"
#include "base/text.h"

#include <string.h>

struct gym *gym_new(struct arena *arena)
{
    struct gym *gym = ARENA_NEW(arena, struct gym);
    *gym = (struct gym){
        .folder = ".",
        .unit = UNIT_KG,
        .bar_kg = 20,
        .u_height_m = 0.01,
        .u_mass = 0.01,
        .u_mass_sized = 0.05,
        .u_tension = 0.03,
    };
    return gym;
}

static bool same_name(const char *a, const char *b)
{
    return a && b && text_same_name(a, b);
}

const struct chain *gym_chain(const struct gym *gym, const char *label)
{
    for (size_t i = 0; i < gym->chain_count; i++)
        if (same_name(gym->chains[i].label, label))
            return &gym->chains[i];
    return NULL;
}

const struct chain *gym_default_chain(const struct gym *gym)
{
    for (size_t i = 0; i < gym->chain_count; i++)
        if (gym->chains[i].is_default)
            return &gym->chains[i];
    return gym->chain_count == 1 ? &gym->chains[0] : NULL;
}

const struct band *gym_band(const struct gym *gym, const char *label)
{
    for (size_t i = 0; i < gym->band_count; i++)
        if (same_name(gym->bands[i].label, label))
            return &gym->bands[i];
    return NULL;
}

const struct setup *gym_setup(const struct gym *gym, const char *name)
{
    for (size_t i = 0; i < gym->setup_count; i++)
        if (same_name(gym->setups[i].name, name))
            return &gym->setups[i];
    return NULL;
}

const struct lifter *gym_lifter(const struct gym *gym, const char *name)
{
    for (size_t i = 0; i < gym->lifter_count; i++)
        if (same_name(gym->lifters[i].name, name))
            return &gym->lifters[i];
    return NULL;
}

static bool has_alias(const struct lift *lift, const char *name)
{
    for (size_t i = 0; i < lift->alias_count; i++)
        if (same_name(lift->aliases[i], name))
            return true;
    return false;
}

#define MANY_LIFTS 32 /* fewer are compared sooner than a name is folded */

static void note_lift(struct arena *arena, struct map *names, const char *name, const struct lift *lift)
{
    const char *folded = text_fold(arena, name);
    if (!map_get(names, folded, strlen(folded)))
        map_put(names, folded, strlen(folded), (void *)lift);
}

void gym_index_lifts(struct arena *arena, struct gym *gym)
{
    struct map *names = map_new(arena);
    if (gym->lift_count < MANY_LIFTS)
        return;
    for (size_t i = 0; i < gym->lift_count; i++)
        note_lift(arena, names, gym->lifts[i].name, &gym->lifts[i]);
    for (size_t i = 0; i < gym->lift_count; i++)
        for (size_t a = 0; a < gym->lifts[i].alias_count; a++)
            note_lift(arena, names, gym->lifts[i].aliases[a], &gym->lifts[i]);
    gym->lift_names = names;
}

static const struct lift *indexed_lift(const struct gym *gym, const char *name)
{
    struct arena *scratch = arena_new();
    const char *folded = text_fold(scratch, name);
    const struct lift *lift = map_get(gym->lift_names, folded, strlen(folded));
    arena_free(scratch);
    return lift;
}

const struct lift *gym_lift(const struct gym *gym, const char *name_or_alias)
{
    if (gym->lift_names && name_or_alias)
        return indexed_lift(gym, name_or_alias);
    for (size_t i = 0; i < gym->lift_count; i++)
        if (same_name(gym->lifts[i].name, name_or_alias))
            return &gym->lifts[i];
    for (size_t i = 0; i < gym->lift_count; i++)
        if (has_alias(&gym->lifts[i], name_or_alias))
            return &gym->lifts[i];
    return NULL;
}

const struct bar_heights *lifter_heights(const struct lifter *lifter, const char *lift)
{
    for (size_t i = 0; lifter && i < lifter->height_count; i++)
        if (same_name(lifter->heights[i].lift, lift))
            return &lifter->heights[i];
    return NULL;
}

double chain_leader_of_kg(const struct chain *chain, double leader_m)
{
    return chain->leader_m > 0 ? chain->leader_kg * (leader_m / chain->leader_m) : chain->leader_kg;
}

const struct calibration *band_calibration(const struct band *band, day_number day)
{
    const struct calibration *in_force = &band->calibrations[0];
    for (size_t i = 1; i < band->calibration_count && band->calibrations[i].measured <= day; i++)
        in_force = &band->calibrations[i];
    return in_force;
}
