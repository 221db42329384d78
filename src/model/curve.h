/* The load curve before it is clamped, and its integral: what effect.c makes loads of. Pure.
 *
 * Without heights all that hangs is a ramp, and the curve runs over 0 to 1 instead of over metres. */
#ifndef TAUTLINE_MODEL_CURVE_H
#define TAUTLINE_MODEL_CURVE_H

#include "model/effect.h"

double curve_low(const struct loading *loading);
double curve_high(const struct loading *loading);
/* straight + all that hangs and is known, not clamped. Releasers and unknown gear count as nothing. */
double curve_at(const struct loading *loading, double height_m);

/* The heights between low and high, rising, at which the load's slope jumps: a chain's first or last link leaves the
 * floor, a band comes taut. */
const double *curve_kinks(struct arena *arena, const struct loading *loading, double low_m, double high_m,
                          size_t *count);

/* What all that hangs does between the ends, by the parts in which the curve is smooth: worked out once for all the
 * straight weights that it hangs with, which add to it. */
struct curve
{
    size_t bends;        /* at least 2: the low and the high end are the first and the last */
    double *bend_m;      /* rising */
    double *added_kg;    /* [bend * hung_count + i]: by hung[i] */
    double *closed_kg_m; /* [part * hung_count + i]: ∫ from a bend to the next, by hung[i]; 0 for bands */
    double *bands_kg_m;  /* [part]: by all bands */
};

const struct curve *curve_make(struct arena *arena, const struct loading *loading);
double curve_at_bend(const struct curve *curve, const struct loading *loading,
                     size_t bend); /* = curve_at() there, to the bit */
/* ∫ max(L, 0) dh from the low to the high end. */
double curve_integral(const struct curve *curve, const struct loading *loading);

/* What one piece adds, all `times` of it: 0 for releasers, NAN for gear that is not known. */
double hung_load_kg(const struct loading *loading, const struct hung *hung, double height_m);

#endif
