/* What is known about each lift of a lifter as the days go by: for training.c and judging.c. Pure. */
#ifndef TAUTLINE_ANALYSIS_LIFT_STATES_H
#define TAUTLINE_ANALYSIS_LIFT_STATES_H

#include "analysis/judging/training_maker.h"

/* The state of a lift of the current lifter. */
struct lift_state *lift_state_of(struct training_maker *maker, uint32_t lift);
/* Call this before a lifter's sets are weighed or judged: all states start afresh. */
void training_begin_lifter(struct training_maker *maker, uint32_t number);
/* Takes the tested 1RMs of the gym file and of the day's test sets into account. */
void training_offer_tests(struct training_maker *maker, const struct evaluated_set *day, size_t count);
bool training_day_is_wanted(const struct training_maker *maker, day_number day); /* within `from` and `to` */

#endif
