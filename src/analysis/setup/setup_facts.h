/* What a coach asks of a set-up besides its loads: what comes to rest, what is slack, what is stretched too far, what
 * drags the bar off its path. Heights known; pure. */
#ifndef TAUTLINE_ANALYSIS_SETUP_FACTS_H
#define TAUTLINE_ANALYSIS_SETUP_FACTS_H

#include "base/arena.h"
#include "model/effect.h"

#include <stdbool.h>
#include <stddef.h>

struct chain_facts
{
    double clearance_m;   /* still on the floor at the top, per strand, less one link; below 0 the chain swings */
    double resting_share; /* of the chain's own mass, on the way down */
};
struct chain_facts chain_facts_of(const struct loading *loading, const struct hung *hung);

struct band_facts
{
    double bottom_stretch_m, top_stretch_m; /* end to end, as the calibration was measured */
    double end_m;                           /* of the calibration; INFINITY: a law with no range */
    double left_m;                          /* up to the end, at its longest; below 0: beyond it */
    bool over_range;                        /* beyond by more than 5 % of the calibrated extension */
    bool slack_at_bottom, slack_at_top;     /* no pull there */
    double slack_from_m, slack_to_m;        /* heights within the lift between which it does not pull; NAN: none */
};
struct band_facts band_facts_of(const struct loading *loading, const struct hung *hung);

struct fore_aft /* at its worst over the lift; 0 where nothing hangs off the bar's path */
{
    double pull_kg, pull_at_m; /* of all bands together, the strongest */
    double ratio, ratio_at_m;  /* to the bands' vertical pull, the largest */
};
struct fore_aft fore_aft_worst(const struct loading *loading);

/* Heights to draw the curve at, rising: evenly from bottom to top, both exact, and those at which a chain begins or
 * ends to be picked up or a band to pull. */
const double *setup_heights(struct arena *arena, const struct loading *loading, size_t *count);

#endif
