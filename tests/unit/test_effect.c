#include "model/effect.h"

#include "invented_gym.h"
#include "model/curve.h"
#include "model/loading.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>

static struct arena *arena;
static struct gym *gym;

static void set_up(void)
{
    arena = arena_new();
    gym = invented_gym(arena);
}

static void tear_down(void)
{
    arena_free(arena);
}

static struct loading *hang_for(const char *lifter, const char *lift, double straight_kg, const struct piece *pieces,
                                size_t count)
{
    struct load *load = ARENA_NEW(arena, struct load);
    *load = (struct load){.straight = STRAIGHT_MASS, .kg = straight_kg, .pieces = pieces, .piece_count = count};
    struct loading_context context = {gym, gym_lifter(gym, lifter), lift, NO_DAY, NAN, NAN};
    return loading_make(arena, load, &context);
}

static struct effect weigh_for(const char *lifter, const char *lift, double straight_kg, const struct piece *pieces,
                               size_t count)
{
    return loading_effect(hang_for(lifter, lift, straight_kg, pieces, count), gym);
}

static void assert_assumed(unsigned assumed, unsigned expected)
{
    char is[160], should_be[160];
    ck_assert_str_eq(assumptions_print(is, assumed), assumptions_print(should_be, expected));
}

static bool same(double is, double expected)
{
    return isnan(expected) ? isnan(is) : fabs(is - expected) < 1e-6;
}

/* --- readings of the notation: what each piece comes to --- */

static const struct
{
    const char *written, *lift;
    double straight_kg;
    size_t count;
    struct piece pieces[2];
    double bottom_kg, top_kg;
    unsigned assumed;
} readings[] = {
    {"100 kg", "squat", 100, 0, {{0}}, 100, 100, 0},
    {"100 + 30 kg chain", "squat", 100, 1, {CHAIN_MASS(0, 30)}, 100, 130, ASSUMED_CHAIN_MASS},
    {"100 + 2 x 7 kg chain", "squat", 100, 1, {CHAIN_MASS(1, 7)}, 100, 114, ASSUMED_CHAIN_MASS},
    {"100 kg + 2x7kg chain/side", "squat", 100, 1, {CHAIN_MASS(2, 7)}, 100, 128, ASSUMED_CHAIN_MASS},
    {"100 + 30 lb chain", "squat", 100, 1, {CHAIN_MASS(0, 30 * KG_PER_LB)}, 100, 113.607771, ASSUMED_CHAIN_MASS},
    {"60 + 2½ kg chain per side", "bench press", 60, 1, {CHAIN_MASS(0, 5)}, 60, 65, ASSUMED_CHAIN_MASS},
    {"100 + chain 7 kg/side on 40 cm leader", "squat", 100, 1, {CHAIN_LEADER(14, 0.40)}, 100, 114, ASSUMED_CHAIN_MASS},
    {"100 + 2 chains/side", "squat", 100, 1, {CHAIN_COUNT(2)}, 108.293333, 120.24, 0},
    {"100 + 2 chains", "squat", 100, 1, {CHAIN_COUNT(1)}, 104.146667, 110.12, 0},
    {"60 + one pair chains", "bench press", 60, 1, {CHAIN_COUNT(1)}, 64.893333, 68.44, 0},
    {"100 + chain long x2/side", "squat", 100, 1, {CHAIN_NAMED(2, "long")}, 108.293333, 120.24, 0},
    {"140 + 2 long chains/side",
     "deadlift",
     140,
     1,
     {CHAIN_NAMED(2, "long")},
     140.675,
     148.666667,
     0}, /* 0.225 of 0.40 m of leader */
    {"100 + 2 short chains/side", "squat", 100, 1, {CHAIN_NAMED(2, "short")}, 113.52, 120.8, 0},
    {"100 + 2 long chains/side looped", "squat", 100, 1, {CHAIN_LOOPED(2, "long")}, 115.386667, 134.8, 0},
    {"90 + 2 chains/side", "squat", 90, 1, {CHAIN_COUNT(2)}, 98.293333, 110.24, 0},
    {"100 + band b26", "squat", 100, 1, {BAND(1, "b26")}, 100, 135.41368, 0},
    {"60 + band b11", "bench press", 60, 1, {BAND(1, "b11")}, 60, 70.751624, 0},
    {"100 + 2 bands b26/side", "squat", 100, 1, {BAND(2, "b26")}, 100, 170.82736, 0},
    {"100 + 2 pairs b11 bands", "squat", 100, 1, {BAND(2, "b11")}, 100, 131.752446, 0},
    {"100 + band b26 + band b11", "squat", 100, 2, {BAND(1, "b26"), BAND(1, "b11")}, 100, 151.289903, 0},
    {"100 + band b26/b48", "squat", 100, 1, {BAND_PAIR("b26", "b48")}, 100, 144.764653, 0},
    {"100 + band b26 doubled", "squat", 100, 1, {BAND_RIGGED(RIG_DOUBLED, "b26")}, 182.722728, 295.54815, 0},
    {"60 + doubled b11 bands", "bench press", 60, 1, {BAND_RIGGED(RIG_DOUBLED, "b11")}, 104.950269, 133.741861, 0},
    {"60 + band b26 doubled", "bench press", 60, 1, {BAND_RIGGED(RIG_DOUBLED, "b26")}, NAN, 225.313534, 0},
    {"140 + band b26 doubled @ pegs", "deadlift", 140, 1, {BAND_AT(RIG_DOUBLED, "b26", "pegs")}, 140, 227.167585, 0},
    {"100 + straight b11 band", "squat", 100, 1, {BAND(1, "b11")}, 100, 115.876223, 0},
    {"100 + band b26 choked", "squat", 100, 1, {BAND_RIGGED(RIG_CHOKED, "b26")}, NAN, NAN, ASSUMED_HITCH},
    {"100 + band 40 kg", "squat", 100, 1, {BAND_PULL(0, 40, false)}, 100, 140, ASSUMED_BOTTOM_TENSION},
    {"100 + bands 12-40 kg", "squat", 100, 1, {BAND_PULL(12, 40, true)}, 112, 140, 0},
    {"140 + reverse band b48 @ rack-top", "squat", 140, 1, {REVERSE_AT("b48", "rack-top")}, 76.388945, 140, 0},
    {"140 + rev bands b11 @ rack-top", "squat", 140, 1, {REVERSE_AT("b11", "rack-top")}, 121.418571, 140, 0},
    {"90 + b26 reverse @ rack-top", "bench press", 90, 1, {REVERSE_AT("b26", "rack-top")}, 53.352983, 90, 0},
    {"140 + reverse band 35 kg", "squat", 140, 1, {REVERSE_PULL(35, 0, false)}, 105, 140, ASSUMED_BOTTOM_TENSION},
    {"140 + reverse bands 35 bottom 5 top", "squat", 140, 1, {REVERSE_PULL(35, 5, true)}, 105, 135, 0},
    {"100 + releasers 20 kg", "squat", 100, 1, {RELEASERS(0, 20)}, 100, 100, 0},
    {"90 + 2 chains/side + band b11", "squat", 90, 2, {CHAIN_COUNT(2), BAND(1, "b11")}, 98.293333, 126.116223, 0},
    {"80 kg + band b11 doubled + 15 kg chain/side",
     "squat",
     80,
     2,
     {BAND_RIGGED(RIG_DOUBLED, "b11"), CHAIN_MASS(0, 30)},
     117.071638,
     197.221913,
     ASSUMED_CHAIN_MASS},
    {"85 + band b11 + 1 chain/side", "squat", 85, 2, {BAND(1, "b11"), CHAIN_COUNT(1)}, NAN, 110.996223, 0},
};

