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
/* ∫ max(L, 0) dh from the low to the high end. */
double curve_integral(const struct loading *loading);

#endif
