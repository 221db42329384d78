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
    const int *pairs;        /* pairs at hand of each; below 0: as many as wanted; NULL: of all */
    size_t count;
    enum mass_unit unit; /* that plates are written in */
    bool assumed;        /* the gym file names no plates */
};

/* The gym's bar and plates; where it names none, those that most gyms have (common practice, no source): 25 20 15 10 5
 * 2.5 1.25 kg, or 45 35 25 10 5 2.5 lb in a gym that counts in pounds, as many as wanted. */
struct rack rack_of_gym(const struct gym *gym);

struct plate_choice
{
    double kg;       /* bar and plates, both sides */
    double error_kg; /* kg less the target */
    int *pairs;      /* taken of each of the rack's plates */
    size_t plates;   /* on one side */
};

/* The nearest load; of two as near the lighter; among equal loads the fewest plates, and of these the heavier ones.
 * False: the target is no number, or so many sums are possible that no search is made (plates of a few grams). */
bool plates_nearest(struct arena *arena, const struct rack *rack, double target_kg, struct plate_choice *choice);

/* Of the loads within half the smallest pair of plates of the target, and not below least_kg, the one of the fewest
 * plates; of as few the nearest, then the lighter. Where there is none, as plates_nearest(). */
bool plates_fewest(struct arena *arena, const struct rack *rack, double target_kg, double least_kg,
                   struct plate_choice *choice);

/* One side, heaviest first: "25 + 10 + 2.5", more than four alike as "5 x 25"; "bar only". A plate that is not round in
 * the rack's unit names the other one: "20 + 5 lb". */
char *plates_print(struct arena *arena, const struct rack *rack, const struct plate_choice *choice);

/* The least change of load that a pair of the rack's smallest plates makes; NAN: no plates. */
double rack_step_kg(const struct rack *rack);

#endif
