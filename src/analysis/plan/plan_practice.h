/* A first wave's chains, sets and reps by common practice. For plan.c only. */
#ifndef TAUTLINE_ANALYSIS_PLAN_PLAN_PRACTICE_H
#define TAUTLINE_ANALYSIS_PLAN_PLAN_PRACTICE_H

#include "analysis/plan/plan_maker.h"

/* The first week's plates must be chosen already. */
void plan_by_practice(struct plan_maker *maker);

#endif
