/* Weekly volume and intensity, per lifter and lift. Pure. */
#ifndef TAUTLINE_ANALYSIS_TREND_H
#define TAUTLINE_ANALYSIS_TREND_H

#include "analysis/training.h"

#define ZONES 5 /* below 55, 55–70, 70–80, 80–90, 90 and above, % of 1RM by the mean load; lower edge inside */
#define ALL_LIFTS "*"

struct trend_week
{
    const char *lifter, *lift; /* lift ALL_LIFTS: all of that lifter's together; intensity and peaks do not exist there */
    week_number week;
    size_t days, sets, lifts;
    double volume_kg[LOAD_MEASURES];
    double intensity[LOAD_MEASURES]; /* Σ r (load/1RM) / Σ r over sets with a 1RM; NAN: none */
    double peak_kg[LOAD_MEASURES];   /* NAN in a week without training */
    double inol;                     /* NAN: undefined */
    double zone_lifts[ZONES];        /* NAN: no set has a 1RM */
    double monotony, strain;         /* NAN: undefined */
    double acute_kg, chronic_kg;     /* EWMA of daily volume at the mean load, read at the week's Sunday */
};

/* Per lifter: each lift in byte order, then ALL_LIFTS; per lift every week from its first to its last. */
const struct trend_week *trend_make(struct arena *arena, const struct training *training, size_t *count);

#endif
