/* What sets say about each other once the loads of all are known: which are doubtful, what the current 1RM was, and
 * the focus where the log gives none. Pure. */
#ifndef TAUTLINE_ANALYSIS_JUDGING_H
#define TAUTLINE_ANALYSIS_JUDGING_H

#include "analysis/training.h"

struct training_maker;

/* All sets of the lifters must be in maker->training, by lifter, day and place; those that were not asked for are
 * removed. */
void judge_training(struct training_maker *maker);

/* The 1RM estimated from the sets before a day; lifter and lift are given by number. */
struct one_rm one_rm_estimated_on(const struct training *training, uint32_t lifter, uint32_t lift, day_number day);

#endif