START_TEST(readings_weigh_what_the_notation_says)
{
    double bottom = readings[_i].bottom_kg, top = readings[_i].top_kg; /* NAN: the notation leaves it open */
    struct effect effect = weigh_for(MEASURED, readings[_i].lift, readings[_i].straight_kg, readings[_i].pieces,
                                     readings[_i].count);
    const char *written = readings[_i].written;
    ck_assert_msg(isnan(bottom) || same(effect.bottom_kg, bottom), "%s: bottom %.9g", written, effect.bottom_kg);
    ck_assert_msg(isnan(top) || same(effect.top_kg, top), "%s: top %.9g", written, effect.top_kg);
    ck_assert_double_eq(effect.straight_kg, readings[_i].straight_kg);
    ck_assert(effect.mean_kg >= effect.bottom_kg && effect.mean_kg <= effect.top_kg);
    ck_assert(effect.counted_bottom_kg == effect.bottom_kg && effect.counted_top_kg == effect.top_kg);
    ck_assert(effect.counted_mean_kg == effect.mean_kg);
    assert_assumed(effect.assumed, readings[_i].assumed);
}
END_TEST

/* --- what is not known --- */

static const struct
{
    const char *what;
    const char *lifter;
    const char *lift;
    size_t count;
    struct piece pieces[2];
    double bottom_kg, top_kg, mean_kg; /* at 100 kg straight; NAN: empty */
    bool u_known;
    unsigned assumed;
} unknowns[] = {
    {"a count of chains the gym does not have",
     MEASURED,
     "squat",
     1,
     {CHAIN_NAMED(2, "huge")},
     100,
     NAN,
     NAN,
     false,
     ASSUMED_UNKNOWN_GEAR},
    {"chains, no count", MEASURED, "squat", 1, {CHAIN_COUNT(0)}, 100, NAN, NAN, false, ASSUMED_UNKNOWN_GEAR},
    {"a band the gym does not have",
     MEASURED,
     "squat",
     1,
     {BAND(1, "b99")},
     100,
     NAN,
     NAN,
     false,
     ASSUMED_UNKNOWN_GEAR},
    {"bands with no name", MEASURED, "squat", 1, {BAND(0, NULL)}, 100, NAN, NAN, false, ASSUMED_UNKNOWN_GEAR},
    {"a band without a calibration",
     MEASURED,
     "squat",
     1,
     {BAND(1, "bare")},
     100,
     NAN,
     NAN,
     false,
     ASSUMED_UNKNOWN_GEAR},
    {"unknown beside known",
     MEASURED,
     "squat",
     2,
     {CHAIN_COUNT(2), BAND(1, "b99")},
     108.293333,
     NAN,
     NAN,
     false,
     ASSUMED_UNKNOWN_GEAR},
    {"one of a pair unknown",
     MEASURED,
     "squat",
     1,
     {BAND_PAIR("b26", "b99")},
     100,
     NAN,
     NAN,
     false,
     ASSUMED_UNKNOWN_GEAR},
    {"reverse, unknown",
     MEASURED,
     "squat",
     1,
     {REVERSE_AT("b99", "rack-top")},
     NAN,
     100,
     NAN,
     false,
     ASSUMED_UNKNOWN_GEAR},
    {"unknown from above and from below",
     MEASURED,
     "squat",
     2,
     {REVERSE_AT("b99", "rack-top"), BAND(1, "b99")},
     NAN,
     NAN,
     NAN,
     false,
     ASSUMED_UNKNOWN_GEAR},
    {"reverse, no heights",
     NOBODY,
     "squat",
     1,
     {REVERSE_AT("b48", "rack-top")},
     NAN,
     100,
     NAN,
     false,
     ASSUMED_NO_HEIGHTS},
    {"reverse, set-up of the lift too low",
     MEASURED,
     "squat",
     1,
     {REVERSE_AT("b48", NULL)},
     NAN,
     100,
     NAN,
     false,
     ASSUMED_NO_SETUP | ASSUMED_NO_HEIGHTS},
    {"reverse, set-up named and too low",
     MEASURED,
     "squat",
     1,
     {REVERSE_AT("b48", "floor")},
     NAN,
     100,
     NAN,
     false,
     ASSUMED_NO_SETUP | ASSUMED_NO_HEIGHTS},
    {"reverse, no set-up at all",
     MEASURED,
     "good morning",
     1,
     {REVERSE_AT("b48", NULL)},
     NAN,
     100,
     NAN,
     false,
     ASSUMED_NO_SETUP | ASSUMED_NO_HEIGHTS},
    {"reverse by its pull needs no heights", NOBODY, "row", 1, {REVERSE_PULL(30, 10, true)}, 70, 90, 80, false, 0},
    {"band, no heights", NOBODY, "squat", 1, {BAND(1, "b26")}, 100, NAN, NAN, false, ASSUMED_NO_HEIGHTS},
    {"heights that are none", MEASURED, "jerk", 1, {BAND(1, "b26")}, 100, NAN, NAN, false, ASSUMED_NO_HEIGHTS},
    {"nobody of the gym file", NULL, "squat", 1, {BAND(1, "b26")}, 100, NAN, NAN, false, ASSUMED_NO_HEIGHTS},
    {"bands by their pull, no heights", NOBODY, "row", 1, {BAND_PULL(12, 40, true)}, 112, 140, 126, false, 0},
    {"chains, no heights: leaders, then all",
     NOBODY,
     "squat",
     1,
     {CHAIN_COUNT(2)},
     101.2,
     134.8,
     118,
     false,
     ASSUMED_NO_HEIGHTS},
    {"chain by mass, no heights", NOBODY, "squat", 1, {CHAIN_MASS(0, 30)}, 100, 130, 115, false, ASSUMED_NO_HEIGHTS},
    {"chain within 2 % of the gym's, no heights",
     NOBODY,
     "squat",
     1,
     {CHAIN_MASS(2, 8.5)},
     101.2,
     134.8,
     118,
     false,
     ASSUMED_NO_HEIGHTS},
    {"gym chain of unknown length",
     MEASURED,
     "squat",
     1,
     {CHAIN_NAMED(1, "unmeasured")},
     100.4,
     106.4,
     103.4,
     true,
     ASSUMED_CHAIN_MASS},
    {"the same, no heights",
     NOBODY,
     "squat",
     1,
     {CHAIN_NAMED(1, "unmeasured")},
     100.4,
     106.4,
     103.4,
     false,
     ASSUMED_NO_HEIGHTS},
    {"releasers only, no heights", NOBODY, "squat", 1, {RELEASERS(1, 10)}, 100, 100, 100, true, 0},
    {"releasers of unknown mass", MEASURED, "squat", 1, {RELEASERS(1, NAN)}, 100, 100, 100, true, ASSUMED_UNKNOWN_GEAR},
};

