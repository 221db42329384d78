/* A chain held at both ends: at the bar by the one, at a fixed pin by the other. Pure; lengths in metres, heights above
 * the floor. What the bar carries of it is the vertical force at its end, as metres of chain.
 *
 * It hangs in a catenary. With the length l, the pin's distance a from the bar's path, v = the bar's end less the pin,
 * and c = horizontal pull / weight per metre:
 *
 *   sinh u / u = sqrt(l² − v²) / a,  u = a / (2 c)          carried = (l + v coth u) / 2
 *
 * The slacker, the nearer to two verticals, (l + v) / 2. Where its lowest point would be below the floor, a part lies
 * there. On a smooth floor c is the same on both sides, and from an end y above it
 *
 *   s(y) = sqrt(y² + 2 y c)     x(y) = c arcosh(1 + y / c)     sum over both ends of s − x = l − a
 *   carried = s of the bar's end
 *
 * where l − a is at least the sum of both heights, c is 0: both ends hang straight down.
 *
 * The catenary's equations of any textbook of statics (here from memory; the tests hang chains link by link). */
#ifndef TAUTLINE_MODEL_CATENARY_H
#define TAUTLINE_MODEL_CATENARY_H

#include <stdbool.h>

struct pinned_strand
{
    double length_m;
    double end_m;          /* where the bar holds it; 0 or more */
    double pin_m, aside_m; /* the pin's height, and its distance to the side */
};

struct catenary
{
    double carried_m;    /* below 0 where the chain pulls the bar up; NAN: it is too short */
    double carried_rate; /* d carried / d end */
    double level_m;      /* the horizontal pull, as metres of chain: c */
    double floor_m;      /* what lies on the floor */
};

struct catenary catenary_of(const struct pinned_strand *strand);
/* Is it longer than the way from its pin to an end at that height? */
bool catenary_reaches(const struct pinned_strand *strand);

#endif
