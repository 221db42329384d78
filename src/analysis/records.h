/* Bests: the heaviest load that a lifter moved for a number of repetitions, per lift. Pure. */
#ifndef TAUTLINE_ANALYSIS_RECORDS_H
#define TAUTLINE_ANALYSIS_RECORDS_H

#include "analysis/training.h"

#define RECORD_REPS 10

struct record
{
    double kg;                       /* NAN: none */
    const struct evaluated_set *set; /* the first that reached it, by day and place; NULL: none */
};

struct lift_records
{
    const char *lifter, *lift;
    /* [r − 1] is for at least r repetitions, so that a five also counts as a single. Straight: only sets without AR,
     * because with it the same plates are another load. Bottom and top: every set whose load there is known.
     * LOAD_MEAN is left empty. */
    struct record best[LOAD_MEASURES][RECORD_REPS];
};

/* By lifter, then lift (bytes); lifts without any weight have no row. */
const struct lift_records *records_make(struct arena *arena, const struct training *training, size_t *count);

#endif