START_TEST(what_is_not_known_is_empty)
{
    const char *what = unknowns[_i].what;
    struct effect effect = weigh_for(unknowns[_i].lifter, unknowns[_i].lift, 100, unknowns[_i].pieces,
                                     unknowns[_i].count);
    ck_assert_msg(same(effect.bottom_kg, unknowns[_i].bottom_kg), "%s: bottom %.9g", what, effect.bottom_kg);
    ck_assert_msg(same(effect.top_kg, unknowns[_i].top_kg), "%s: top %.9g", what, effect.top_kg);
    ck_assert_msg(same(effect.mean_kg, unknowns[_i].mean_kg), "%s: mean %.9g", what, effect.mean_kg);
    ck_assert_double_eq(effect.counted_bottom_kg, isnan(effect.bottom_kg) ? 100 : effect.bottom_kg);
    ck_assert_double_eq(effect.counted_top_kg, isnan(effect.top_kg) ? 100 : effect.top_kg);
    ck_assert_double_eq(effect.counted_mean_kg, isnan(effect.mean_kg) ? 100 : effect.mean_kg);
    ck_assert_msg(isnan(effect.bottom_u_kg) == !unknowns[_i].u_known, "%s: u %g", what, effect.bottom_u_kg);
    ck_assert(isnan(effect.top_u_kg) == !unknowns[_i].u_known);
    assert_assumed(effect.assumed, unknowns[_i].assumed);
}
END_TEST

START_TEST(releasers_count_while_lowered_only)
{
    const struct piece pieces[] = {RELEASERS(1, 10), CHAIN_COUNT(2)};
    struct effect effect = weigh_for(MEASURED, "squat", 100, pieces, 2);
    ck_assert_double_eq_tol(effect.top_kg, 120.24, 1e-9);
    ck_assert_double_eq_tol(effect.lowering_top_kg, 140.24, 1e-9);
    const struct piece whole = RELEASERS(0, 15), nameless = RELEASERS(1, NAN);
    const struct piece unknown[] = {RELEASERS(1, 10), BAND(1, "b99")};
    ck_assert_double_eq(weigh_for(MEASURED, "squat", 100, &whole, 1).lowering_top_kg, 115);
    ck_assert(isnan(weigh_for(MEASURED, "squat", 100, &nameless, 1).lowering_top_kg));
    ck_assert(isnan(weigh_for(MEASURED, "squat", 100, unknown, 2).lowering_top_kg));
}
END_TEST

/* --- bands stretched and let go --- */

