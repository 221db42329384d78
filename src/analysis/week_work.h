/* How a week's working load was lifted: the number of sets and of repetitions. Pure. */
#ifndef TAUTLINE_ANALYSIS_WEEK_WORK_H
#define TAUTLINE_ANALYSIS_WEEK_WORK_H

#include "analysis/waves.h"

struct week_work
{
    int sets; /* at the working load, with its AR */
    int reps; /* of most of them; the larger number if tied */
};

/* `training` must be of one lifter: its sets are sorted by day. */
struct week_work week_work(struct arena *arena, const struct training *training, const struct wave_week *week);

#endif
