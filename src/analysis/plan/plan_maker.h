/* What plan.c and plan_past.c share. Only for these two. */
#ifndef TAUTLINE_ANALYSIS_PLAN_MAKER_H
#define TAUTLINE_ANALYSIS_PLAN_MAKER_H

#include "analysis/plan/plan.h"
#include "analysis/verdict.h"

#include <stdbool.h>
#include <stdint.h>

struct plan_past /* what the plans of one lifter share */
{
    const struct training *source;
    struct gym gym;              /* the source's, plus the lifter, who may not be in it */
    const struct lifter *lifter; /* in that gym */
    uint32_t lifter_number;
    day_number start;
    const struct training *training; /* of the lifter's sets before the start, and everything in it */
    const struct waves *waves;
    const struct verdict *verdicts;
    size_t verdict_count;
    double bodyweight_kg;
};

struct plan_maker
{
    struct arena *arena;
    const struct plan_past *shared;
    const struct training *source;
    const struct plan_wish *wish;
    struct plan *plan;
    struct plan_week *weeks;                   /* of the plan */
    struct gym gym;                            /* the past's, with the 1RM and the anchor of the plan */
    const struct lifter *lifter;               /* in that gym */
    uint32_t lifter_number, lift_number, file; /* used in planned sets */
    const struct training *past;
    const struct wave_week *newest; /* newest week of the lift and focus, whose set-up the plan keeps; NULL: none */
    size_t usual_weeks;             /* usual number of weeks in this lifter's waves of the lift and focus */
    day_number start, first_day;
    double bodyweight_kg;
};

#endif
