/* Properties of the sets of a training, and its lifts one by one. */
#ifndef TAUTLINE_ANALYSIS_EVALUATED_SET_H
#define TAUTLINE_ANALYSIS_EVALUATED_SET_H

#include "analysis/training.h"

/* For totals: if the load at an end is unknown, the straight weight is used. NAN if the set has no weight. */
double counted_load(const struct evaluated_set *evaluated, enum load_measure measure);

/* The load if it is known, else NAN. */
double known_load(const struct evaluated_set *evaluated, enum load_measure measure);

/* (L_t − L_b) / 1RM; 0 without AR, NAN without a 1RM or with an unknown end. */
double ar_share(const struct evaluated_set *evaluated);

/* Mean load / 1RM, straight weight where there is no AR; NAN without a 1RM or with an unknown mean. */
double intensity_of(const struct evaluated_set *evaluated);

/* Groups by lifter, then lift (bytes). */
const struct lift_sets *training_by_lift(struct arena *arena, const struct training *training, size_t *count);

#endif
