/* How sure the load of chains and bands is at a height of the bar. Pure; kg and metres.
 *
 * Inputs: the bar's height, whose error u-height all pieces share, and the mass or pull of each piece, whose relative
 * error the pieces of one label share.
 *
 * Where the load is smooth the uncertainty is of first order (JCGM 100:2008, GUM, 5.2.2). At a kink (a chain's first
 * link leaves the floor, a band comes taut) first order says what one side of it does. There, within three standard
 * errors of the height, the load's variance is integrated over the height's normal error d instead (JCGM 101:2008,
 * Supplement 1, 5.2, propagates distributions so):
 *
 *   u^2 = Var_d S(h + d) + E_d v(h + d)^2     S: all that hangs, v: what the errors of mass and pull make of it */
#ifndef TAUTLINE_MODEL_LOAD_UNCERTAINTY_H
#define TAUTLINE_MODEL_LOAD_UNCERTAINTY_H

#include "model/effect.h"

/* Standard uncertainty of what the chains and bands add. All of them must be known, and the heights. */
double ar_u_kg(const struct loading *loading, double height_m, const struct gym *gym);

#endif
