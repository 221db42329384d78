/* The pull of an elastic loop. Lengths in metres, pulls in kg. Pure.
 *
 * T(x): pull of the whole loop stretched once to end-to-end length x; T = 0 up to the flat length x0, and never
 * negative. From the last calibrated point on: linear with the end slope.
 *
 * Round pegs and a bar with widths a loop is P long, and each of its strands pulls T(P / 2) / 2. */
#ifndef TAUTLINE_MODEL_BAND_H
#define TAUTLINE_MODEL_BAND_H

#include "base/arena.h"
#include "model/gear.h"
#include "model/load.h"

#include <stdbool.h>
#include <stddef.h>

#define DEFAULT_HITCH_M 0.10 /* what a girth hitch takes of a band's length where it was not measured */

struct band_curve; /* T of one calibration, ready to evaluate; owned by its arena (GSL objects are copied into it) */

/* Never NULL for a calibration with at least one point or given coefficients. Points that are not longer than the flat
 * length and the point before are left out. NULL: nothing to go by. */
const struct band_curve *band_curve_new(struct arena *arena, const struct calibration *calibration);
/* T of the band while it is let go: rubber gives back less than it takes. The curve through the points measured then,
 * of one the neo-Hookean law, whatever law the calibration is under. NULL: none were. */
const struct band_curve *band_lowering_curve_new(struct arena *arena, const struct calibration *calibration);
/* Let go at this point, does it pull more than the curve of the stretched band does, beyond what readings of one length
 * may differ by? Then the two were swapped, or one is wrong. False beyond the curve's end. */
bool band_pulls_more_let_go(const struct band_curve *stretched, const struct tension_point *point);
double band_pull_kg(const struct band_curve *curve, double length_m);             /* T(x) */
double band_pull_slope_kg_per_m(const struct band_curve *curve, double length_m); /* T'(x); at x0 the upward one */
double band_flat_m(const struct band_curve *curve);
double band_end_m(const struct band_curve *curve); /* of the calibration; INFINITY: coefficients with no range */
bool band_rests_on_one_point(const struct band_curve *curve);
/* Beyond the last point by more than 5 % of the calibrated extension. */
bool band_over_range(const struct band_curve *curve, double length_m);
/* Lengths between which T is smooth, rising: x0, the points, the end. */
size_t band_knot_count(const struct band_curve *curve);
double band_knot_m(const struct band_curve *curve, size_t knot);

/* End-to-end length that T is asked for when the anchor is d away: d, 2 d (doubled), x0 d / (x0 − c) (choked, c hitch;
 * a hitch that would take the whole band is none). */
double rig_stretch_m(enum rig rig, double distance_m, double flat_m, double hitch_m);
double rig_distance_m(enum rig rig, double stretch_m, double flat_m, double hitch_m); /* its inverse */

/* A law through measured points by linear least squares, unweighted; λ = x / x0:
 *   neo-Hookean    T = c1 (λ − λ⁻²)          Mooney–Rivlin    T = (λ − λ⁻²)(c1 + c2/λ) */
struct band_fit
{
    double c1_kg, c2_kg;     /* c2 is 0 for neo-Hookean */
    double c1_u_kg, c2_u_kg; /* standard errors; NAN with no point to spare */
    double c12_kg2;          /* covariance of the two; NAN likewise, 0 for neo-Hookean */
    double residual_kg;      /* root mean square over the points */
    double low_m, high_m;    /* range of the points: outside it the law is a guess */
    size_t point_count;
};

/* What a band lies round where its anchor is more than a point: two pegs in front of and behind the bar's path, or
 * widths. All 0: a point below or above a thin bar. See model/geometry/wrap.h. */
struct band_pegs
{
    double apart_m; /* centre to centre; 0: one */
    double bar_radius_m, peg_radius_m;
    bool from_above; /* the pegs are above the bar */
};

struct hung_band
{
    const struct band_curve *curve;
    enum rig rig;
    double hitch_m;
    double anchor_height_m, offset_m, spread_m;
    struct band_pegs pegs;
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
/* How far above or below its anchor the bar is where the band is that long, end to end; NAN: the anchor is as far
 * aside, or the pegs as far apart. */
double band_rise_m(const struct hung_band *band, double length_m);
/* Fore-aft pull over vertical pull of a band that pulls, the bar that far above its anchor: a / (h − z) of a point. */
double band_lean(const struct hung_band *band, double rise_m);
double band_load_kg(const struct hung_band *band, double height_m);             /* = vertical_kg */
double band_load_slope_kg_per_m(const struct hung_band *band, double height_m); /* dB/dh; at a kink: upward */

#endif
