/* The weeks of a plan with their target straight weights. Only for plan.c. */
#ifndef TAUTLINE_ANALYSIS_PLAN_PLAN_WEEKS_H
#define TAUTLINE_ANALYSIS_PLAN_PLAN_WEEKS_H

#include "analysis/plan/plan_maker.h"

/* PLAN_MADE, or why there are none. */
enum plan_state plan_lay_out(struct plan_maker *maker);

#endif
