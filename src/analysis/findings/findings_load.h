/* Findings about the numbers that loads are based on or add up to: the current 1RM, and the week's volume. */
#ifndef TAUTLINE_ANALYSIS_FINDINGS_LOAD_H
#define TAUTLINE_ANALYSIS_FINDINGS_LOAD_H

#include "analysis/findings/findings_maker.h"

void find_in_load(struct findings_maker *maker, const struct lift_review *review);

#endif
