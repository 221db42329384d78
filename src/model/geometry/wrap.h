/* A band that lies round the bar and round one peg or two, all of them with their widths. Pure; lengths in metres.
 *
 * Bar and pegs run crosswise, so that the band is a belt round circles: straight runs that touch two of them, and an
 * arc on each. A run goes from a circle of radius R, the bar, to one of radius r, a peg that is x to the side of it
 * and y below it, D = sqrt(x² + y²) from centre to centre. It leans by θ from the level, is t long between the circles
 * and w to the side of the belt's plane:
 *
 *   θ = atan(y / x) + asin((R − r) / D)     t = sqrt(D² − (R − r)²)     ℓ = sqrt(t² + w²)
 *
 * Crossing over to the other side of the bar, R is −R. Each run adds ℓ + (R − r) θ to the band's length, the arcs'
 * share in it, and pulls the bar down by t sin θ / ℓ of its tension. What does not change with the bar's height: all
 * arcs on pegs come to 2 π r for a strand, and 2 π R are on the bar for two ends that hang from it. The arcs lie in the
 * belt's plane. Plane geometry; the rate of θ is cos θ / t, that of t y / t. */
#ifndef TAUTLINE_MODEL_WRAP_H
#define TAUTLINE_MODEL_WRAP_H

#include <stdbool.h>

struct wrap
{
    double apart_m;  /* the pegs, centre to centre; 0: one peg */
    double aside_m;  /* the bar's path to the middle of the pegs, fore-aft */
    double spread_m; /* sideways */
    double bar_radius_m, peg_radius_m;
    bool folded; /* its middle lies round the pegs and both ends over the bar; else it lies round all of them, closed */
};

struct wrap_runs
{
    double length_m;       /* once round, as the band lies */
    double grows;          /* d length / d rise */
    double down, fore_aft; /* sum of the direction cosines of all runs that reach the bar */
    double down_per_m;     /* d down / d rise */
};

/* The bar is rise_m above the pegs; below them if negative: then the band lies under the bar and over the pegs. */
struct wrap_runs wrap_at(const struct wrap *wrap, double rise_m);

#endif
