/* plan_past.h */
#ifndef TAUTLINE_ANALYSIS_PLAN_PAST_H
#define TAUTLINE_ANALYSIS_PLAN_PAST_H

#include "analysis/plan/plan_maker.h"

/* Fills all of the maker but the weeks from its source and wish: what was done before the start, the last wave, the 1RM
 * in force. In the end the log is ready for planned sets. */
void plan_look_back(struct plan_maker *maker);

/* All of the maker's log, weighed with its gym. */
const struct training *plan_train(struct plan_maker *maker);

/* Is it of the planned lift and focus? */
bool is_planned_work(const struct plan_maker *maker, const struct wave_week *week);

#endif
