/* Impossible loads: something was measured or written wrongly, and only a new measurement can show what. The sets
 * stay in volume; bests, records, verdicts and drawings of the 1RM leave them out (DOUBT_IMPOSSIBLE). Pure. */
#ifndef TAUTLINE_ANALYSIS_IMPOSSIBLE_H
#define TAUTLINE_ANALYSIS_IMPOSSIBLE_H

#include "analysis/training.h"

enum impossible /* one bit each */
{
    IMPOSSIBLE_REPS = 1,    /* two or more repetitions with a bottom load above the current tested 1RM */
    IMPOSSIBLE_HEIGHTS = 2, /* these heights of the bar are impossible for the lift */
    IMPOSSIBLE_STRETCH = 4  /* a band beyond its calibration by more than the calibrated range */
};

/* The bottom load of a set for repetitions exceeds the 1RM by this share: errors of formulas, scales and plates are
 * smaller. Common practice. */
#define IMPOSSIBLE_ABOVE 0.05
/* An older test proves nothing about what can be lifted today; one-rep-max-stale reports it instead. */
#define IMPOSSIBLE_TEST_DAYS 182

/* Depends only on the loading, not on who lifts it and how often. stature_m: NAN if not known. */
unsigned impossible_loading(const struct loading *loading, const char *lift, double stature_m);
/* above: IMPOSSIBLE_ABOVE, or the value from [limits]; NAN: off. The set must have a 1RM. */
bool impossible_reps(const struct evaluated_set *evaluated, double above);

struct height_range /* of the bar's centre above the floor, and between bottom and top */
{
    double low_m, high_m, least_m, most_m;
};

/* The range that the lift allows: for a lifter of known stature by shares of it, else 0.2 to 2.3 m and 5 to 120 cm. */
struct height_range height_range_of(const char *lift, double stature_m);
/* How far a band at its longest is beyond its calibration, as a share of the calibrated range; NAN: the calibration
 * has no known end. */
double stretch_beyond(const struct loading *loading, const struct hung_band *band);

#endif
