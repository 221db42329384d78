/* Statistics over all pairs of a series, without visiting each pair where sorting is enough. Pure; arenas are for
 * scratch memory. */
#ifndef TAUTLINE_ANALYSIS_PAIRS_H
#define TAUTLINE_ANALYSIS_PAIRS_H

#include "base/arena.h"

#include <stddef.h>

/* Sorts `values` in rising order, and returns the number of inversions: i < j with values[i] > values[j]. */
double sort_counting(struct arena *scratch, double *values, size_t count);

struct pairs /* of the points (x, y): x rises; points with equal x have no slope and make no pair */
{
    const double *x, *y;
    const double *alike; /* y rounded for comparison: where these are equal, the slope is 0. Never NAN */
    size_t points;
};

size_t pairs_count(const struct pairs *pairs);

/* The slopes with these ranks among all, from 0: ranks[0 .. count) must rise and be below pairs_count(). Returns
 * exactly the numbers that sorting all slopes would give. */
void pairs_slopes_at(const struct pairs *pairs, const size_t *ranks, size_t count, double *slopes);

#endif
