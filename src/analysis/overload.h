/* Is it overloading? The newest wave of each lift and focus beside the one before it, step by step. Pure. */
#ifndef TAUTLINE_ANALYSIS_OVERLOAD_H
#define TAUTLINE_ANALYSIS_OVERLOAD_H

#include "analysis/statistics/statistics.h"
#include "analysis/waves.h"

#define OVERLOAD_SAME 0.005 /* loads within 0.5 % are the same, as in the definition of a wave */

enum overload_verdict
{
    OVERLOAD_NO_WAVE,   /* no run of two weeks */
    OVERLOAD_ONE_WAVE,  /* nothing to compare with */
    OVERLOAD_UNKNOWN,   /* both ends of the load are unknown */
    OVERLOAD_BOTH,      /* heavier at bottom and top */
    OVERLOAD_TOP,       /* heavier at the top only */
    OVERLOAD_BOTTOM,    /* heavier at the bottom only */
    OVERLOAD_NONE,      /* the same */
    OVERLOAD_LIGHTER
};

struct overload
{
    const char *lifter, *lift;
    enum focus focus;
    enum overload_verdict verdict;
    unsigned waves;                    /* in all */
    unsigned newest, before;           /* their numbers; 0: none */
    size_t steps;                      /* compared */
    double over_kg[LOAD_MEASURES];     /* mean over the steps compared; NAN: unknown */
    double over_share[LOAD_MEASURES];  /* of the load before, as a fraction */
    double over_volume_kg;             /* mean over the steps */
    double over_ar_kg, over_weight_kg; /* mean load: what the AR did and what the straight weight did */
    bool same_ar;                      /* in every step compared: the change is clean */
    bool has_ar;
    struct slope top; /* of the top load in each wave's last week, kg a wave, over all waves */
};

/* One for each lifter, lift and focus that has a training week, by lifter, lift, focus. */
const struct overload *overload_make(struct arena *arena, const struct waves *waves, size_t *count);

#endif
