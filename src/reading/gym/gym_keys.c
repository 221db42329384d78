#include "reading/gym/gym_keys.h"

#include "reading/gym/gym_ar_lines.h"
#include "reading/gym/gym_confirmed.h"
#include "reading/gym/gym_gear.h"
#include "reading/gym/gym_reader.h"
#include "reading/gym/gym_values.h"

#include "base/text.h"
#include "reading/gym/gym_blocks.h"

#include <stddef.h>
#include <string.h>
#include <strings.h>

#define ONCE false
#define MANY true
#define NO_LIMITS 0, 0
#define OFF(type, member) offsetof(struct type, member)

static const struct gym_key gym_keys[] = {
    {"unit", read_unit, OFF(gym, unit), ONCE, NO_LIMITS},
    {"bar", read_mass, OFF(gym, bar_kg), ONCE, 0.5, 100},
    {"plates", read_plates, 0, ONCE, 0, 100},
    {"formula", read_formula, OFF(gym, formula), ONCE, NO_LIMITS},
    {"dates", read_dates, OFF(gym, dates), ONCE, NO_LIMITS},
    {"carry-ar", read_carry_ar, OFF(gym, ar_stays), ONCE, NO_LIMITS},
    {"u-height", read_length, OFF(gym, u_height_m), ONCE, 0, 0.5},
    {"u-mass", read_percent, OFF(gym, u_mass), ONCE, 0, 50},
    {"u-tension", read_percent, OFF(gym, u_tension), ONCE, 0, 50},
    {"confirmed", read_confirmed, 0, MANY, NO_LIMITS},
};

static const struct gym_key chain_keys[] = {
    {"default", read_default, 0, ONCE, NO_LIMITS},
    {"mass", read_mass, OFF(chain_draft, chain.mass_kg), ONCE, 0.01, 500},
    {"length", read_length, OFF(chain_draft, chain.length_m), ONCE, 0.05, 20},
    {"leader", read_leader, 0, ONCE, 0, 50},
    {"strands", read_strands, 0, ONCE, 0.05, 20},
    {"pin", read_pin, 0, ONCE, 0, 20},
    {"size", read_length, OFF(chain_draft, chain.size_m), ONCE, 0.001, 0.1},
    {"standard", read_text, OFF(chain_draft, chain.standard), ONCE, NO_LIMITS},
    {"link", read_length, OFF(chain_draft, chain.link_m), ONCE, 0.001, 1},
};

static const struct gym_key band_keys[] = {
    {"flat", read_length, OFF(band_draft, calibration.flat_m), ONCE, 0.05, 10},
    {"pair", read_pair, 0, ONCE, NO_LIMITS},
    {"tension", read_tension, 0, MANY, 0, 1000},
    {"tension-down", read_tension_down, 0, MANY, 0, 1000},
    {"measured", read_measured, OFF(band_draft, calibration.measured), ONCE, NO_LIMITS},
    {"hitch", read_length, OFF(band_draft, hitch_m), ONCE, 0, 1},
    {"law", read_law, 0, ONCE, -1000, 1000},
};

static const struct gym_key setup_keys[] = {
    {"height", read_length, OFF(setup, height_m), ONCE, 0, 10},
    {"offset", read_signed_length, OFF(setup, offset_m), ONCE, -5, 5},
    {"spread", read_signed_length, OFF(setup, spread_m), ONCE, -5, 5},
    {"pegs", read_length, OFF(setup, pegs_apart_m), ONCE, 0, 5},
    {"peg-diameter", read_length, OFF(setup, peg_diameter_m), ONCE, 0, 0.5},
    {"bar-diameter", read_length, OFF(setup, bar_diameter_m), ONCE, 0, 0.5},
};

