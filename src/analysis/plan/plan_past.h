/* plan_past.h */
#ifndef TAUTLINE_ANALYSIS_PLAN_PAST_H
#define TAUTLINE_ANALYSIS_PLAN_PAST_H

#include "analysis/plan/plan_maker.h"

/* Fills all of the maker but the weeks from its shared past and its wish: the last wave, the 1RM in force. */
void plan_look_back(struct plan_maker *maker);

/* A log for planned sets to stand in after all that was done before them; its own set list is the maker's arena's. */
struct log plan_log_after_past(struct plan_maker *maker);

/* All of a log, weighed with the maker's gym. */
const struct training *plan_train(struct plan_maker *maker, const struct log *log);

/* Is it of the planned lift and focus? */
bool is_planned_work(const struct plan_maker *maker, const struct wave_week *week);

#endif
