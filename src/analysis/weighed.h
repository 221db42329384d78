/* The weight of each distinct load, computed once: a log of a million sets has a few hundred distinct loads. Pure. */
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

/* Caches by load, lifter, lift and what matters about the day: the current calibrations, the tested 1RM for a load in
 * percent, the bodyweight for a bodyweight load or lift. */
struct weighing;

/* Results that depend on the lifter are allocated in the second arena, which may be emptied before
 * weighing_next_lifter(). */
struct weighing *weighing_new(struct arena *arena, struct arena *of_lifter, const struct log *log,
                              const struct gym *gym);
void weighing_next_lifter(struct weighing *weighing);   /* call before a lifter's sets; earlier ones must not return */
size_t weighing_count(const struct weighing *weighing); /* loads kept from lifter to lifter, some 300 bytes each */
/* `lifter`: in the gym file, NULL: not in it. tested_kg: NAN if the load is not in percent. */
const struct weighed *weigh(struct weighing *weighing, const struct set *set, const struct lifter *lifter,
                            double tested_kg);

#endif