static const struct loading *hang_between(double bottom_m, double top_m, const struct piece *pieces, size_t count)
{
    static struct bar_heights heights;
    static struct lifter lifter;
    heights = (struct bar_heights){"lift", bottom_m, top_m};
    lifter = (struct lifter){
        .name = "x", .stature_m = NAN, .bodyweight_kg = NAN, .heights = &heights, .height_count = 1};
    struct load *load = ARENA_NEW(arena, struct load);
    *load = (struct load){.straight = STRAIGHT_MASS, .kg = 100, .pieces = pieces, .piece_count = count};
    struct loading_context context = {gym, &lifter, "lift", NO_DAY, NAN, NAN};
    return loading_make(arena, load, &context);
}

/* Stretched, the band pulls 20 (x − 1) kg; let go, 16 (x − 1). A pair on the floor under a bar from 1.25 to 1.75 m: 10
 * and 30 kg up, 8 and 24 kg down, 20 and 16 on average, so that 9.80665 × 0.5 × 4 J are lost. */
START_TEST(bands_give_back_less_than_they_take)
{
    static struct tension_point let_go[] = {{1.5, 8}, {2, 16}};
    struct calibration *line = &gym->bands[gym->band_count - 1].calibrations[0];
    const struct piece pair[] = {BAND(1, "line"), RELEASERS(1, 10)}, mixed[] = {BAND(1, "line"), BAND(1, "b11")},
                       guessed[] = {BAND(1, "line"), BAND_PULL(0, 40, false)},
                       chained[] = {BAND(1, "line"), CHAIN_COUNT(1)};
    const struct loading *one_way = hang_between(1.25, 1.75, pair, 1);
    ck_assert(isnan(loading_effect(one_way, gym).lowering_bottom_kg) && isnan(loading_lost_j(one_way)));
    line->lowering = let_go;
    line->lowering_count = 2;
    const struct loading *both_ways = hang_between(1.25, 1.75, pair, 1);
    struct effect effect = loading_effect(both_ways, gym);
    ck_assert_double_eq_tol(effect.bottom_kg, 110, 1e-9);
    ck_assert_double_eq_tol(effect.top_kg, 130, 1e-9);
    ck_assert_double_eq_tol(effect.lowering_bottom_kg, 108, 1e-9);
    ck_assert_double_eq_tol(effect.lowering_top_kg, 124, 1e-9);
    ck_assert_double_eq_tol(effect.lowering_mean_kg, 116, 1e-9);
    ck_assert_double_eq_tol(loading_lost_j(both_ways), 19.6133, 1e-9);
    /* releasers of 20 kg are on the bar until they drop off at the bottom, and nothing of theirs is lost */
    const struct loading *released = hang_between(1.25, 1.75, pair, 2);
    effect = loading_effect(released, gym);
    ck_assert_double_eq_tol(effect.lowering_bottom_kg, 108, 1e-9);
    ck_assert_double_eq_tol(effect.lowering_top_kg, 144, 1e-9);
    ck_assert_double_eq_tol(effect.lowering_mean_kg, 136, 1e-9);
    ck_assert_double_eq_tol(loading_lost_j(released), 19.6133, 1e-9);
    /* a chain weighs the same both ways; a band of one curve, or none, does not tell */
    const struct loading *with_chain = hang_between(1.25, 1.75, chained, 2);
    effect = loading_effect(with_chain, gym);
    ck_assert_double_eq_tol(effect.lowering_bottom_kg, effect.bottom_kg - 2, 1e-9);
    ck_assert(isnan(loading_effect(hang_between(1.25, 1.75, mixed, 2), gym).lowering_mean_kg));
    ck_assert(isnan(loading_effect(hang_between(1.25, 1.75, guessed, 2), gym).lowering_mean_kg));
    /* the way down was measured up to 2 m: 5 % of its metre beyond is the most */
    ck_assert(!isnan(loading_effect(hang_between(1.25, 2.04, pair, 1), gym).lowering_mean_kg));
    ck_assert(isnan(loading_effect(hang_between(1.25, 2.06, pair, 1), gym).lowering_mean_kg));
}
END_TEST

/* From a rack 2.25 m high, 0.1 m aside, hangs the same pair over a bar lifted from 0.5 to 1.0 m: stretched on its way
 * down, let go on its way up. At a rise of 1.75 m it is sqrt(1.75² + 0.1²) = 1.7528548 m long and pulls 16 × 0.7528548
 * × 1.75 / 1.7528548 = 12.0260590 kg let go, a quarter more stretched. */
START_TEST(a_band_from_above_is_let_go_while_lifted)
{
    static struct tension_point let_go[] = {{1.5, 8}, {2, 16}};
    struct calibration *line = &gym->bands[gym->band_count - 1].calibrations[0];
    const struct piece reverse[] = {REVERSE_AT("line", "rack-top")};
    line->lowering = let_go;
    line->lowering_count = 2;
    const struct loading *loading = hang_between(0.5, 1.0, reverse, 1);
    struct effect effect = loading_effect(loading, gym);
    ck_assert_double_eq_tol(effect.bottom_kg, 100 - 2 * 12.0260590, 1e-6);
    ck_assert_double_eq_tol(effect.lowering_bottom_kg, 100 - 2 * 12.0260590 * 1.25, 1e-6);
    ck_assert_double_eq_tol(100 - effect.lowering_mean_kg, 1.25 * (100 - effect.mean_kg), 1e-9);
    ck_assert_double_eq_tol(loading_lost_j(loading), 9.80665 * 0.5 * (effect.mean_kg - effect.lowering_mean_kg), 1e-9);
    /* measured too short on the way down: then the stretched curve is all there is */
    line->lowering_count = 1;
    effect = loading_effect(hang_between(0.5, 1.0, reverse, 1), gym);
    ck_assert_double_eq_tol(effect.bottom_kg, 100 - 2 * 12.0260590 * 1.25, 1e-6);
    ck_assert(isnan(effect.lowering_mean_kg));
}
END_TEST

