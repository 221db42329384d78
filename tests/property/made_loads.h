/* Loads made up by a seeded generator: every kind of piece, in every rig, with any label. */
#ifndef TAUTLINE_PROPERTY_MADE_LOADS_H
#define TAUTLINE_PROPERTY_MADE_LOADS_H

#include "model/load.h"

#include <stdint.h>

#define MOST_MADE_PIECES 4

struct dice /* SplitMix64: the same throws on every machine */
{
    uint64_t state;
};

uint64_t dice_throw(struct dice *dice);
unsigned dice_below(struct dice *dice, unsigned limit); /* 0 to limit - 1 */
double dice_mass(struct dice *dice, double least,
                 double most); /* half of them whole, the rest with up to nine digits */

/* A load as a reader could have made it, not interned; pieces and strings are the arena's. */
struct load made_load(struct arena *arena, struct dice *dice);
/* A label: of the gym file, or of whatever characters people use. */
const char *made_label(struct arena *arena, struct dice *dice, const char *const *known, size_t count);

#endif
