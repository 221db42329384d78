/* Weekly volume and intensity, per lifter and lift. Pure. */
#ifndef TAUTLINE_ANALYSIS_TREND_H
#define TAUTLINE_ANALYSIS_TREND_H

#include "analysis/training.h"

#define ZONES 5 /* below 55, 55–70, 70–80, 80–90, 90 and above, % of 1RM by the mean load; lower edge inside */
#define ALL_LIFTS "*"

struct trend_week
{
    const char *lifter, *lift;
    bool all_lifts; /* row of all that lifter's lifts together, lift ALL_LIFTS (a lift may have that name, too);
                       intensity, peaks, inol and zones do not exist there */
    week_number week;
    size_t days, sets, lifts;        /* work sets; days with at least one */
    double volume_kg[LOAD_MEASURES]; /* 0 in a week without training; NAN if no set of the week has a weight */
    double intensity[LOAD_MEASURES]; /* Σ r (load/1RM) / Σ r over sets with a 1RM; NAN: none */
    bool on_estimate;                /* at least one of those 1RMs is an estimate */
    double peak_kg[LOAD_MEASURES];   /* NAN in a week without training; only of sets that are not doubtful */
    double inol;                     /* 0 in a week without training; NAN: undefined */
    double zone_lifts[ZONES];        /* 0 in a week without training; NAN: no set has a 1RM */
    double monotony, strain;         /* NAN: undefined */
    /* EWMA of daily volume at the mean load, as of the week's Sunday; NAN before the first weight. */
    double acute_kg, chronic_kg;
};

/* Per lifter: each lift in byte order, then ALL_LIFTS (not where the options ask for one lift); per lift every week
 * from its first to its last with a work set. Only weeks of a break of more than LONGEST_SHOWN_BREAK have no row: two
 * days sixty years apart would be three thousand. */
#define LONGEST_SHOWN_BREAK 52
const struct trend_week *trend_make(struct arena *arena, const struct training *training, size_t *count);

/* The zone of a share of 1RM, from 0. */
int zone_of(double share);
/* Repetitions at a share of 1RM, r / (100 − I%): Hristov 2004. NAN at 100 % and above. */
double inol_of(double reps, double share);
/* Mean daily load over its sample deviation (n − 1), rest days 0: Foster 1998. NAN if all days are equal. */
double monotony_of(const double day_kg[7]);
/* EWMA with λ = 2/(N + 1): Williams et al. 2017. */
double ewma_next(double before, double load, int days);

#define ACUTE_DAYS 7
#define CHRONIC_DAYS 28

#endif
