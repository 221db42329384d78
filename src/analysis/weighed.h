/* What each distinct load weighs, found once: a log of a million sets resolves a few hundred loads. Pure. */
#ifndef TAUTLINE_ANALYSIS_WEIGHED_H
#define TAUTLINE_ANALYSIS_WEIGHED_H

#include "base/arena.h"
#include "model/effect.h"
#include "model/gear.h"
#include "model/set.h"

#include <stdbool.h>

struct weighed
{
    struct effect effect;
    const struct loading *loading;
    const char *ar_key; /* equal for equal pieces, counts, rigs, set-ups, heights in any order; "" without AR */
};

/* Remembers by load, lifter, lift and what of the day matters: the calibrations in force, the tested 1RM of a load in
 * percent, the bodyweight of a load or lift of the body. */
struct weighing;

/* What is a lifter's own is made in the second arena, which may be emptied before weighing_next_lifter(). */
struct weighing *weighing_new(struct arena *arena, struct arena *of_lifter, const struct log *log,
                              const struct gym *gym);
void weighing_next_lifter(struct weighing *weighing); /* whose sets come next; no set of those before comes again */
size_t weighing_count(
    const struct weighing *weighing); /* loads remembered from lifter to lifter, some 300 bytes each */
/* `lifter`: of the gym file, NULL: not in it. tested_kg: NAN where the load is not in percent. */
const struct weighed *weigh(struct weighing *weighing, const struct set *set, const struct lifter *lifter,
                            double tested_kg);

#endif
