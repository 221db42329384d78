/* The pull of an elastic loop. Lengths in metres, pulls in kg. Pure.
 *
 * T(x): pull of the whole loop stretched once to end-to-end length x; T = 0 up to the flat length x0, and never negative.
 * From the last calibrated point on: linear with the end slope. */
#ifndef TAUTLINE_MODEL_BAND_H
#define TAUTLINE_MODEL_BAND_H

#include "base/arena.h"
#include "model/gear.h"
#include "model/load.h"

#include <stdbool.h>

struct band_curve; /* T of one calibration, ready to evaluate; owned by its arena (GSL objects are copied into it) */

/* Never NULL for a calibration with at least one point or given coefficients. */
const struct band_curve *band_curve_new(struct arena *arena, const struct calibration *calibration);
double band_pull_kg(const struct band_curve *curve, double length_m);          /* T(x) */
double band_pull_slope_kg_per_m(const struct band_curve *curve, double length_m); /* T'(x); at x0 the upward one */
double band_flat_m(const struct band_curve *curve);
double band_end_m(const struct band_curve *curve); /* of the calibration */
/* Beyond the last point by more than 5 % of the calibrated extension. */
bool band_over_range(const struct band_curve *curve, double length_m);

/* End-to-end length that T is asked for when the anchor is d away: d, 2 d (doubled), x0 d / (x0 − c) (choked, c hitch). */
double rig_stretch_m(enum rig rig, double distance_m, double flat_m, double hitch_m);

/* Fits by linear least squares through the points; used for calibrations whose law has no coefficients given. */
void calibration_fit(struct calibration *calibration);

struct hung_band
{
    const struct band_curve *curve;
    enum rig rig;
    double hitch_m;
    double anchor_height_m, offset_m, spread_m;
};

struct band_pull /* one band, bar at a height */
{
    double distance_m;  /* anchor to bar */
    double stretch_m;   /* argument of T */
    double force_kg;    /* along the band: T, or 2 T doubled */
    double vertical_kg; /* on the bar: positive pulls down; negative for an anchor above */
    double fore_aft_kg; /* F a / d */
};

struct band_pull band_at(const struct hung_band *band, double height_m);
double band_load_kg(const struct hung_band *band, double height_m); /* = vertical_kg */
double band_load_slope_kg_per_m(const struct hung_band *band, double height_m); /* dB/dh */

#endif
