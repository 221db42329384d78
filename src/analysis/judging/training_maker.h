/* The working state while a training is made: only for training.c, lift_states.c and judging.c. */
#ifndef TAUTLINE_ANALYSIS_TRAINING_MAKER_H
#define TAUTLINE_ANALYSIS_TRAINING_MAKER_H

#include "analysis/slips.h"
#include "analysis/training.h"
#include "analysis/weighed.h"

struct lift_state /* of one lift while its lifter's days go by */
{
    uint32_t turn; /* of the maker when this state was last reset; an older number means it belongs to another pass */
    struct one_rm tested;
    struct rated rated;
    struct one_rm one_rm; /* the current one on `day` */
    day_number day;       /* of the set that was numbered last */
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
    struct arena *kept;    /* for the names' numbers and the lifts' states */
    struct arena *scratch; /* for one training */
    struct training *training;
    struct training form;                      /* template of each training: what is known before its sets */
    const bool *lifters_wanted, *lifts_wanted; /* by number; NULL: all */
    struct weighing *weighing;
    struct lift_state *lifts;  /* by lift number */
    uint32_t turn;             /* counts up twice per lifter: to weigh and to judge */
    LIST(uint32_t) lifts_seen; /* of the lifter */
    struct slips slips;
    double above; /* see impossible_reps() */
    bool slips_off, impossible_off;
    const struct loading *loading; /* the one checked last, and what is impossible about it */
    unsigned impossible;
    struct map *lift_numbers;    /* by folded name: the number + 1 */
    const struct lifter *lifter; /* in the gym file; NULL: not in it */
    uint32_t lifter_number;
    LIST(struct test) tests; /* of the lifter, by day */
    size_t tests_past;
    LIST(const struct set *) without_max;
};

#endif
