/* What a training is made with: for training.c, lift_states.c and judging.c only. */
#ifndef TAUTLINE_ANALYSIS_TRAINING_MAKER_H
#define TAUTLINE_ANALYSIS_TRAINING_MAKER_H

#include "analysis/slips.h"
#include "analysis/training.h"
#include "analysis/weighed.h"

struct lift_state /* of one lift while its lifter's days go by */
{
    uint32_t turn; /* of the maker: whose state it is, and the how-manieth time */
    struct one_rm tested;
    struct estimates estimates; /* of any work, the day's own too: what light work is told by */
    struct rated rated;
    struct one_rm one_rm; /* in force on `day` */
    double guide_kg;      /* that best estimate, or the test; NAN: none */
    day_number day;       /* of the set numbered last */
    uint32_t number;
    struct evaluated_set **sets; /* of the lifter */
    size_t count;
};

struct test /* of the gym file */
{
    day_number day;
    uint32_t lift;
    double kg;
};

struct training_maker
{
    struct arena *kept;        /* the names' numbers, the lifts' states */
    struct arena *scratch;     /* of one training */
    struct arena *weights;     /* what loads weigh, from lifter to lifter */
    struct arena *own_weights; /* of one lifter, or of the lifters of one training */
    size_t most_weights;
    struct training *training;
    struct training form;                      /* of each training: what is known before its sets */
    const bool *lifters_wanted, *lifts_wanted; /* by number; NULL: all */
    struct weighing *weighing;
    struct lift_state *lifts;  /* by lift number */
    uint32_t turn;             /* of lifters; each has one to weigh and one to judge */
    LIST(uint32_t) lifts_seen; /* of the lifter */
    struct slips slips;
    double above; /* see impossible_reps() */
    bool slips_off, impossible_off;
    const struct loading *loading; /* looked at last, and what cannot be of it */
    unsigned impossible;
    struct map *lift_numbers;    /* by folded name: the number + 1 */
    const struct lifter *lifter; /* of the gym file; NULL: not in it */
    uint32_t lifter_number;
    LIST(struct test) tests; /* of the lifter, by day */
    size_t tests_past;
    LIST(const struct set *) without_max;
};

#endif
