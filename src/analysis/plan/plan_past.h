/* The past that a plan starts from: only for plan.c. */
#ifndef TAUTLINE_ANALYSIS_PLAN_PAST_H
#define TAUTLINE_ANALYSIS_PLAN_PAST_H

#include "analysis/plan/plan_maker.h"

/* Fills in everything in the maker except the weeks, from its shared past and its wish: the last wave, the current
 * 1RM. */
void plan_look_back(struct plan_maker *maker);

/* A log in which planned sets come after everything done before; its own list of sets belongs to the maker's arena. */
struct log plan_log_after_past(struct plan_maker *maker);

/* Evaluates all of a log, with the maker's gym. */
const struct training *plan_train(struct plan_maker *maker, const struct log *log);

/* Is it of the planned lift and focus? */
bool is_planned_work(const struct plan_maker *maker, const struct wave_week *week);

#endif
