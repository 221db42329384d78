/* How a week's working load was lifted: so many sets of so many repetitions. Pure. */
#ifndef TAUTLINE_ANALYSIS_WEEK_WORK_H
#define TAUTLINE_ANALYSIS_WEEK_WORK_H

#include "analysis/waves.h"

struct week_work
{
    int sets; /* at the working load, with its AR */
    int reps; /* of most of them; of equals the more */
};

/* `training` is of one lifter: its sets are in order of day. */
struct week_work week_work(struct arena *arena, const struct training *training, const struct wave_week *week);

#endif
