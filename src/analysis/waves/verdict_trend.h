/* What a run of waves, or of weeks, shows: the test after a verdict. Pure; only analysis/verdict.c needs it. */
#ifndef TAUTLINE_ANALYSIS_VERDICT_TREND_H
#define TAUTLINE_ANALYSIS_VERDICT_TREND_H

#include "analysis/verdict.h"

/* Over waves[0 .. count) of one series, the newest of which is the last; `ar_key`: only the weeks with this AR (NULL:
 * all). */
struct verdict_trend trend_of_waves(const struct wave *waves, size_t count, const char *ar_key);

/* Over weeks[0 .. count) of one series: kg a week. */
struct verdict_trend trend_of_weeks(const struct wave_week *weeks, size_t count);

#endif
