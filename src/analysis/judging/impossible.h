/* Loads that cannot be: what was measured or written is wrong, and only measuring again can tell what. The sets stay in
 * volume; bests, records, verdicts and what is drawn of the 1RM leave them out (DOUBT_IMPOSSIBLE). Pure. */
#ifndef TAUTLINE_ANALYSIS_IMPOSSIBLE_H
#define TAUTLINE_ANALYSIS_IMPOSSIBLE_H

#include "analysis/training.h"

enum impossible /* bit by bit */
{
    IMPOSSIBLE_REPS = 1,    /* two repetitions and more with a bottom load above the tested current 1RM */
    IMPOSSIBLE_HEIGHTS = 2, /* the bar's heights are not those of a lift */
    IMPOSSIBLE_STRETCH = 4  /* a band beyond its calibration by more than was calibrated */
};

/* A bottom load for repetitions is above the 1RM by that share: formulas, scales and plates err by less. Common
 * practice. */
#define IMPOSSIBLE_ABOVE 0.05
/* A test older than that proves nothing of what can be lifted today: one-rep-max-stale speaks then. */
#define IMPOSSIBLE_TEST_DAYS 182

/* Of the loading alone, whoever lifts it how often. stature_m: NAN where not known. */
unsigned impossible_loading(const struct loading *loading, const char *lift, double stature_m);
/* above: IMPOSSIBLE_ABOVE, or as [limits] has it; NAN: not looked at. The set's 1RM is known. */
bool impossible_reps(const struct evaluated_set *evaluated, double above);

struct height_range /* of the bar's centre above the floor, and between bottom and top */
{
    double low_m, high_m, least_m, most_m;
};

/* What the lift allows: of a lifter of known stature by shares of it, else 0.2 to 2.3 m and 5 to 120 cm. */
struct height_range height_range_of(const char *lift, double stature_m);
/* How far the longest of a band in the lift is beyond its calibration, as a share of what was calibrated; NAN: no end
 * is known. */
double stretch_beyond(const struct loading *loading, const struct hung_band *band);

#endif
