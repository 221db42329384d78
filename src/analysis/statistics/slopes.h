/* The slopes of a trend and of waves: one row a series. Pure. */
#ifndef TAUTLINE_ANALYSIS_SLOPES_H
#define TAUTLINE_ANALYSIS_SLOPES_H

#include "analysis/statistics/statistics.h"
#include "analysis/trend.h"
#include "analysis/waves.h"

#define SLOPE_CONFIDENCE 0.95

struct trend_slope
{
    const char *lifter, *lift;
    bool all_lifts;
    const char *measure; /* volume_mean_kg, intensity_mean, peak_straight_kg, peak_top_kg */
    bool in_kg;          /* else a fraction */
    struct slope fit;    /* a point a week; slope per week */
    double percent_4w;   /* four weeks' slope in per cent of the median; NAN at median 0 */
    /* Medians of the points in the newest 12 calendar weeks of the series, and in the 12 before; NAN: none. */
    double recent_12, before_12;
};

/* Four rows a lift, in that order; for ALL_LIFTS the volume alone. Where a lift was tested, its intensity is that of
 * the weeks since the first test: before it, it was a share of an estimate. The week that holds training->options.today
 * is left out: it is not over. A week without training enters the volume as 0, other measures not at all. */
const struct trend_slope *trend_slopes(struct arena *arena, const struct training *training,
                                       const struct trend_week *weeks, size_t week_count, size_t *count);

/* The row of volume_mean_kg alone, one a lift: for who shows no other. */
const struct trend_slope *trend_volume_slopes(struct arena *arena, const struct training *training,
                                              const struct trend_week *weeks, size_t week_count, size_t *count);

/* Of those, the one of a week's lifter and lift; NULL: none. */
const struct trend_slope *trend_volume_slope_find(const struct trend_slope *slopes, size_t count,
                                                  const struct trend_week *week);

struct wave_slope
{
    const char *lifter, *lift;
    enum focus focus;
    /* first_ and last_ of straight_kg, bottom_kg, top_kg: a point per wave, of its first or last week. Then the three
     * alone: every week, each compared with the same step of other waves (seasonal Kendall). */
    const char *measure;
    struct slope fit; /* per wave */
};

/* Nine rows per lifter, lift and focus that have a wave. A wave to which the week of `today` still belongs may go on,
 * and is left out; NO_DAY: every wave is over. */
const struct wave_slope *wave_slopes(struct arena *arena, const struct waves *waves, day_number today, size_t *count);

#endif