/* --- means --- */

/* The midpoint rule with so many steps that its error is far below what is asked for. */
static double mean_by_steps(const struct loading *loading)
{
    enum
    {
        STEPS = 400000
    };
    double sum = 0, step = (loading->top_m - loading->bottom_m) / STEPS;
    for (int i = 0; i < STEPS; i++)
        sum += loading_at(loading, loading->bottom_m + (i + 0.5) * step);
    return sum / STEPS;
}

static const struct
{
    const char *lift;
    double straight_kg;
    size_t count;
    struct piece pieces[2];
} mean_rows[] = {
    {"squat", 100, 1, {CHAIN_COUNT(2)}},
    {"deadlift", 140, 1, {CHAIN_LOOPED(2, "long")}},
    {"squat", 100, 1, {BAND(1, "b26")}},
    {"squat", 100, 2, {BAND_PAIR("b26", "b11"), CHAIN_NAMED(2, "short")}},
    {"deadlift", 100, 1, {BAND_RIGGED(RIG_DOUBLED, "b48")}},
    {"squat", 100, 1, {BAND_RIGGED(RIG_CHOKED, "b48")}},
    {"squat", 100, 1, {BAND(1, "single")}},
    {"squat", 140, 1, {REVERSE_AT("b48", "rack-top")}},
    {"squat", 40, 1, {REVERSE_AT("b48", "rack-top")}},                 /* unloaded below */
    {"squat", 30, 2, {REVERSE_AT("b48", "rack-top"), CHAIN_COUNT(2)}}, /* the same, and a chain picked up */
    {"squat", 10, 2, {REVERSE_PULL(35, 5, true), CHAIN_MASS(0, 20)}},
    {"squat", 3, 1, {REVERSE_PULL(35, 5, true)}}, /* never comes to anything */
};

START_TEST(means_against_small_steps)
{
    struct loading *loading = hang_for(MEASURED, mean_rows[_i].lift, mean_rows[_i].straight_kg, mean_rows[_i].pieces,
                                       mean_rows[_i].count);
    double expected = mean_by_steps(loading), slack = 1e-9 * fmax(expected, 1);
    double work = 9.80665 * expected * (loading->top_m - loading->bottom_m);
    ck_assert_double_eq_tol(loading_mean_kg(loading), expected, slack);
    ck_assert_double_eq_tol(loading_work_j(loading), work, 10 * slack);
}
END_TEST

START_TEST(means_in_closed_form)
{
    /* A chain picked up all the way: the mean of the ends. */
    const struct piece chain = CHAIN_COUNT(1);
    struct effect effect = weigh_for(MEASURED, "squat", 100, &chain, 1);
    ck_assert_double_eq_tol(effect.mean_kg, (effect.bottom_kg + effect.top_kg) / 2, 1e-12 * effect.mean_kg);
    /* A band that pulls in a straight line from 1.00 m on, over the floor: k (t − 1)² / 2 over the range. */
    const struct piece line = BAND_AT(RIG_SINGLE, "line", "floor");
    effect = weigh_for(MEASURED, "squat", 100, &line, 1);
    ck_assert_double_eq_tol(effect.mean_kg, 100 + 2 * 20 * 0.42 * 0.42 / 2 / 0.64, 1e-11 * effect.mean_kg);
    /* From −15 to 15 kg in a line: half the way nothing. */
    const struct piece reverse = REVERSE_PULL(35, 5, true);
    effect = weigh_for(MEASURED, "squat", 20, &reverse, 1);
    ck_assert_double_eq_tol(effect.mean_kg, 3.75, 1e-12);
    ck_assert_double_eq(effect.bottom_kg, 0);
    ck_assert_double_eq(effect.bottom_u_kg, 0);
    assert_assumed(effect.assumed, ASSUMED_UNLOADED);
    /* Without heights all the same. */
    ck_assert_double_eq_tol(weigh_for(NOBODY, "row", 20, &reverse, 1).mean_kg, 3.75, 1e-12);
    ck_assert(isnan(loading_work_j(hang_for(NOBODY, "row", 20, &reverse, 1))));
}
END_TEST

/* --- uncertainty --- */

START_TEST(errors_of_one_label_add_and_of_two_do_not)
{
    gym->u_height_m = 0;
    const struct piece two = CHAIN_COUNT(2), once_and_once[] = {CHAIN_COUNT(1), CHAIN_NAMED(1, "long")};
    const struct piece apart[] = {CHAIN_COUNT(1), CHAIN_NAMED(1, "short")};
    const struct piece pair = BAND_PAIR("b26", "b26"), mixed = BAND_PAIR("b26", "b48");
    ck_assert_double_eq_tol(weigh_for(MEASURED, "squat", 100, &two, 1).top_u_kg, 0.01 * 20.24, 1e-12);
    ck_assert_double_eq_tol(weigh_for(MEASURED, "squat", 100, once_and_once, 2).top_u_kg, 0.01 * 20.24, 1e-12);
    ck_assert_double_eq_tol(weigh_for(MEASURED, "squat", 100, apart, 2).top_u_kg, 0.01 * hypot(10.12, 10.4), 1e-12);
    ck_assert_double_eq_tol(weigh_for(MEASURED, "squat", 100, &pair, 1).top_u_kg, 0.03 * 35.41368, 1e-7);
    double left = 35.41368 / 2, right = 44.764653 - left;
    ck_assert_double_eq_tol(weigh_for(MEASURED, "squat", 100, &mixed, 1).top_u_kg, 0.03 * hypot(left, right), 1e-7);
}
END_TEST

