/* The slopes of a trend and of waves: one row per series. Pure. */
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
    bool in_kg;          /* false: a fraction */
    struct slope fit;    /* one point per week; slope per week */
    double percent_4w;   /* the slope over four weeks in per cent of the median; NAN if the median is 0 */
    /* Medians of the points in the newest 12 calendar weeks of the series, and in the 12 before; NAN: none. */
    double recent_12, before_12;
};

/* Four rows per lift, in that order; for ALL_LIFTS only the volume. If a lift was tested, its intensity covers only
 * the weeks since the first test: before, it was a share of an estimate. The week that holds training->options.today
 * is left out because it is not over. A week without training counts as volume 0, but not at all in other measures. */
const struct trend_slope *trend_slopes(struct arena *arena, const struct training *training,
                                       const struct trend_week *weeks, size_t week_count, size_t *count);

/* Only the row of volume_mean_kg, one per lift: for callers that show no other. */
const struct trend_slope *trend_volume_slopes(struct arena *arena, const struct training *training,
                                              const struct trend_week *weeks, size_t week_count, size_t *count);

/* The one of these for a week's lifter and lift; NULL: none. */
const struct trend_slope *trend_volume_slope_find(const struct trend_slope *slopes, size_t count,
                                                  const struct trend_week *week);

struct wave_slope
{
    const char *lifter, *lift;
    enum focus focus;
    /* first_ and last_ of straight_kg, bottom_kg, top_kg: one point per wave, from its first or last week. Then the
     * three without prefix: every week, each compared with the same step of other waves (seasonal Kendall). */
    const char *measure;
    struct slope fit; /* per wave */
};

/* Nine rows per lifter, lift and focus that has a wave. A wave that includes the week of `today` may continue, and is
 * left out; NO_DAY: every wave is over. */
const struct wave_slope *wave_slopes(struct arena *arena, const struct waves *waves, day_number today, size_t *count);

#endif
