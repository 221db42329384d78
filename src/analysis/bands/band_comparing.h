/* Compares measured bands at equal lengths. */
#ifndef TAUTLINE_ANALYSIS_BAND_COMPARING_H
#define TAUTLINE_ANALYSIS_BAND_COMPARING_H

#include "analysis/bands/band_fitting.h"

/* How far two pulls are apart, where the difference is largest in kg: the one measure of a pair, used by both fit and
 * audit. */
struct pulls_apart
{
    double kg, share; /* left minus right; relative to the mean pull there. share is NAN before any pull was seen */
    double at_m;      /* the length or bar height that was passed in */
};

#define NO_PULLS_APART ((struct pulls_apart){0, NAN, NAN})
void pulls_apart_see(struct pulls_apart *apart, double at_m, double left_kg, double right_kg);
/* Over the lengths that both calibrations reach; share is NAN if there are none. */
struct pulls_apart curves_apart(const struct band_curve *left, const struct band_curve *right, double low_m,
                                double high_m);

struct band_comparison band_compare(enum comparison_kind kind, const struct band_fitting *a,
                                    const struct band_fitting *b);

bool band_is_newest(const struct band_fittings *fittings, size_t at); /* among those of its label and side */
struct band_comparisons band_comparisons_make(struct arena *arena, const struct band_fittings *fittings);

/* A pair measured on one day as a single band: the mean of both curves at every length at which either was measured.
 * NULL: they have no range in common. */
const struct measured_band *band_pair_mean(struct arena *arena, const struct band_fitting *left,
                                           const struct band_fitting *right);

#endif
