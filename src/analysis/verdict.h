/* Is each wave heavier? For each lifter, lift and focus there are two answers, which are never mixed: the fact, which
 * compares the newest wave with an earlier one, step by step; and the verdict, which is what the newest waves
 * together show. Pure.
 *
 * The fact does not judge: kilograms at bottom and top, the dates of both waves. The verdict is a test over the
 * newest eight waves (analysis/statistics: seasonal Kendall), always given with the day it refers to. Like is
 * compared with like: the same step of a wave with the same set-up. Loads in kg; NAN: unknown or does not exist. */
#ifndef TAUTLINE_ANALYSIS_VERDICT_H
#define TAUTLINE_ANALYSIS_VERDICT_H

#include "analysis/waves.h"

#define VERDICT_WAVES 8       /* how many of the newest count */
#define VERDICT_WEEKS 16      /* the same for weeks, if there are no waves */
#define VERDICT_LEAST_WAVES 4 /* with fewer: too early */
#define VERDICT_P 0.05        /* below: rising or falling */
#define VERDICT_MATTERS 0.005 /* of the load, per wave: a smaller change does not matter */
#define FACT_SAME 0.005       /* of the load: a smaller difference between two waves is within rounding */

/* What a run of waves (or weeks) shows. */
enum tendency
{
    TENDENCY_TOO_EARLY, /* fewer than VERDICT_LEAST_WAVES */
    TENDENCY_OPEN,      /* neither a direction nor level: too much scatter for so few waves */
    TENDENCY_LEVEL,     /* p >= 0.05, and the interval excludes a change that matters */
    TENDENCY_RISING,    /* p < 0.05 */
    TENDENCY_FALLING
};

/* What is reported; the first five are the tendencies. */
enum verdict_kind
{
    VERDICT_TOO_EARLY,
    VERDICT_OPEN,
    VERDICT_LEVEL,
    VERDICT_RISING,
    VERDICT_FALLING,
    VERDICT_STALE,     /* not trained for a long time; `trend` is as of then */
    VERDICT_NEW_SETUP, /* none of the eight waves before has the newest one's set-up; `trend` has only that wave */
    VERDICT_RESTARTED, /* a 1RM was tested before the newest wave, which follows its percentages; `trend` is that of the
                          waves before */
    VERDICT_NO_WAVES   /* `trend` is over weeks: kg per week */
};

/* Words of the CSV and JSON: "rising", "too-early", "new-set-up", ... */
const char *verdict_word(enum verdict_kind kind);
const char *tendency_word(enum tendency tendency);

/* The newest wave against the newest earlier one (of eight) that has a step in common with the same set-up, else
 * against the newest earlier one that has a step in common; over all steps that both have. */
struct verdict_fact
{
    bool exists;            /* false: fewer than two waves, or no step in common; the rest is then 0, NO_DAY, NAN, "" */
    unsigned wave, against; /* their numbers */
    day_number wave_first, wave_last; /* days of the first and last session of both */
    day_number against_first, against_last;
    size_t steps;    /* compared */
    bool same_setup; /* at all of these steps */
    /* Means over the steps compared. With the same set-up, the straight weight's difference is used at both ends,
     * even if the weight of the chains or bands is unknown. NAN: unknown. */
    double over_kg[LOAD_MEASURES];
    double over_share[LOAD_MEASURES]; /* relative to the load before, as a fraction */
    double over_volume_kg;            /* per week, by the mean load */
    double over_ar_kg,
        over_weight_kg; /* over_kg[LOAD_MEAN] split into the parts of chains and bands and of the straight weight */
    const char *ar, *against_ar; /* canonical AR of the newest step compared, and of its counterpart; "": none */
};

/* A test over waves (or weeks) of one series. */
struct verdict_trend
{
    enum tendency tendency;
    bool by_week;                   /* over weeks, not waves: slopes are kg per week, `waves` counts weeks */
    size_t waves;                   /* that take part in it */
    size_t points;                  /* weeks compared */
    unsigned first_wave, last_wave; /* numbers; 0: by_week */
    day_number since, as_of;        /* first day of the oldest wave and last day of the newest in it; NO_DAY: none */
    double slope_kg[LOAD_MEASURES]; /* per wave: median of the slopes between like steps; NAN: unknown or fewer than two
                                       waves */
    double low_kg,
        high_kg;       /* Sen's 95 % interval of the slope, at the top if that is known, else of the straight weight */
    double p;          /* two-sided; NAN with fewer than VERDICT_LEAST_WAVES */
    double load_kg;    /* median of the loads compared, at that same end */
    double matters_kg; /* the smallest change per wave that matters: VERDICT_MATTERS of load_kg */
    unsigned more_waves;  /* OPEN: about how many more such waves would settle it; 0: more than fit in VERDICT_WAVES */
    double stands_out_kg; /* TOO_EARLY: a difference between two waves beyond the lifter's own scatter; NAN */
    const char *ar;       /* canonical AR of the newest wave in it; "": none */
};

struct verdict
{
    const char *lifter, *lift;
    enum focus focus;
    enum verdict_kind kind;
    day_number as_of; /* the series' last session */
    week_number week; /* week of that day */
    unsigned waves;   /* in total */
    bool has_ar;      /* in any training week */
    struct verdict_fact fact;
    struct verdict_trend trend; /* of the newest wave's set-up; see enum verdict_kind */
    /* The other set-ups among the newest waves, newest first, if set-ups alternate. */
    const struct verdict_trend *others;
    size_t other_count;
    day_number log_last;  /* STALE: the lifter's last day in the log */
    struct one_rm tested; /* RESTARTED: the test */
    /* Rows of waves->weeks: the newest wave, and that of the fact; NULL: none. */
    const struct wave *newest, *against;
};

/* One for each lifter, lift and focus (except tests) that has a training week, by lifter, lift, focus; only those
 * with a session on or after the day `from` (NO_DAY: all). `waves` must outlive it. Sets after training->options.to
 * are ignored. */
const struct verdict *verdicts_make(struct arena *arena, const struct training *training, const struct waves *waves,
                                    day_number from, size_t *count);

/* "up", "down" or "": the verdict's direction, whatever kind it is. */
const char *verdict_direction(const struct verdict *verdict);

/* The fact for one load: 1 heavier, -1 lighter, 0 within FACT_SAME; 2: unknown. */
int fact_direction(const struct verdict_fact *fact, enum load_measure measure);

#endif
