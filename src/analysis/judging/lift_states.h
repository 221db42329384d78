/* What is known of each lift of a lifter while his days go by: for training.c and judging.c. Pure. */
#ifndef TAUTLINE_ANALYSIS_LIFT_STATES_H
#define TAUTLINE_ANALYSIS_LIFT_STATES_H

#include "analysis/judging/training_maker.h"

/* The state of a lift of the lifter at hand. */
struct lift_state *lift_state_of(struct training_maker *maker, uint32_t lift);
/* Whose sets come next, to be weighed or to be judged: all states begin afresh. */
void training_begin_lifter(struct training_maker *maker, uint32_t number);
/* What the gym file and the day's test sets say of the 1RM. */
void training_offer_tests(struct training_maker *maker, const struct evaluated_set *day, size_t count);
bool training_day_is_wanted(const struct training_maker *maker, day_number day); /* from, to */

#endif
