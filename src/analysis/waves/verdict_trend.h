/* The trend over a run of waves, or of weeks: the test behind a verdict. Pure; only for analysis/verdict.c. */
#ifndef TAUTLINE_ANALYSIS_VERDICT_TREND_H
#define TAUTLINE_ANALYSIS_VERDICT_TREND_H

#include "analysis/verdict.h"

/* Over waves[0 .. count) of one series, of which the last is the newest; `ar_key`: only the weeks with this AR (NULL:
 * all). */
struct verdict_trend trend_of_waves(const struct wave *waves, size_t count, const char *ar_key);

/* Over weeks[0 .. count) of one series: kg per week. */
struct verdict_trend trend_of_weeks(const struct wave_week *weeks, size_t count);

#endif