START_TEST(one_height_error_enters_by_every_piece)
{
    const struct piece pieces[] = {CHAIN_COUNT(2), BAND(1, "b26")};
    struct loading *loading = hang_for(MEASURED, "squat", 100, pieces, 2);
    double slope = 4 * 8.4 / 1.8 + 2 * band_load_slope_kg_per_m(&loading->hung[1].band, 1.42);
    gym->u_mass = gym->u_tension = 0;
    ck_assert_double_eq_tol(loading_u_kg(loading, 1.42, gym), slope * 0.01, 1e-12);
    /* At the bottom the band is slack, and only the chain feels the height. */
    ck_assert_double_eq_tol(loading_u_kg(loading, 0.78, gym), 4 * 8.4 / 1.8 * 0.01, 1e-12);
}
END_TEST

/* At the very height at which its first link leaves the floor a chain feels half of the errors of height d: max(d, 0)
 * has the variance u^2 (1/2 - 1/(2 pi)), and its square the mean u^2 / 2. First order would say 1 above it and 0 below.
 */
START_TEST(a_kink_is_integrated)
{
    struct chain bare = {
        .label = "bare", .is_default = true, .mass_kg = 8, .length_m = 2, .leader_m = 0.78, .link_m = 0.04};
    gym->chains = &bare;
    gym->chain_count = 1;
    const struct piece piece = CHAIN_COUNT(1);
    double picked_up = 2 * 4 * gym->u_height_m; /* kg for one standard error */
    double variance = picked_up * picked_up * (0.5 - 1 / (2 * M_PI) + 0.01 * 0.01 / 2);
    ck_assert_double_eq_tol(weigh_for(MEASURED, "squat", 100, &piece, 1).bottom_u_kg, sqrt(variance), 1e-9);
    bare.leader_m = 0.78 - 3.1 * gym->u_height_m; /* far enough away: first order */
    double up = 2 * 4 * 3.1 * gym->u_height_m * 0.01;
    ck_assert_double_eq_tol(weigh_for(MEASURED, "squat", 100, &piece, 1).bottom_u_kg, hypot(picked_up, up), 1e-12);
}
END_TEST

/* --- against drawn errors --- */

static uint64_t drawn = 0x9E3779B97F4A7C15;

static double draw(void) /* from 0 to 1: xorshift64*, Vigna 2016, ACM Trans Math Softw 42(4):30 */
{
    drawn ^= drawn >> 12, drawn ^= drawn << 25, drawn ^= drawn >> 27;
    return (double)((drawn * UINT64_C(0x2545F4914F6CDD1D)) >> 11) * 0x1p-53;
}

static double draw_normal(void) /* Box and Muller 1958, Ann Math Stat 29(2):610-611 */
{
    return sqrt(-2 * log(1 - draw())) * cos(2 * M_PI * draw());
}

/* SLOW=yes draws as many as the goal names. */
static int setups(void)
{
    return getenv("SLOW") ? 1000 : 250;
}

/* Of what hangs on both sides, from drawn errors of height, mass and pull. */
static double drawn_u_kg(const struct loading *loading, double height_m)
{
    const struct hung *chain = &loading->hung[0], *band = &loading->hung[1];
    double sum = 0, squares = 0;
    int draws = getenv("SLOW") ? 100000 : 20000;
    for (int k = 0; k < draws; k++) {
        double at_m = height_m + gym->u_height_m * draw_normal();
        double kg = hung_load_kg(loading, chain, at_m) * (1 + gym->u_mass * draw_normal()) +
                    hung_load_kg(loading, band, at_m) * (1 + gym->u_tension * draw_normal());
        sum += kg;
        squares += kg * kg;
    }
    return sqrt((squares - sum * sum / draws) / (draws - 1));
}

/* JCGM 101:2008 by brute force: heights, masses and pulls are drawn, and the loads' standard deviation taken. Kinks are
 * near the bottom in most of these set-ups. */
START_TEST(uncertainty_is_what_drawn_errors_make)
{
    const struct piece pieces[] = {CHAIN_COUNT(1), BAND(1, "b26")};
    int near = 0;
    for (int i = 0; i < setups(); i++) {
        size_t count;
        struct loading *loading = hang_for(MEASURED, "squat", 100, pieces, 2);
        struct hung *chain = &loading->hung[0], *band = &loading->hung[1];
        double flat_m = band_flat_m(band->band.curve), height_m = loading->bottom_m;
        chain->chain.leader_m = height_m + 0.08 * (draw() - 0.5);
        band->band.anchor_height_m = height_m - flat_m + 0.08 * (draw() - 0.5);
        curve_kinks(arena, loading, height_m - 3 * gym->u_height_m, height_m + 3 * gym->u_height_m, &count);
        near += count > 0;
        double by_draws = drawn_u_kg(loading, height_m), ours = loading_u_kg(loading, height_m, gym);
        ck_assert_msg(fabs(ours - by_draws) <= fmax(0.05 * by_draws, 0.02), "leader %g, anchor %g: %g, by draws %g",
                      chain->chain.leader_m, band->band.anchor_height_m, ours, by_draws);
    }
    ck_assert_int_gt(near, setups() / 2);
}
END_TEST

/* The same for a band round two pegs, which comes taut near the bottom in most of these set-ups, and a chain that a pin
 * holds, whose end leaves the floor there. */
