/* Ways to make the next wave heavier by a given amount at the top, at the bottom, or at both ends: straight weight,
 * chains, shorter leaders, other bands. Each is a plan of its own, weighed and checked like any other. Pure. */
#ifndef TAUTLINE_ANALYSIS_PLAN_PLAN_WAYS_H
#define TAUTLINE_ANALYSIS_PLAN_PLAN_WAYS_H

#include "analysis/plan/plan.h"

enum plan_end
{
    PLAN_AT_BOTH,
    PLAN_AT_TOP,
    PLAN_AT_BOTTOM
};

struct plan_overload /* the wanted increase over the last wave */
{
    double kg;    /* NAN: given as a share */
    double share; /* of the last wave's load at that end; NAN: given in kg */
    enum plan_end at;
};

struct plan_way
{
    const char *what; /* "straight weight alone", "1 pair more of chain long", "band b34 in place of b26" */
    const struct plan *plan;
    double bottom_kg, top_kg; /* mean over the weeks, compared with the same weeks of the last wave; NAN: unknown */
    double miss_kg;           /* excess (above 0) or shortfall at the end asked for */
    double pairs_off;         /* the same in whole pairs of the smallest plates */
    int gravity;              /* the highest severity that an audit would report; -1: none */
    double other_kg;          /* the change at the other end */
};

struct plan_ways
{
    struct plan_way *items; /* best first: nearest to the wanted increase, to within a pair of the smallest plates; then
                               those that do not make the other end lighter, then those with the least severe findings,
                               then the heaviest at the other end */
    size_t count;
    double over_kg; /* the wanted increase, in kg */
};

/* `wish` gives everything except the chains and bands and how the straight weight is raised. Empty if there is no
 * wave to start from. */
struct plan_ways plan_ways_make(struct arena *arena, const struct plan_past *past, const struct plan_wish *wish,
                                const struct plan_overload *over);

#endif
