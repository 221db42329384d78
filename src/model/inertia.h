/* What moving a load asks for beside holding it. Pure; loads in kg of force, heights in m, speeds in m/s.
 *
 * A model, not a measurement. The bar is taken to go from rest at the bottom to rest at the top, and its speed to rise
 * and fall as half a sine over the time T that this takes. With D = h_t − h_b and the mean speed D / T = v:
 *
 *   peak speed = π v / 2          y = (h − h_b) / D
 *   speed(h) = π v sqrt(y (1 − y))          acceleration(h) = π² v² / (2 D) (1 − 2 y)
 *
 * (from h = h_b + D/2 (1 − cos πt/T)). By Newton's second law for what hangs at the bar, d(m speed)/dt:
 *
 *   inertia(h) = (m(h) acceleration(h) + dm/dh speed(h)²) / g
 *
 * m: the straight weight and what hangs of chains and leaders; the second part is the thrust of picking up links that
 * lie still. A band has no mass that counts. Lifters speed up harder than this at the start of a light load and slow
 * down at a sticking point, so that the true peak is rather higher. */
#ifndef TAUTLINE_MODEL_INERTIA_H
#define TAUTLINE_MODEL_INERTIA_H

#include "model/effect.h"

struct bar_motion
{
    double bottom_m, top_m;
    double mean_ms;
};

struct bar_motion bar_motion_of_peak(double bottom_m, double top_m, double peak_ms);
double bar_motion_peak_ms(const struct bar_motion *motion);
double bar_motion_speed_ms(const struct bar_motion *motion, double height_m);
double bar_motion_acceleration_ms2(const struct bar_motion *motion, double height_m); /* below 0 from half way on */

/* m(h); NAN: the mass of a chain, or the straight weight, is not known. */
double loading_moving_kg(const struct loading *loading, double height_m);
/* inertia(h): below 0 where the load's own way slows it down. NAN: no heights, or a mass that is not known. */
double loading_inertia_kg(const struct loading *loading, const struct bar_motion *motion, double height_m);

#endif
