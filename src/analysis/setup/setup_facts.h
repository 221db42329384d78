/* What a coach needs to know about a set-up besides its loads: what comes to rest, what is slack, what is stretched
 * too far, what pulls the bar off its path. Heights must be known; pure. */
#ifndef TAUTLINE_ANALYSIS_SETUP_FACTS_H
#define TAUTLINE_ANALYSIS_SETUP_FACTS_H

#include "base/arena.h"
#include "model/effect.h"

#include <stdbool.h>
#include <stddef.h>

struct chain_facts
{
    double clearance_m;   /* still on the floor at the top, per strand, minus one link; below 0 the chain swings */
    double resting_share; /* of the chain's own mass, on the way down */
};
struct chain_facts chain_facts_of(const struct loading *loading, const struct hung *hung);

struct band_facts
{
    double bottom_stretch_m, top_stretch_m; /* end to end, as the calibration was measured */
    double end_m;                           /* of the calibration; INFINITY: a law without a range */
    double left_m;                          /* from its longest to the end; below 0: beyond the end */
    bool over_range;                        /* beyond the end by more than 5 % of the calibrated extension */
    bool slack_at_bottom, slack_at_top;     /* does not pull there */
    double slack_from_m, slack_to_m;        /* heights within the lift between which it does not pull; NAN: none */
};
struct band_facts band_facts_of(const struct loading *loading, const struct hung *hung);

struct fore_aft /* the maximum over the lift; 0 if nothing pulls the bar off its path */
{
    double pull_kg, pull_at_m; /* of all bands together, the largest */
    double ratio, ratio_at_m;  /* relative to the bands' vertical pull, the largest */
};
struct fore_aft fore_aft_worst(const struct loading *loading);

/* Heights at which to draw the curve, rising: evenly from bottom to top, both exact, and those at which a chain
 * begins or stops being picked up or a band begins or stops pulling. */
const double *setup_heights(struct arena *arena, const struct loading *loading, size_t *count);

#endif
