/* Findings about numbers that are hard to believe: weights that were probably mistyped, and impossible loads. */
#ifndef TAUTLINE_ANALYSIS_FINDINGS_DOUBTS_H
#define TAUTLINE_ANALYSIS_FINDINGS_DOUBTS_H

#include "analysis/findings/findings_maker.h"

/* The training's slips by set, for maker->slips. */
struct map *slips_by_set(struct arena *scratch, const struct training *training);
void find_doubts(struct findings_maker *maker, const struct lift_review *review);

#endif
