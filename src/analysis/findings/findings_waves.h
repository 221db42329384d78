/* Findings about waves: the set-up, the steps, the share of chains and bands, how heavy speed work is. */
#ifndef TAUTLINE_ANALYSIS_FINDINGS_WAVES_H
#define TAUTLINE_ANALYSIS_FINDINGS_WAVES_H

#include "analysis/findings/findings_maker.h"

void find_in_waves(struct findings_maker *maker, const struct lift_review *review);

/* The last of each lifter's first three weeks with AR on any lift, by lifter number; from the whole log, whichever
 * part of it is being looked at. */
const week_number *first_weeks_with_ar(struct arena *arena, const struct log *log);

#endif
