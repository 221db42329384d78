/* What the pairs of a series say, without a visit to each where their order will do. Pure; arenas for scratch. */
#ifndef TAUTLINE_ANALYSIS_PAIRS_H
#define TAUTLINE_ANALYSIS_PAIRS_H

#include "base/arena.h"

#include <stddef.h>

/* Sorts `values`, rising, and returns how many pairs were the wrong way round: i < j with values[i] > values[j]. */
double sort_counting(struct arena *scratch, double *values, size_t count);

struct pairs /* of the points (x, y): x rising; pairs of equal x have no slope and are none */
{
    const double *x, *y;
    const double *alike; /* y as far as it is told apart: where these are equal, the slope is 0. NAN nowhere */
    size_t points;
};

size_t pairs_count(const struct pairs *pairs);

/* The slopes of these ranks among all, from 0: ranks[0 .. count) rise and are below pairs_count(). The very numbers
 * that sorting them all would give. */
void pairs_slopes_at(const struct pairs *pairs, const size_t *ranks, size_t count, double *slopes);

#endif
