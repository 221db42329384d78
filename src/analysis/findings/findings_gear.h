/* Findings about chains and bands: how they hang, how far they stretch, and what is known about them. */
#ifndef TAUTLINE_ANALYSIS_FINDINGS_GEAR_H
#define TAUTLINE_ANALYSIS_FINDINGS_GEAR_H

#include "analysis/findings/findings_maker.h"

void find_in_gear(struct findings_maker *maker, const struct lift_review *review);

#endif
