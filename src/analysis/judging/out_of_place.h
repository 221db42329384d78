/* Weeks that are off their place in the waves: beside the same step of the waves around, and beside the other weeks of their own wave.
 * The residual of the median polish: Tukey 1977, Exploratory Data Analysis, chapter 10. Pure. */
#ifndef TAUTLINE_ANALYSIS_OUT_OF_PLACE_H
#define TAUTLINE_ANALYSIS_OUT_OF_PLACE_H

#include "base/arena.h"

#include <stdbool.h>

/* A week's working load in the table of waves and steps. */
struct placed_load
{
    unsigned wave, step; /* from 1; 0: in no wave, and looked at by nobody */
    double kg;           /* NAN: unknown */
    bool left_out;       /* a slip already */
};

/* Which loads are off their place: in a table of wave by step, of the three waves on each side, a residual of the median polish of
 * the logarithms beyond 5 % and beyond four robust deviations. A wave has neighbours only if there are three waves in all, a cell
 * is judged only where three weeks have its step and two its wave. expected_kg: NAN, or for a load that is off what its place asks for. */
void find_out_of_place(struct arena *scratch, const struct placed_load *loads, size_t count, double *expected_kg);

#endif
