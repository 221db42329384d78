/* Sorts numbered things, stably and in linear time. Pure. */
#ifndef TAUTLINE_ANALYSIS_ORDERING_H
#define TAUTLINE_ANALYSIS_ORDERING_H

#include "base/arena.h"
#include "base/names.h"

#include <stddef.h>
#include <stdint.h>

/* The rank of each name in byte order, from 0, indexed by the name's number. */
uint32_t *name_ranks(struct arena *arena, const struct names *names);

/* Sorts `order` by keys[order[i]], each below `range`; equal keys keep their order. */
void counting_sort(struct arena *scratch, uint32_t *order, size_t count, const uint32_t *keys, size_t range);

#endif
