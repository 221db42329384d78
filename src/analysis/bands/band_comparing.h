/* Measured bands beside each other at equal lengths. */
#ifndef TAUTLINE_ANALYSIS_BAND_COMPARING_H
#define TAUTLINE_ANALYSIS_BAND_COMPARING_H

#include "analysis/bands/band_fitting.h"

struct band_comparison band_compare(enum comparison_kind kind, const struct band_fitting *a,
                                    const struct band_fitting *b);

bool band_is_newest(const struct band_fittings *fittings, size_t at); /* of its label and side */
struct band_comparisons band_comparisons_make(struct arena *arena, const struct band_fittings *fittings);

/* A pair measured on one day as one band: the mean of both curves at every length at which either was measured. NULL:
 * they have no range in common. */
const struct measured_band *band_pair_mean(struct arena *arena, const struct band_fitting *left,
                                           const struct band_fitting *right);

#endif