static const struct gym_key lifter_keys[] = {
    {"log", read_log_pattern, 0, MANY, NO_LIMITS},
    {"experience", read_experience, OFF(lifter_draft, lifter.experience), ONCE, NO_LIMITS},
    {"stature", read_length, OFF(lifter_draft, lifter.stature_m), ONCE, 0.5, 2.8},
    {"bodyweight", read_mass, OFF(lifter_draft, lifter.bodyweight_kg), ONCE, 20, 400},
    {"dates", read_dates, OFF(lifter_draft, lifter.dates), ONCE, NO_LIMITS},
    {"max", read_max, 0, MANY, 0.5, 1500},
    {"heights", read_heights, 0, MANY, 0, 5},
    {"ar", read_ar_line, 0, MANY, NO_LIMITS},
};

static const struct gym_key lift_keys[] = {
    {"alias", read_alias, 0, MANY, NO_LIMITS},
    {"setup", read_setup_name, 0, ONCE, NO_LIMITS},
    {"bodyweight", read_yes_no, OFF(lift_draft, lift.bodyweight), ONCE, NO_LIMITS},
    {"per", read_per, OFF(lift_draft, lift.per_hand), ONCE, NO_LIMITS},
};

static const struct gym_key limit_keys[] = {{NULL, read_limit, 0, MANY, NO_LIMITS}};
static const struct gym_key column_keys[] = {{NULL, read_column, 0, MANY, NO_LIMITS}};

#define KEYS(keys) keys, sizeof(keys) / sizeof *(keys)

static const struct gym_block blocks[] = {
    {"gym", false, ONCE, KEYS(gym_keys), open_gym, NULL, NULL},
    {"chain", true, ONCE, KEYS(chain_keys), open_chain, close_chain, drop_chain},
    {"band", true, MANY, KEYS(band_keys), open_band, close_band, drop_band},
    {"setup", true, ONCE, KEYS(setup_keys), open_setup, close_setup, drop_setup},
    {"lifter", true, ONCE, KEYS(lifter_keys), open_lifter, NULL, NULL},
    {"lift", true, ONCE, KEYS(lift_keys), open_lift, NULL, NULL},
    {"limits", false, ONCE, KEYS(limit_keys), open_gym, NULL, NULL},
    {"columns", false, ONCE, KEYS(column_keys), open_gym, NULL, NULL},
};
#define BLOCK_COUNT (sizeof blocks / sizeof *blocks)

const struct gym_block *gym_block_named(const char *name, size_t length)
{
    for (size_t i = 0; i < BLOCK_COUNT; i++)
        if (strlen(blocks[i].name) == length && !strncasecmp(blocks[i].name, name, length))
            return &blocks[i];
    return NULL;
}

const struct gym_key *gym_key_named(const struct gym_block *block, const char *name)
{
    for (size_t i = 0; i < block->key_count; i++)
        if (!block->keys[i].name || !strcasecmp(block->keys[i].name, name))
            return &block->keys[i];
    return NULL;
}

#define WORDS_SOUGHT 200
#define WORDS_LISTED 24

const char *gym_nearest_hint(struct arena *arena, const char *what, const char *written, const char *const *words,
                             size_t count)
{
    const char *nearest = text_nearest(text_fold(arena, written), words, count < WORDS_SOUGHT ? count : WORDS_SOUGHT);
    if (nearest || !count)
        return nearest ? arena_printf(arena, "did you mean '%s'?", nearest) : NULL;
    char *hint = arena_printf(arena, "%s:", what);
    for (size_t i = 0; i < count && i < WORDS_LISTED; i++)
        hint = arena_printf(arena, "%s%s %s", hint, i ? "," : "", words[i]);
    return count > WORDS_LISTED ? arena_printf(arena, "%s ...", hint) : hint;
}

const char *gym_block_hint(struct arena *arena, const char *written)
{
    const char *words[BLOCK_COUNT];
    for (size_t i = 0; i < BLOCK_COUNT; i++)
        words[i] = blocks[i].name;
    return gym_nearest_hint(arena, "the blocks are", written, words, BLOCK_COUNT);
}

const char *gym_key_hint(struct arena *arena, const struct gym_block *block, const char *written)
{
    const char *words[16];
    size_t count = 0;
    for (; count < block->key_count && count < sizeof words / sizeof *words; count++)
        words[count] = block->keys[count].name;
    return gym_nearest_hint(arena, "its keys are", written, words, count);
}
