/* The next wave of a lifter, lift and focus, based on the last one. Pure; loads in kg, shares are fractions of 1RM.
 *
 * The straight weight of each week is that of the last wave, raised by the lifter's own step from wave to wave; or a
 * share of the current 1RM, if shares are given or the 1RM was tested since. It is rounded to the fewest plates.
 * Chains and bands, sets and repetitions are those of the last wave unless the wish says otherwise. An unfinished
 * wave is finished before a new one begins. Without any wave, the first one follows common practice. The plan is then
 * weighed and checked as if it had been lifted after everything logged before it, so it raises the same findings as
 * the log would. */
#ifndef TAUTLINE_ANALYSIS_PLAN_H
#define TAUTLINE_ANALYSIS_PLAN_H

#include "analysis/findings/findings.h"
#include "analysis/plan/plates.h"
#include "analysis/training.h"
#include "analysis/waves.h"

#define PLAN_MOST_WEEKS 52
#define PLAN_MOST_SETS 100 /* in one day */
#define PLAN_MOST_TOP 1.10 /* of 1RM: a warning is given for a top load above it (common practice, no source) */
#define PLAN_MOST_RAISE                                                                                                \
    0.05 /* of the last wave's first load: no wave is raised by more (common practice, no source)                      \
          */
#define PLAN_STALE_DAYS (26 * 7) /* a tested 1RM older than this is reported as old */

struct plan_wish
{
    const char *lifter, *lift; /* spelt as in the log or the gym file */
    enum focus focus;
    const double *shares; /* of the weeks, at least of the first; NULL: see enum plan_basis */
    size_t share_count;
    double step;  /* added to the share by each week after the last one given; NAN: the difference of the last two, else
                     0.05 */
    size_t weeks; /* 0: as many as shares */
    int sets, reps;        /* 0: as in the last wave */
    const struct load *ar; /* whose pieces are used; NULL: those of the last wave */
    double ar_share;       /* (L_t − L_b)/1RM that chains and bands are chosen for; NAN: do not choose any */
    double max_kg;         /* overrides the current 1RM; NAN: not given */
    day_number start;      /* NO_DAY: the week after the last logged one. Whatever was logged from then on is ignored */
    enum mass_unit unit;   /* for the words of findings */
    enum mass_unit tape;   /* as in struct setup_wish */
    double raise_kg;       /* how much each week's straight weight is above the last wave's, if raise_said */
    bool raise_said;       /* false: use the lifter's own step */
    bool keep_steps;       /* repeat the steps of the last wave where they are uneven, too */
    bool without_findings; /* not needed where many plans are shown in a line each */
};

enum plan_basis /* how the straight weights are worked out */
{
    PLAN_FROM_PERCENT, /* the wish's shares of the 1RM */
    PLAN_FROM_TEST,    /* shares of a 1RM tested after the last wave: the last wave's own; 50, 55, 60 % for speed */
    PLAN_FROM_WAVE,    /* the last wave's weights, uneven steps made equal, each raised by raise_kg */
    PLAN_FROM_PRACTICE /* no wave: 50, 55, 60 % for speed (common practice, no source) */
};

enum plan_raise /* where raise_kg comes from */
{
    PLAN_RAISED_BY_PLATES, /* one pair of the smallest plates: the waves rise by less */
    PLAN_RAISED_BY_SLOPE,  /* the lifter's own step, from wave to wave */
    PLAN_RAISED_TO_LIMIT,  /* PLAN_MOST_RAISE: the lifter's own step is larger */
    PLAN_RAISED_AS_SAID
};

enum plan_state
{
    PLAN_MADE,
    PLAN_NO_ONE_RM,     /* percentages without a 1RM */
    PLAN_NO_SHARES,     /* not speed work, no wave to start from and no share given */
    PLAN_NO_BODYWEIGHT, /* a bodyweight lift without a given bodyweight */
    PLAN_NO_SETUP       /* the gym has no chains or bands known to make that share */
};

struct plan_week
{
    unsigned step; /* from 1 */
    week_number week;
    day_number day;
    double target_share, target_kg;
    double least_kg;    /* the straight weight is not rounded below this; 0: no such limit */
    double written_kg;  /* as it would be logged: a weight added to bodyweight, or the weight in one hand */
    double rounding_kg; /* straight weight minus target */
    bool in_hand;       /* written_kg is what one hand holds */
    bool has_plates;    /* a barbell: `plates` below is set */
    struct plate_choice plates;
    const struct evaluated_set *set; /* one of the planned sets, with its load */
    double load_kg[LOAD_MEASURES];   /* NAN: unknown */
    double straight_share;           /* after rounding */
    double share;                    /* (L_t − L_b)/1RM; NAN: an end is unknown */
    int sets, reps;                  /* 0: not given */
    double volume_kg[LOAD_MEASURES]; /* counted as in weeks of waves; NAN without sets and reps */
    const struct wave_week *before;  /* the same step of the last wave; NULL: none */
    double over_kg[LOAD_MEASURES], over_part[LOAD_MEASURES]; /* against it, in kg and as a fraction; NAN: none */
    bool above_one_rm;                                       /* the straight weight is above the 1RM */
    bool top_too_heavy;                                      /* the top load is above PLAN_MOST_TOP */
};

struct plan
{
    enum plan_state state; /* what is below one_rm is set only if PLAN_MADE */
    const char *lifter, *lift;
    enum focus focus;
    const struct wave
        *last; /* a finished one; with the set-up of the unfinished one, if there is one. NULL: no wave to start from */
    size_t done; /* weeks already trained of an unfinished wave, whose rest is planned; 0: a new wave */
    enum plan_basis basis;
    double raise_kg, slope_kg; /* PLAN_FROM_WAVE: per week; the lifter's own step, NAN: unknown */
    enum plan_raise raised_by;
    bool evened; /* the last wave's steps were uneven; these are equal, from its first load to its last */
    bool held;   /* some week is raised by less, or speed work would be too heavy */
    bool sets_by_practice, ar_by_practice; /* a first wave: taken from common practice */
    double lighter_kg; /* how much some week is lighter than its counterpart, at the end where the difference is
                          largest; 0: none is */
    enum load_measure lighter_at;
    const struct wave_week *after; /* the newest week after it, outside waves; NULL: none. Such weeks are ignored */
    struct one_rm one_rm;
    bool one_rm_said; /* given in the wish */
    int one_rm_days;  /* its age at the start */
    struct rack rack;
    const struct load *ar;      /* with the pieces that are used; NULL: none */
    bool ar_chosen;             /* to match the wanted share */
    double ar_miss;             /* share found minus share wanted */
    const struct setup *anchor; /* of the chosen bands, still to be set up; NULL: not needed */
    bool same_ar;               /* as in the last wave: only the straight weight changes */
    const struct plan_week *weeks;
    size_t week_count;
    const struct finding **findings; /* that the plan causes, the most severe first */
    size_t finding_count;
};

/* `training` supplies the log, the gym file, the formula and the range of days; it need not contain the lift. Loads
 * are interned in its log. */
const struct plan *plan_make(struct arena *arena, const struct training *training, const struct plan_wish *wish);

/* The same for many plans of one lifter that start on one day (NO_DAY: see the wish); the past is evaluated once:
 * what was trained before the start, its waves and verdicts. Both refer to `training`, which must outlive them. */
struct plan_past;
const struct plan_past *plan_past_make(struct arena *arena, const struct training *training, const char *lifter,
                                       day_number start);
const struct plan *plan_make_after(struct arena *arena, const struct plan_past *past, const struct plan_wish *wish);

#endif
