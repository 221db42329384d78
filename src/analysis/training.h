/* Sets with their computed loads: the log evaluated with the model, and sorted. Pure: no I/O.
 *
 * Definitions are next to each member and in tautline(1). Loads in kg; shares and intensities are fractions; NAN:
 * does not exist. */
#ifndef TAUTLINE_ANALYSIS_TRAINING_H
#define TAUTLINE_ANALYSIS_TRAINING_H

#include "analysis/one_rm.h"
#include "base/arena.h"
#include "base/date.h"
#include "model/effect.h"
#include "model/gear.h"
#include "model/set.h"

#include <stdbool.h>
#include <stddef.h>

enum load_measure
{
    LOAD_STRAIGHT,
    LOAD_BOTTOM,
    LOAD_TOP,
    LOAD_MEAN,
    LOAD_MEASURES
};

enum doubt /* one bit each: why a set is left out of bests, records, verdicts and estimates, though it counts in volume
            */
{
    DOUBT_SLIP = 1,      /* its weight was probably mistyped: see analysis/slips.h */
    DOUBT_IMPOSSIBLE = 2 /* its load is impossible: see analysis/judging/impossible.h */
};

struct evaluated_set /* one set; kept small, since a log may have millions. Data of identical sets is shared */
{
    const struct set *set;
    const char *lifter, *lift;        /* names */
    const struct effect *effect;      /* of its load for that lifter, lift and day */
    const struct loading *loading;    /* what hangs on the bar and how; without AR it has no heights */
    const char *ar_key;               /* see same_ar() of analysis/waves.h; "" without AR */
    struct one_rm one_rm;             /* the current one on that day */
    double e1rm_low_kg, e1rm_high_kg; /* from the bottom and from the top load; NAN: none; equal without AR */
    uint32_t number;                  /* of the set within lifter, day and lift, from 1 */
    week_number week;
    unsigned assumed; /* all assumptions: in reading, by the model, and ONE_REP_MAX if the 1RM is an estimate */
    enum focus focus; /* as logged, else by the rule for sets without a focus; never FOCUS_UNSAID */
    bool has_ar;
    uint8_t doubts; /* enum doubt; 0: none */
};

struct name_choice /* compared after case folding */
{
    const char *const *names;
    size_t count; /* 0: all */
};

struct training_options
{
    enum e1rm_formula formula;
    day_number from, to;               /* NO_DAY: open. Sets outside count for the current 1RM but for nothing else */
    struct name_choice lifters, lifts; /* for lifts, aliases work too */
    day_number today;                  /* NO_DAY: every week is over */
    bool without_focus; /* for callers that show no focus: where none is logged, only the repetitions tell */
};

struct training
{
    struct evaluated_set *sets; /* by lifter (bytes), day, place in the files */
    size_t count;
    const struct set **without_max; /* loads in % of a 1RM that was not tested: refused, and not in any set */
    size_t without_max_count;
    const struct gym *gym;
    const struct log *log;
    struct training_options options;
    const uint32_t *lifter_ranks, *lift_ranks; /* of the names, in byte order */
    const struct slip
        *slips; /* why the sets marked DOUBT_SLIP are doubtful, by lifter and lift; includes sets out of range */
    size_t slip_count;
};

const struct training *training_make(struct arena *arena, const struct log *log, const struct gym *gym,
                                     const struct training_options *options);

/* The same for one lifter at a time, for a log that never holds all sets: when called, log->sets must have all sets
 * of one lifter; names and loads must all be known when the maker is created. A training is valid until the next
 * call or the end of the arena. */
struct training_maker;
struct training_maker *training_maker_new(struct arena *arena, const struct log *log, const struct gym *gym,
                                          const struct training_options *options);
const struct training *training_of_sets(struct training_maker *maker, struct arena *arena);
void training_maker_free(struct training_maker *maker);

static inline bool is_work(
    const struct evaluated_set *evaluated) /* counts in totals: a work set with at least one repetition */
{
    return evaluated->set->kind == SET_WORK && evaluated->set->reps > 0;
}
static inline bool is_believed(
    const struct evaluated_set *evaluated) /* may count in bests, records, verdicts, estimates */
{
    return !evaluated->doubts;
}

/* A run of sets of one lifter and lift, in order of day and place. */
struct lift_sets
{
    const char *lifter, *lift;
    const struct evaluated_set **sets;
    size_t count;
};

#endif
