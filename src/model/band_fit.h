/* band_fit.h */
#ifndef TAUTLINE_MODEL_BAND_FIT_H
#define TAUTLINE_MODEL_BAND_FIT_H

#include "model/band.h"

/* False: fewer usable points (longer than flat) than constants, or not a law with constants. */
bool band_law_fit(enum band_law law, double flat_m, const struct tension_point *points, size_t count,
                  struct band_fit *fit);
double band_law_pull_kg(double c1_kg, double c2_kg, double stretch_ratio); /* T(λ) of both laws; 0 up to λ = 1 */

/* Fits by linear least squares through the points; used for calibrations whose law has no coefficients given. One
 * point: neo-Hookean through it, and one_point is set, whatever law was asked for. Sets a range where the file gives
 * none. */
void calibration_fit(struct calibration *calibration);

#endif
