/* What each set's load weighs: AR is worked out once as it hangs, each straight weight is put on it. Pure. */
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
    struct loading loading;
    const char *ar_key; /* equal for equal pieces, counts, rigs, set-ups, heights in any order; "" without AR */
};

/* Remembers what a lifter's loads weigh, by lift and what matters about the day: the current calibrations, the tested
 * 1RM for a load in percent, the bodyweight for a bodyweight load or lift. */
struct weighing;

struct weighing *weighing_new(struct arena *arena, const struct log *log, const struct gym *gym);
/* Call before a lifter's sets; earlier ones must not return. What they weigh is the arena's. */
void weighing_next_lifter(struct weighing *weighing, struct arena *arena);
/* `lifter`: in the gym file, NULL: not in it. tested_kg: NAN if the load is not in percent. */
const struct weighed *weigh(struct weighing *weighing, const struct set *set, const struct lifter *lifter,
                            double tested_kg);

#endif