START_TEST(uncertainty_round_pegs_and_by_a_pin)
{
    const struct piece pieces[] = {CHAIN_COUNT(1), BAND(1, "b26")};
    int near = 0;
    for (int i = 0; i < setups() / 5; i++) {
        size_t count;
        struct loading *loading = hang_for(MEASURED, "squat", 100, pieces, 2);
        struct hung *chain = &loading->hung[0], *band = &loading->hung[1];
        double height_m = loading->bottom_m;
        chain->chain.pinned = true;
        chain->chain.pin_m = 1.0 * draw();
        chain->chain.pin_aside_m = 0.2 + 0.5 * draw();
        chain->chain.leader_m = i % 2 ? 0 : height_m + 0.08 * (draw() - 0.5);
        band->band.pegs = (struct band_pegs){0.3 + 0.3 * draw(), 0.025, 0.03, false};
        band->band.anchor_height_m = 0;
        band->band.anchor_height_m = height_m - band_rise_m(&band->band, band_flat_m(band->band.curve)) +
                                     0.08 * (draw() - 0.5);
        curve_kinks(arena, loading, height_m - 3 * gym->u_height_m, height_m + 3 * gym->u_height_m, &count);
        near += count > 0;
        double by_draws = drawn_u_kg(loading, height_m), ours = loading_u_kg(loading, height_m, gym);
        ck_assert_msg(fabs(ours - by_draws) <= fmax(0.05 * by_draws, 0.02), "%d, anchor %g: %g, by draws %g", i,
                      band->band.anchor_height_m, ours, by_draws);
    }
    ck_assert_int_gt(near, setups() / 10);
}
END_TEST

/* Without a load where it does not reach, and the bar's own where it does. */
START_TEST(what_cannot_hang_has_no_load)
{
    struct chain pinned = gym->chains[0];
    struct setup pegs = {.name = "two", .height_m = 0.05, .pegs_apart_m = 0.5};
    pinned.pinned = true, pinned.pin_aside_m = 0.6, pinned.leader_m = pinned.leader_kg = 0;
    gym->chains = &pinned, gym->chain_count = 1;
    gym->setups = &pegs, gym->setup_count = 1;
    const struct piece chain = CHAIN_COUNT(1), choked = BAND_AT(RIG_CHOKED, "b26", "two"),
                       round = BAND_AT(RIG_SINGLE, "b26", "two");
    ck_assert(weigh_for(MEASURED, "squat", 100, &chain, 1).top_kg >
              100);           /* 1.80 m, and sqrt(0.6^2 + 1.42^2) = 1.54 m */
    pinned.pin_aside_m = 1.2; /* 1.86 m */
    struct loading *loading = hang_for(MEASURED, "squat", 100, &chain, 1);
    ck_assert_int_eq(loading->hung[0].hindrance, HINDRANCE_OUT_OF_REACH);
    struct effect effect = loading_effect(loading, gym);
    ck_assert(isnan(effect.top_kg) && isnan(effect.mean_kg));
    assert_assumed(effect.assumed, ASSUMED_UNKNOWN_GEAR);
    pinned.pin_m = 1.42; /* at the top it reaches, at the bottom it is 1.36 m away: that too */
    assert_assumed(weigh_for(MEASURED, "squat", 100, &chain, 1).assumed, 0);
    loading = hang_for(MEASURED, "squat", 100, &choked, 1);
    ck_assert_int_eq(loading->hung[0].hindrance, HINDRANCE_CHOKED_ON_PEGS);
    assert_assumed(loading_effect(loading, gym).assumed, ASSUMED_UNKNOWN_GEAR);
    loading = hang_for(MEASURED, "squat", 100, &round, 1);
    ck_assert_int_eq(loading->hung[0].hindrance, HINDRANCE_NONE);
    ck_assert_double_eq(loading->hung[0].band.pegs.apart_m, 0.5);
    ck_assert(!loading->hung[0].band.pegs.from_above);
}
END_TEST

START_TEST(chain_that_was_never_weighed)
{
    struct chain sized = gym->chains[0];
    sized.mass_estimated = true;
    gym->chains = &sized;
    gym->chain_count = 1;
    gym->u_height_m = 0;
    const struct piece piece = CHAIN_COUNT(2);
    /* Its leader too. */
    ck_assert_double_eq_tol(weigh_for(MEASURED, "squat", 100, &piece, 1).top_u_kg, 0.05 * 20.24, 1e-12);
}
END_TEST

/* --- properties --- */

START_TEST(load_never_falls_as_the_bar_rises)
{
    static const struct piece hung[] = {
        CHAIN_COUNT(1),    CHAIN_NAMED(2, "short"), CHAIN_LOOPED(1, "long"),         CHAIN_MASS(0, 30),
        BAND(1, "b11"),    BAND(2, "b48"),          BAND_RIGGED(RIG_DOUBLED, "b26"), BAND_RIGGED(RIG_CHOKED, "b26"),
        BAND(1, "single"), BAND(1, "stretched"),    BAND_PULL(12, 40, true),
    };
    for (size_t i = 0; i < sizeof hung / sizeof *hung; i++) {
        struct loading *loading = hang_for(MEASURED, "squat", 100, &hung[i], 1);
        double before = 0;
        for (double height = 0; height < 2.5; height += 0.003) {
            double load = loading_at(loading, height);
            ck_assert_msg(load >= before - 1e-12, "piece %zu falls at %g m", i, height);
            before = load;
        }
    }
}
END_TEST

static bool same_bits(double a, double b)
{
    return a == b || (isnan(a) && isnan(b));
}

static bool same_effect(const struct effect *a, const struct effect *b)
{
    return same_bits(a->straight_kg, b->straight_kg) && same_bits(a->bottom_kg, b->bottom_kg) &&
           same_bits(a->top_kg, b->top_kg) && same_bits(a->mean_kg, b->mean_kg) &&
           same_bits(a->lowering_top_kg, b->lowering_top_kg) && same_bits(a->bottom_u_kg, b->bottom_u_kg) &&
           same_bits(a->top_u_kg, b->top_u_kg) && a->assumed == b->assumed;
}

