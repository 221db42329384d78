/* Ways to make the next wave heavier by so much at the top, at the bottom, or at both ends: straight weight, chains,
 * shorter leaders, other bands. Each is a plan of its own, weighed and looked at like any. Pure. */
#ifndef TAUTLINE_ANALYSIS_PLAN_PLAN_WAYS_H
#define TAUTLINE_ANALYSIS_PLAN_PLAN_WAYS_H

#include "analysis/plan/plan.h"

enum plan_end
{
    PLAN_AT_BOTH,
    PLAN_AT_TOP,
    PLAN_AT_BOTTOM
};

struct plan_overload /* what is asked for, against the last wave */
{
    double kg;    /* NAN: by share */
    double share; /* of the last wave's load at that end; NAN: by kg */
    enum plan_end at;
};

struct plan_way
{
    const char *what; /* "straight weight alone", "1 pair more of chain long", "band b34 in place of b26" */
    const struct plan *plan;
    double bottom_kg, top_kg; /* mean over the weeks, against the same weeks of the last wave; NAN: unknown */
    double miss_kg;           /* what it has too much (above 0) or too little at the end asked for */
    double pairs_off;         /* that in whole pairs of the smallest plates */
    int gravity;              /* the gravest of what an audit would say; -1: nothing */
    double other_kg;          /* the difference at the other end */
};

struct plan_ways
{
    struct plan_way
        *items; /* best first: nearest to what is asked for within a pair of the smallest plates; then those that take
                   nothing off the other end, what an audit would say least gravely of, the heaviest there */
    size_t count;
    double over_kg; /* what was asked for, in kg */
};

/* `wish` says all but what hangs and how the straight weight is raised. Empty where there is no wave to go on. */
struct plan_ways plan_ways_make(struct arena *arena, const struct plan_past *past, const struct plan_wish *wish,
                                const struct plan_overload *over);

#endif
