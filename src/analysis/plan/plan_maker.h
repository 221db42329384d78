/* How plan.c and plan_past.c share their work. For these only. */
#ifndef TAUTLINE_ANALYSIS_PLAN_MAKER_H
#define TAUTLINE_ANALYSIS_PLAN_MAKER_H

#include "analysis/plan/plan.h"

#include <stdbool.h>
#include <stdint.h>

struct plan_maker
{
    struct arena *arena;
    const struct training *source;
    const struct plan_wish *wish;
    struct plan *plan;
    struct plan_week *weeks;                   /* the plan's */
    struct log log;                            /* what the lifter did before the start; then the plan too */
    struct gym gym;                            /* the source's, with the 1RM and the anchor that the plan brings */
    struct lifter *lifter;                     /* of that gym; NULL: not in it */
    uint32_t lifter_number, lift_number, file; /* of planned sets */
    const struct training *past;
    const struct waves *past_waves;
    const struct wave_week *newest; /* week of the lift and focus, whose set-up the plan keeps; NULL: none */
    size_t usual_weeks;             /* of this lifter's waves of the lift and focus */
    day_number start, first_day;
    double bodyweight_kg;
};

#endif
