/* An invented gym with all kinds of gear, three lifters, and short words for pieces: for tests of the model. */
#ifndef TAUTLINE_TESTS_INVENTED_GYM_H
#define TAUTLINE_TESTS_INVENTED_GYM_H

#include "model/effect.h"

#include <math.h>

#define NO_ENDS .bottom_kg = NAN, .top_kg = NAN
#define NO_NUMBERS .mass_kg = NAN, .leader_m = NAN, NO_ENDS
#define CHAIN_COUNT(n)                                                                                                 \
    {                                                                                                                  \
        .kind = PIECE_CHAIN, .per_side = n, NO_NUMBERS                                                                 \
    }
#define CHAIN_NAMED(n, name)                                                                                           \
    {                                                                                                                  \
        .kind = PIECE_CHAIN, .per_side = n, .label = name, NO_NUMBERS                                                  \
    }
#define CHAIN_LOOPED(n, name)                                                                                          \
    {                                                                                                                  \
        .kind = PIECE_CHAIN, .rig = RIG_DOUBLED, .per_side = n, .label = name, NO_NUMBERS                              \
    }
#define CHAIN_MASS(n, kg)                                                                                              \
    {                                                                                                                  \
        .kind = PIECE_CHAIN, .per_side = n, .mass_kg = kg, .leader_m = NAN, NO_ENDS                                    \
    }
#define CHAIN_LEADER(kg, leader)                                                                                       \
    {                                                                                                                  \
        .kind = PIECE_CHAIN, .mass_kg = kg, .leader_m = leader, NO_ENDS                                                \
    }
#define BAND(n, name)                                                                                                  \
    {                                                                                                                  \
        .kind = PIECE_BAND, .per_side = n, .label = name, NO_NUMBERS                                                   \
    }
#define BAND_RIGGED(how, name)                                                                                         \
    {                                                                                                                  \
        .kind = PIECE_BAND, .rig = how, .per_side = 1, .label = name, NO_NUMBERS                                       \
    }
#define BAND_AT(how, name, where)                                                                                      \
    {                                                                                                                  \
        .kind = PIECE_BAND, .rig = how, .per_side = 1, .label = name, .setup = where, NO_NUMBERS                       \
    }
#define BAND_PAIR(left, right)                                                                                         \
    {                                                                                                                  \
        .kind = PIECE_BAND, .per_side = 1, .label = left, .label_right = right, NO_NUMBERS                             \
    }
#define BAND_PULL(bottom, top, both)                                                                                   \
    {                                                                                                                  \
        .kind = PIECE_BAND, .bottom_kg = bottom, .top_kg = top, .other_end_said = both, .mass_kg = NAN,                \
        .leader_m = NAN                                                                                                \
    }
#define REVERSE_AT(name, where)                                                                                        \
    {                                                                                                                  \
        .kind = PIECE_BAND, .reverse = true, .per_side = 1, .label = name, .setup = where, NO_NUMBERS                  \
    }
#define REVERSE_PULL(bottom, top, both)                                                                                \
    {                                                                                                                  \
        .kind = PIECE_BAND, .reverse = true, .bottom_kg = bottom, .top_kg = top, .other_end_said = both,               \
        .mass_kg = NAN, .leader_m = NAN                                                                                \
    }
#define RELEASERS(n, kg)                                                                                               \
    {                                                                                                                  \
        .kind = PIECE_RELEASER, .per_side = n, .mass_kg = kg, .leader_m = NAN, NO_ENDS                                 \
    }

#define POINTS(...)                                                                                                    \
    (struct tension_point[])                                                                                           \
    {                                                                                                                  \
        __VA_ARGS__                                                                                                    \
    }
#define SEVEN_POINTS(a, b, c, d, e, f, g)                                                                              \
    POINTS({1.10, a}, {1.30, b}, {1.60, c}, {2.00, d}, {2.40, e}, {2.80, f}, {3.00, g}), 7

static inline struct calibration calibrated(struct arena *arena, double flat_m, const struct tension_point *points,
                                            size_t count)
{
    struct calibration calibration = {.measured = NO_DAY, .flat_m = flat_m, .point_count = count};
    calibration.c1_kg = calibration.c2_kg = calibration.range_low_m = calibration.range_high_m = NAN;
    calibration.points = ARENA_ARRAY(arena, struct tension_point, count);
    for (size_t i = 0; i < count; i++)
        calibration.points[i] = points[i];
    return calibration;
}

