/* The training weeks of one lifter, lift and focus: which sessions they hold and what their working load is. Pure;
 * only for analysis/waves.c. */
#ifndef TAUTLINE_ANALYSIS_WAVE_WEEKS_H
#define TAUTLINE_ANALYSIS_WAVE_WEEKS_H

#include "analysis/waves.h"

struct week_maker
{
    struct arena *arena;                       /* that owns the list */
    struct arena *lift_scratch, *week_scratch; /* emptied for each lift and focus, and for each week */
    LIST(struct wave_week) list;
};

/* Adds the weeks of a lift's work sets of one focus to the list; a week in which no set has a weight does not count.
 *
 * Week's edge: a session on a Monday or Tuesday belongs to the week before, and one on a Saturday or Sunday to the week
 * after, if that week has fewer sessions than most weeks have and the session's own week has more.
 *
 * Working load: in strength and test work the heaviest set that is not more than 15 % above the usual top (the median
 * of the upper half of the heaviest sets of the four training weeks on each side; with fewer than three of these, the
 * heaviest set). In speed work the load with the most repetitions, the heaviest if tied; in other work the same among
 * the loads of at least 80 % of the heaviest such set. */
void week_maker_add(struct week_maker *maker, const struct lift_sets *lift, enum focus focus);

/* Sets that count in waves: work with repetitions, and no suspected slip. */
bool counts_in_waves(const struct evaluated_set *set);

#endif
