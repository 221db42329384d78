/* What is asked of the sets of a training, and its lifts one by one. */
#ifndef TAUTLINE_ANALYSIS_EVALUATED_SET_H
#define TAUTLINE_ANALYSIS_EVALUATED_SET_H

#include "analysis/training.h"

/* For totals: the straight weight is used where an end is unknown. NAN where the set has no weight. */
double counted_load(const struct evaluated_set *evaluated, enum load_measure measure);

/* As it is known: NAN where unknown. */
double known_load(const struct evaluated_set *evaluated, enum load_measure measure);

/* (L_t − L_b) / 1RM; 0 without AR, NAN without a 1RM or with an unknown end. */
double ar_share(const struct evaluated_set *evaluated);

/* Mean load / 1RM, straight weight where there is no AR; NAN without a 1RM or with an unknown mean. */
double intensity_of(const struct evaluated_set *evaluated);

/* Groups by lifter, then lift (bytes). */
const struct lift_sets *training_by_lift(struct arena *arena, const struct training *training, size_t *count);

#endif
