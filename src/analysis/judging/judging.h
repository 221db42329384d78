/* What sets say of each other once all of them are weighed: which are doubted, what the current 1RM was, what unsaid
 * work was. Pure. */
#ifndef TAUTLINE_ANALYSIS_JUDGING_H
#define TAUTLINE_ANALYSIS_JUDGING_H

#include "analysis/training.h"

struct training_maker;

/* All sets of the lifters are in maker->training, by lifter, day and place; those that were not asked for leave it. */
void judge_training(struct training_maker *maker);

/* The 1RM that the sets before a day estimate; lifter and lift by number. */
struct one_rm one_rm_estimated_on(const struct training *training, uint32_t lifter, uint32_t lift, day_number day);

#endif
