/* heights.h */
#ifndef TAUTLINE_MODEL_HEIGHTS_H
#define TAUTLINE_MODEL_HEIGHTS_H

#include "model/effect.h"

/* The heights of a lifter's lift: measured, under any name that the gym file has for the lift; else, for the squat,
 * from stature, with `estimated` set. False: not known. */
bool heights_find(const struct gym *gym, const struct lifter *lifter, const char *lift, double *bottom_m, double *top_m,
                  bool *estimated);

/* Bar heights from stature H, squat only (Drillis & Contini 1966 in Winter 2009): top 0.818 H, bottom 0.506 H. False:
 * another lift, or no stature. */
bool heights_from_stature(const char *lift, double stature_m, double *bottom_m, double *top_m);

#endif
