/* The next wave of a lifter, lift and focus, from the last one. Pure; loads in kg, shares are fractions of 1RM.
 *
 * The straight weight of each week is that of the last wave's, raised by the lifter's own step from wave to wave; or a
 * share of the current 1RM, where shares are given or the 1RM was tested since. It is rounded to the fewest plates.
 * Chains and bands, sets and repetitions are those of the last wave unless the wish says otherwise. A wave that has
 * begun is finished before a new one. Without any wave the first one follows the trade's common practice. The plan is
 * then weighed and looked at as if it had been lifted, after all that was logged before it: so it raises the findings
 * that the log would. */
#ifndef TAUTLINE_ANALYSIS_PLAN_H
#define TAUTLINE_ANALYSIS_PLAN_H

#include "analysis/findings/findings.h"
#include "analysis/plan/plates.h"
#include "analysis/training.h"
#include "analysis/waves.h"

#define PLAN_MOST_WEEKS 52
#define PLAN_MOST_SETS 100 /* a day */
#define PLAN_MOST_TOP 1.10 /* of 1RM: a top load above it is warned of (common practice, no source) */
#define PLAN_MOST_RAISE                                                                                                \
    0.05 /* of the last wave's first load: no wave is raised by more (common practice, no source)                      \
          */
#define PLAN_STALE_DAYS (26 * 7) /* a tested 1RM older than this is said to be old */

struct plan_wish
{
    const char *lifter, *lift; /* as the log or the gym file spells them */
    enum focus focus;
    const double *shares; /* of the weeks, the first at least; NULL: see enum plan_basis */
    size_t share_count;
    double step;           /* share added by each week after the last given; NAN: as the last two differ, else 0.05 */
    size_t weeks;          /* 0: as many as shares */
    int sets, reps;        /* 0: as in the last wave */
    const struct load *ar; /* whose pieces are hung; NULL: those of the last wave */
    double ar_share;       /* (L_t − L_b)/1RM to choose chains and bands for; NAN: none are chosen */
    double max_kg;         /* over the current 1RM; NAN: not said */
    day_number start;      /* NO_DAY: the week after the last logged one. What was logged from it on is left out */
    enum mass_unit unit;   /* of the findings' words */
    double raise_kg;       /* straight weight of each week above the last wave's, where raise_said */
    bool raise_said;       /* else the lifter's own step */
    bool without_findings; /* whoever shows many plans in a line each does not need them */
};

enum plan_basis /* what the straight weights are made from */
{
    PLAN_FROM_PERCENT, /* the wish's shares of the 1RM */
    PLAN_FROM_TEST, /* shares of a 1RM that was tested after the last wave: the last wave's own; 50, 55, 60 % for speed
                     */
    PLAN_FROM_WAVE, /* the last wave's weights, each raised by raise_kg */
    PLAN_FROM_PRACTICE /* no wave: 50, 55, 60 % for speed (common practice, no source) */
};

enum plan_raise /* where raise_kg is from */
{
    PLAN_RAISED_BY_PLATES, /* one pair of the smallest: the waves do not rise by more */
    PLAN_RAISED_BY_SLOPE,  /* the lifter's own step, from wave to wave */
    PLAN_RAISED_TO_LIMIT,  /* PLAN_MOST_RAISE: the own step is more */
    PLAN_RAISED_AS_SAID
};

enum plan_state
{
    PLAN_MADE,
    PLAN_NO_ONE_RM,     /* percentages of nothing */
    PLAN_NO_SHARES,     /* not speed work, no wave to go on and no share given */
    PLAN_NO_BODYWEIGHT, /* a lift of the body, whose weight nobody said */
    PLAN_NO_SETUP       /* no chain or band of the gym can be told to make that share */
};

struct plan_week
{
    unsigned step; /* from 1 */
    week_number week;
    day_number day;
    double target_share, target_kg;
    double least_kg;    /* the straight weight is rounded to no less; 0: no such limit */
    double written_kg;  /* as the log would have it: hung from the body, or in one hand */
    double rounding_kg; /* straight weight less target */
    bool in_hand;       /* written_kg is what one hand holds */
    bool has_plates;    /* a barbell: the choice below holds */
    struct plate_choice plates;
    const struct evaluated_set *set;                         /* one of the planned sets, weighed */
    double load_kg[LOAD_MEASURES];                           /* NAN: unknown */
    double straight_share;                                   /* after rounding */
    double share;                                            /* (L_t − L_b)/1RM; NAN: an end is unknown */
    int sets, reps;                                          /* 0: nobody said */
    double volume_kg[LOAD_MEASURES];                         /* as weeks of waves count it; NAN without sets and reps */
    const struct wave_week *before;                          /* the same step of the last wave; NULL: none */
    double over_kg[LOAD_MEASURES], over_part[LOAD_MEASURES]; /* against it, in kg and as a fraction; NAN: none */
    bool above_one_rm;                                       /* the straight weight is above the 1RM */
    bool top_too_heavy;                                      /* the top is above PLAN_MOST_TOP */
};

struct plan
{
    enum plan_state state; /* what is below one_rm holds where it is PLAN_MADE */
    const char *lifter, *lift;
    enum focus focus;
    const struct wave
        *last;   /* finished; with the set-up of the unfinished one, if any has it. NULL: no wave to go on */
    size_t done; /* weeks of an unfinished wave that are trained; the plan is the rest of it; 0: a new wave */
    enum plan_basis basis;
    double raise_kg, slope_kg; /* PLAN_FROM_WAVE: of each week; the own step, NAN: unknown */
    enum plan_raise raised_by;
    bool held;                             /* some week is raised by less: speed work would be too heavy */
    bool sets_by_practice, ar_by_practice; /* a first wave: taken from common practice */
    double
        lighter_kg; /* by how much some week is lighter than its counterpart, at the end where it is most; 0: none is */
    enum load_measure lighter_at;
    const struct wave_week
        *after; /* the newest week after it, which is in no wave; NULL: none. Such weeks are left out */
    struct one_rm one_rm;
    bool one_rm_said; /* by the wish */
    int one_rm_days;  /* its age at the start */
    struct rack rack;
    const struct load *ar;      /* with the pieces that are hung; NULL: none */
    bool ar_chosen;             /* by the share wanted */
    double ar_miss;             /* share found less share wanted */
    const struct setup *anchor; /* of the chosen bands, to be set up; NULL: none needed */
    bool same_ar;               /* as in the last wave: the change is the straight weight's */
    const struct plan_week *weeks;
    size_t week_count;
    const struct finding **findings; /* that the plan raises, gravest first */
    size_t finding_count;
};

/* `training` tells the log, the gym file, the formula and the days to look at; it need not hold the lift. Loads are
 * interned in the log's. */
const struct plan *plan_make(struct arena *arena, const struct training *training, const struct plan_wish *wish);

/* The same of many plans of one lifter that start on one day (NO_DAY: see the wish), whose past is looked at once: what
 * was trained before the start, its waves and verdicts. Both keep `training`, which must outlive them. */
struct plan_past;
const struct plan_past *plan_past_make(struct arena *arena, const struct training *training, const char *lifter,
                                       day_number start);
const struct plan *plan_make_after(struct arena *arena, const struct plan_past *past, const struct plan_wish *wish);

#endif