static inline void add_band(struct arena *arena, struct gym *gym, const char *label, struct calibration calibration)
{
    struct band *band = &gym->bands[gym->band_count++];
    *band = (struct band){.label = label, .hitch_m = NAN, .calibration_count = 1};
    band->calibrations = ARENA_ARRAY(arena, struct calibration, 2);
    band->calibrations[0] = calibration;
}

static inline void add_bands(struct arena *arena, struct gym *gym)
{
    gym->bands = ARENA_ARRAY(arena, struct band, 8);
    add_band(arena, gym, "b11", calibrated(arena, 1.04, SEVEN_POINTS(3.1, 6.8, 10.9, 15.2, 18.6, 22.4, 24.6)));
    add_band(arena, gym, "b26", calibrated(arena, 1.04, SEVEN_POINTS(6.4, 15.1, 24.3, 33.8, 41.7, 50.2, 55.0)));
    add_band(arena, gym, "b48", calibrated(arena, 1.04, SEVEN_POINTS(9.6, 23.0, 37.4, 52.1, 64.5, 77.9, 85.5)));
    gym->bands[2].hitch_m = 0.12;
    add_band(arena, gym, "single", calibrated(arena, 1.04, POINTS({1.20, 12.5}), 1));
    add_band(arena, gym, "stretched", calibrated(arena, 1.04, POINTS({1.10, 6.4}, {1.20, 10.9}), 2));
    add_band(arena, gym, "bare", calibrated(arena, 1.04, POINTS({0, 0}), 0));
    /* Pulls in a straight line, 20 kg a metre; from March on 16. */
    add_band(arena, gym, "line", calibrated(arena, 1.00, POINTS({1.25, 5}, {1.50, 10}, {2.00, 20}), 3));
    struct calibration *aged = &gym->bands[gym->band_count - 1].calibrations[1];
    *aged = calibrated(arena, 1.00, POINTS({1.25, 4}, {1.50, 8}, {2.00, 16}), 3);
    date_make(2026, 3, 1, &aged->measured);
    gym->bands[gym->band_count - 1].calibration_count = 2;
}

static struct gym *invented_gym(struct arena *arena)
{
    static struct chain chains[] = {
        {.label = "long",
         .is_default = true,
         .mass_kg = 8.4,
         .length_m = 1.80,
         .link_m = 0.05,
         .leader_m = 0.40,
         .leader_kg = 0.3},
        {.label = "short", .mass_kg = 5.2, .length_m = 1.20, .link_m = 0.05},
        {.label = "unmeasured", .mass_kg = 3.0, .length_m = NAN, .link_m = 0.05, .leader_kg = 0.2},
    };
    static struct setup setups[] = {
        {.name = "pegs", .height_m = 0.05, .spread_m = 0.12},
        {.name = "rack-top", .height_m = 2.25, .spread_m = 0.10},
        {.name = "bar-high", .height_m = 0.78, .spread_m = 0.10},
        {.name = "floor"},
    };
    static const char *squat_names[] = {"back squat", "comp squat"};
    static struct lift lifts[] = {
        {.name = "squat", .aliases = squat_names, .alias_count = 2, .setup = "pegs"},
        {.name = "bench press", .setup = "pegs"},
        {.name = "deadlift", .setup = "pegs"},
        {.name = "dip", .bodyweight = true},
    };
    static struct bar_heights heights[] = {
        {"squat", 0.78, 1.42},        {"bench press", 0.86, 1.24}, {"deadlift", 0.225, 0.80},
        {"good morning", 0.90, 1.50}, {"jerk", 1.5, 1.5}, /* no range: not usable */
    };
    static struct lifter lifters[] = {
        {.name = "Torlaug Myrvang", .stature_m = 1.74, .bodyweight_kg = NAN, .heights = heights, .height_count = 5},
        {.name = "Jorunn Eide", .stature_m = 1.80, .bodyweight_kg = NAN},
        {.name = "Aslak Vik", .stature_m = NAN, .bodyweight_kg = NAN},
    };
    struct gym *gym = gym_new(arena);
    gym->chains = chains;
    gym->chain_count = sizeof chains / sizeof *chains;
    gym->setups = setups;
    gym->setup_count = sizeof setups / sizeof *setups;
    gym->lifts = lifts;
    gym->lift_count = sizeof lifts / sizeof *lifts;
    gym->lifters = lifters;
    gym->lifter_count = sizeof lifters / sizeof *lifters;
    add_bands(arena, gym);
    return gym;
}

#define MEASURED "Torlaug Myrvang" /* heights of squat, bench press, deadlift, good morning */
#define TALL "Jorunn Eide"         /* stature only */
#define NOBODY "Aslak Vik"         /* nothing */

#endif
