/* How plan.c and plan_past.c share their work. For these only. */
#ifndef TAUTLINE_ANALYSIS_PLAN_MAKER_H
#define TAUTLINE_ANALYSIS_PLAN_MAKER_H

#include "analysis/plan/plan.h"
#include "analysis/verdict.h"

#include <stdbool.h>
#include <stdint.h>

struct plan_past /* what the plans of one lifter share */
{
    const struct training *source;
    struct gym gym;              /* the source's, with the lifter, whom it may not know */
    const struct lifter *lifter; /* of that gym */
    uint32_t lifter_number;
    day_number start;
    const struct training *training; /* of the lifter's sets before the start, and all there is in it */
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
    struct plan_week *weeks;                   /* the plan's */
    struct gym gym;                            /* the past's, with the 1RM and the anchor that the plan brings */
    const struct lifter *lifter;               /* of that gym */
    uint32_t lifter_number, lift_number, file; /* of planned sets */
    const struct training *past;
    const struct wave_week *newest; /* week of the lift and focus, whose set-up the plan keeps; NULL: none */
    size_t usual_weeks;             /* of this lifter's waves of the lift and focus */
    day_number start, first_day;
    double bodyweight_kg;
};

#endif