/* What hangs is worked out once, under no weight, and is then the same as by itself under each: unloaded ones, too, and
 * none. */
static void weigh_under_many_weights(const char *lifter, const char *lift, const struct piece *pieces, size_t count)
{
    static const double weights_kg[] = {0, 3, 17.5, 40, 60.1, 100, 142.5, 300, NAN};
    const struct loading *bare = hang_for(lifter, lift, NAN, pieces, count);
    const struct ar_effect *ar = ar_effect_make(arena, bare, gym);
    ck_assert_int_eq(!ar, !count);
    for (size_t i = 0; i < sizeof weights_kg / sizeof *weights_kg; i++) {
        struct load load = {.straight = STRAIGHT_MASS, .kg = weights_kg[i], .pieces = pieces, .piece_count = count};
        struct loading_context context = {gym, gym_lifter(gym, lifter), lift, NO_DAY, NAN, NAN};
        struct loading *alone = loading_make(arena, &load, &context);
        struct loading under = loading_under(&load, &context, gym_lift(gym, lift), bare);
        struct effect expected = loading_effect(alone, gym), is = loading_effect_with(&under, ar);
        ck_assert_uint_eq(under.assumed, alone->assumed);
        ck_assert_msg(same_effect(&is, &expected), "%s, %g kg: mean %.17g, not %.17g", lift, weights_kg[i], is.mean_kg,
                      expected.mean_kg);
        ck_assert(same_bits(is.mean_kg, loading_mean_kg(alone)));
        if (alone->heights_known)
            ck_assert(same_bits(is.top_u_kg, loading_u_kg(alone, alone->top_m, gym)));
        if (!isnan(loading_at(alone, alone->top_m)))
            ck_assert(same_bits(is.top_kg, loading_at(alone, alone->top_m)) &&
                      same_bits(is.bottom_kg, loading_at(alone, alone->bottom_m)));
    }
}

START_TEST(one_ar_under_many_weights)
{
    weigh_under_many_weights(MEASURED, readings[_i].lift, readings[_i].pieces, readings[_i].count);
    weigh_under_many_weights(NOBODY, readings[_i].lift, readings[_i].pieces, readings[_i].count);
}
END_TEST

START_TEST(one_bending_ar_under_many_weights)
{
    weigh_under_many_weights(MEASURED, mean_rows[_i].lift, mean_rows[_i].pieces, mean_rows[_i].count);
}
END_TEST

START_TEST(straight_weight_adds_itself)
{
    double straight = readings[_i].straight_kg;
    struct effect light = weigh_for(MEASURED, readings[_i].lift, straight, readings[_i].pieces, readings[_i].count);
    struct effect heavy = weigh_for(MEASURED, readings[_i].lift, straight + 17.5, readings[_i].pieces,
                                    readings[_i].count);
    ck_assert_double_eq_tol(heavy.bottom_kg - light.bottom_kg, 17.5, 1e-9);
    ck_assert_double_eq_tol(heavy.top_kg - light.top_kg, 17.5, 1e-9);
    ck_assert_double_eq_tol(heavy.mean_kg - light.mean_kg, 17.5, 1e-9);
    ck_assert_double_eq_tol(heavy.top_u_kg, light.top_u_kg, 1e-9);
}
END_TEST

START_TEST(more_chain_never_lowers_the_top)
{
    double before = 0;
    for (int count = 1; count <= 40; count++) {
        const struct piece piece = CHAIN_COUNT(count);
        double top = weigh_for(MEASURED, "squat", 100, &piece, 1).top_kg;
        ck_assert(top >= before);
        before = top;
    }
    before = 0;
    for (double mass = 0.5; mass < 60; mass += 0.7) {
        const struct piece piece = CHAIN_MASS(0, mass);
        double top = weigh_for(MEASURED, "squat", 100, &piece, 1).top_kg;
        ck_assert(top > before);
        before = top;
    }
}
END_TEST

#define ADD_ROWS(test, table) tcase_add_loop_test(cases, test, 0, sizeof table / sizeof *table)

int main(void)
{
    Suite *suite = suite_create("effect");
    TCase *cases = tcase_create("effect");
    tcase_add_checked_fixture(cases, set_up, tear_down);
    ADD_ROWS(readings_weigh_what_the_notation_says, readings);
    ADD_ROWS(what_is_not_known_is_empty, unknowns);
    tcase_add_test(cases, bands_give_back_less_than_they_take);
    tcase_add_test(cases, a_band_from_above_is_let_go_while_lifted);
    tcase_add_test(cases, releasers_count_while_lowered_only);
    ADD_ROWS(means_against_small_steps, mean_rows);
    tcase_add_test(cases, means_in_closed_form);
    tcase_add_test(cases, errors_of_one_label_add_and_of_two_do_not);
    tcase_add_test(cases, one_height_error_enters_by_every_piece);
    tcase_add_test(cases, a_kink_is_integrated);
    tcase_add_test(cases, uncertainty_is_what_drawn_errors_make);
    tcase_add_test(cases, uncertainty_round_pegs_and_by_a_pin);
    tcase_add_test(cases, what_cannot_hang_has_no_load);
    tcase_add_test(cases, chain_that_was_never_weighed);
    ADD_ROWS(one_ar_under_many_weights, readings);
    ADD_ROWS(one_bending_ar_under_many_weights, mean_rows);
    tcase_add_test(cases, load_never_falls_as_the_bar_rises);
    ADD_ROWS(straight_weight_adds_itself, readings);
    tcase_add_test(cases, more_chain_never_lowers_the_top);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
