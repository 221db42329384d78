/* Plates on a bar: the load nearest to a target that a gym can make, by exact search. Pure; loads in kg.
 *
 * A plate's mass is taken in whole grams where it is one, else in whole thousandths of a pound, so that plates of
 * either unit, or of both on one bar, add up exactly; a mass that is neither counts to the nearest gram. */
#ifndef TAUTLINE_ANALYSIS_PLATES_H
#define TAUTLINE_ANALYSIS_PLATES_H

#include "base/arena.h"
#include "base/unit.h"
#include "model/gear.h"

#include <stdbool.h>
#include <stddef.h>

struct rack
{
    double bar_kg;
    const double *plates_kg; /* one side's choice, heaviest first */
    const int *pairs;        /* available pairs of each; below 0: unlimited; NULL: all unlimited */
    size_t count;
    enum mass_unit unit; /* in which plates are written */
    bool assumed;        /* the gym file lists no plates */
};

/* The gym's bar and plates; if it lists none, those that most gyms have (common practice, no source): 25 20 15 10 5
 * 2.5 1.25 kg, or 45 35 25 10 5 2.5 lb in a gym that uses pounds, in any number. */
struct rack rack_of_gym(const struct gym *gym);

struct plate_choice
{
    double kg;       /* bar and plates, both sides */
    double error_kg; /* kg minus the target */
    int *pairs;      /* pairs used of each of the rack's plates */
    size_t plates;   /* on one side */
};

/* The nearest load; the lighter if two are equally near; of equal loads, the one with the fewest plates, and then
 * with the heavier ones. False: the target is not a number, or there are too many sums to search (plates of a few
 * grams). */
bool plates_nearest(struct arena *arena, const struct rack *rack, double target_kg, struct plate_choice *choice);

/* Of the loads within half the smallest pair of plates of the target, and not below least_kg, the one with the fewest
 * plates; if tied, the nearest, then the lighter. If there is none, the same as plates_nearest(). */
bool plates_fewest(struct arena *arena, const struct rack *rack, double target_kg, double least_kg,
                   struct plate_choice *choice);

/* One side, heaviest first: "25 + 10 + 2.5", more than four equal ones as "5 x 25"; "bar only". A plate that is not
 * round in the rack's unit is written in the other unit: "20 + 5 lb". */
char *plates_print(struct arena *arena, const struct rack *rack, const struct plate_choice *choice);

/* The smallest change of load: a pair of the rack's smallest plates; NAN: no plates. */
double rack_step_kg(const struct rack *rack);

#endif
