/* Waves: runs of training weeks in which the working load does not fall; and overload from wave to wave. Pure. */
#ifndef TAUTLINE_ANALYSIS_WAVES_H
#define TAUTLINE_ANALYSIS_WAVES_H

#include "analysis/training.h"

/* A week's working load: the load with the most repetitions (heaviest if tied), by straight weight; outside speed work
 * only loads of at least 80 % of the week's heaviest are candidates. */
struct wave_week
{
    const char *lifter, *lift;
    enum focus focus;
    unsigned wave; /* from 1 in each lifter, lift and focus; 0: not in a wave */
    unsigned step; /* week's number in its wave, from 1; 0: not in a wave */
    week_number week;
    day_number first_day, last_day;      /* of its sessions */
    const struct evaluated_set *working; /* a set at that load, with the AR of most repetitions, then the heavier top */
    double load_kg[LOAD_MEASURES];       /* of the working load; NAN: unknown */
    double straight_share;               /* of 1RM; NAN */
    double share;                        /* (L_t − L_b)/1RM; NAN */
    double step_points;                  /* straight share minus that of the week before in the wave; NAN at step 1 */
    size_t sets, lifts;                  /* all work sets of that lift and focus that week */
    size_t main_lifts;                   /* repetitions with at least 80 % of the working load: excludes work-up sets */
    double volume_kg[LOAD_MEASURES];
    const char *ar;                    /* canonical AR of the working load */
    const struct wave_week *before;    /* the same step of the wave before; NULL: none */
    double over_kg[LOAD_MEASURES];     /* compared with `before`; NAN: none */
    double over_volume_kg;             /* at the mean load */
    double over_ar_kg, over_weight_kg; /* over_kg[LOAD_MEAN] split into the AR's and the straight weight's part */
    bool same_ar;                      /* the same as in `before`: pieces, counts, rigs, set-up, heights */
    bool light;                        /* a single week of rest, not in a wave */
    bool far_off; /* far from all weeks around it, perhaps by a slip: it neither begins nor ends a wave. Such a week is
                     aside, too */
    bool aside; /* far off its place, perhaps by a slip: it keeps its wave and step, but is left out of fact and verdict
                 */
};

enum wave_end
{
    WAVE_OPEN,           /* the log ends */
    WAVE_ENDED_BY_FALL,  /* the straight weight fell */
    WAVE_ENDED_BY_TOP,   /* only the top load fell, with equal straight weight */
    WAVE_ENDED_BY_LIGHT, /* a light week */
    WAVE_ENDED_BY_GAP    /* more than 14 days without that lift and focus */
};

struct wave /* weeks[0 .. count) of one wave */
{
    const struct wave_week *weeks;
    size_t count;
    bool ended_by_top; /* end == WAVE_ENDED_BY_TOP */
    enum wave_end end;
    const struct wave_week *next; /* the training week that came next, whether in a wave or not; NULL: none */
};

struct waves
{
    const struct wave_week *weeks; /* those in a wave, by lifter, lift, focus, wave, step */
    size_t count;
    const struct wave *waves;
    size_t wave_count;
    /* Including light and lone weeks, by lifter, lift, focus, week; `before`, over_* and step_points are not set in
     * these. */
    const struct wave_week *all;
    size_t all_count;
};

const struct waves *waves_make(struct arena *arena, const struct training *training);

/* The weeks with a session from `from` to `to` (NO_DAY: open), and the waves that have such a week. Numbers, steps
 * and comparisons are kept. */
const struct waves *waves_window(struct arena *arena, const struct waves *waves, day_number from, day_number to);

/* Are two weeks of one lifter, lift and focus? */
bool same_series(const struct wave_week *a, const struct wave_week *b);

/* Do two sets have the same AR: pieces, counts, rigs, set-ups, heights? A recalibrated band counts as the same
 * piece. */
bool same_ar(const struct evaluated_set *a, const struct evaluated_set *b);

#endif
