/* The search for a set-up: against closed forms, against a plain loop over everything, and through the notation and
 * back. */
#include "analysis/setup/setup_search.h"

#include "analysis/setup/setup_facts.h"
#include "model/loading.h"
#include "reading/load/load_reader.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define BOTTOM_M 0.8
#define TOP_M 1.4
#define MAX_KG 100

static struct arena *arena;
static struct gym *gym;
static struct bar_heights heights = {"squat", BOTTOM_M, TOP_M};
static struct lifter lifter = {.name = "Oda Brandvik", .heights = &heights, .height_count = 1};
static struct setup setups[] = {{.name = "pegs", .height_m = 0.1}, {.name = "rack-top", .height_m = 2.2}};

/* A chain of 10 kg/m without a leader's weight, and a loop that pulls 40 kg for each metre beyond 0.6 m, up to 1.6 m.
 */
static struct chain chains[] = {{.label = "c10", .mass_kg = 10, .length_m = 1, .link_m = 0.05, .leader_m = 0.6}};
static struct tension_point points[] = {{0.8, 8}, {1.2, 24}, {1.6, 40}};
static struct calibration calibration = {
    .measured = NO_DAY, .flat_m = 0.6, .points = points, .point_count = 3, .law = LAW_MEASURED};
static struct band bands[] = {
    {.label = "b26", .pair = true, .hitch_m = NAN, .calibrations = &calibration, .calibration_count = 1}};

static void begin(void)
{
    arena = arena_new();
    gym = gym_new(arena);
    gym->chains = chains, gym->chain_count = 1;
    gym->bands = bands, gym->band_count = 1;
    setups[0] = (struct setup){.name = "pegs", .height_m = 0.1};
    gym->setups = setups, gym->setup_count = 2;
}

static void end(void)
{
    arena_free(arena);
}

static struct setup_wish wish_for(double share, unsigned gear)
{
    return (struct setup_wish){
        .context = {.gym = gym, .lifter = &lifter, .lift = "squat", .one_rm_kg = MAX_KG, .bodyweight_kg = NAN},
        .straight = {.straight = STRAIGHT_MASS, .kg = 60},
        .share = share,
        .gear = gear,
        .most = 1000,
    };
}

static const struct setup_found *found_of(const struct setup_search *search, enum piece_kind kind, int per_side,
                                          enum rig rig)
{
    for (size_t i = 0; i < search->count; i++) {
        const struct setup_found *found = &search->found[i];
        if (found->load.piece_count == 1 && found->pieces[0].kind == kind && found->pieces[0].per_side == per_side &&
            found->pieces[0].rig == rig)
            return found;
    }
    return NULL;
}

/* n chains a side by k strands add 2 n k λ (h_t − e) from a leader that is longer than the bar is high at the bottom,
 * and 2 n k λ (h_t − h_b) from a shorter one; where that fits as well, the gym's leader of 0.6 m is left as it is
 * (NAN). */
static const struct
{
    double share;
    int per_side;
    enum rig rig;
    double leader_m, bottom_kg, top_kg;
} leaders[] = {
    {0.10, 1, RIG_SINGLE, 0.90, 0, 10},  {0.10, 2, RIG_SINGLE, 1.15, 0, 10}, {0.10, 1, RIG_DOUBLED, 1.15, 0, 10},
    {0.12, 1, RIG_SINGLE, NAN, 4, 16},   {0.20, 1, RIG_SINGLE, NAN, 4, 16}, /* all that one can add */
    {0.20, 1, RIG_DOUBLED, 0.95, 0, 18}, /* one link stays on the floor: at most 0.45 m of each strand is lifted */
};

START_TEST(leader_solved)
{
    struct setup_wish wish = wish_for(leaders[_i].share, SETUP_CHAINS);
    struct setup_search search = setup_search(arena, &wish);
    const struct setup_found *found = found_of(&search, PIECE_CHAIN, leaders[_i].per_side, leaders[_i].rig);
    ck_assert_ptr_nonnull(found);
    if (isnan(leaders[_i].leader_m))
        ck_assert(isnan(found->leader_m));
    else
        ck_assert_double_eq_tol(found->leader_m, leaders[_i].leader_m, 1e-9);
    ck_assert_double_eq_tol(found->effect.bottom_kg, 60 + leaders[_i].bottom_kg, 1e-9);
    ck_assert_double_eq_tol(found->effect.top_kg, 60 + leaders[_i].top_kg, 1e-9);
    ck_assert_double_eq_tol(found->added_kg, leaders[_i].bottom_kg, 1e-9);
    ck_assert_double_eq_tol(found->miss_kg, leaders[_i].top_kg - leaders[_i].bottom_kg - leaders[_i].share * MAX_KG,
                            1e-9);
    ck_assert_double_eq_tol(found->miss_share * MAX_KG, found->miss_kg, 1e-9);
}
END_TEST

/* Two linear loops, slack at the bottom, pull 80 (h_t − z − 0.6) at the top: z = h_t − 0.6 − wanted / 80. Taut all the
 * way they gain 80 (h_t − h_b) = 48 kg wherever the anchor is, and 24 kg of 1RM 100 is out of their reach unless slack.
 */
START_TEST(anchor_solved)
{
    struct setup_wish wish = wish_for(0.24, SETUP_BANDS);
    struct setup_search search = setup_search(arena, &wish);
    const struct setup_found *found = found_of(&search, PIECE_BAND, 1, RIG_SINGLE);
    ck_assert_ptr_nonnull(found);
    ck_assert_double_eq_tol(found->anchor.height_m, 0.50, 1e-9);
    ck_assert_str_eq(found->anchor.name, "anchor-50cm");
    ck_assert_str_eq(found->pieces[0].setup, "anchor-50cm");
    ck_assert(found->slack);
    ck_assert_double_eq_tol(found->effect.top_kg, 84, 1e-9);
    ck_assert_double_eq_tol(found->miss_share, 0, 1e-9);
}
END_TEST

/* An anchor that is there is left where it is. */
START_TEST(anchor_at_hand)
{
    struct setup_wish wish = wish_for(0.48, SETUP_BANDS);
    struct setup_search search = setup_search(arena, &wish);
    const struct setup_found *found = &search.found[0];
    ck_assert_ptr_null(found->anchor.name);
    ck_assert_str_eq(found->pieces[0].setup, "pegs");
    ck_assert_double_eq_tol(found->effect.bottom_kg, 60 + 2 * 40 * (0.7 - 0.6), 1e-9);
    ck_assert_double_eq_tol(found->effect.top_kg, 60 + 2 * 40 * (1.3 - 0.6), 1e-9);
    ck_assert(!found->slack);
}
END_TEST

/* From the longest stretch of all bands to the end of their calibration; 0: there is no band. */
static double calibration_left_m(const struct setup_wish *wish, const struct setup_found *found)
{
    struct setup with_new[] = {setups[0], setups[1], found->anchor};
    struct gym larger = *gym;
    larger.setups = with_new, larger.setup_count = 2 + (found->anchor.name != NULL);
    struct loading_context context = wish->context;
    context.gym = &larger;
    const struct loading *loading = loading_make(arena, &found->load, &context);
    double left_m = 0;
    for (size_t i = 0; i < loading->hung_count; i++)
        if (loading->hung[i].kind == HUNG_BAND)
            left_m = fmin(left_m, band_facts_of(loading, &loading->hung[i]).left_m);
    return left_m;
}

/* A band is measured up to 1.0 m of pull here: over 5 % of it is not stretched, and less neither. */
START_TEST(never_beyond_the_calibration)
{
    points[2].length_m = 1.28; /* from pegs at 0.1 m the top is 1.30 m away: 3 % of the extension too far */
    struct setup_wish wish = wish_for(0.48, SETUP_BANDS);
    struct setup_search search = setup_search(arena, &wish);
    points[2].length_m = 1.6;
    for (size_t i = 0; i < search.count; i++)
        for (size_t j = 0; j < search.found[i].load.piece_count; j++)
            if (search.found[i].pieces[j].rig == RIG_SINGLE)
                ck_assert_str_ne(search.found[i].pieces[j].setup, "pegs");
    ck_assert_uint_gt(search.rejected[SETUP_OVER_RANGE], 0);
}
END_TEST

/* No anchor gives 60 kg. That on the floor would come nearest, beyond the calibration; one from which the bands reach
 * is offered. */
START_TEST(the_nearest_anchor_is_a_sound_one)
{
    points[2] = (struct tension_point){1.28, 28};
    struct setup_wish wish = wish_for(0.60, SETUP_BANDS);
    struct setup_search search = setup_search(arena, &wish);
    points[2] = (struct tension_point){1.6, 40};
    const struct setup_found *found = found_of(&search, PIECE_BAND, 1, RIG_SINGLE);
    ck_assert_ptr_nonnull(found);
    ck_assert_double_gt(found->anchor.height_m, 0.1);
}
END_TEST

/* Bands that would have to be taut at the bottom want an anchor near the floor: its height prints as one, not as -0. */
START_TEST(an_anchor_on_the_floor)
{
    struct setup_wish wish = wish_for(0.64, SETUP_BANDS); /* 80 (1.4 - 0 - 0.6) at the top, slack at the bottom */
    points[0] = (struct tension_point){0.85, 0}, calibration.flat_m = 0.8;
    points[1] = (struct tension_point){1.2, 32};
    struct setup_search search = setup_search(arena, &wish);
    points[0] = (struct tension_point){0.8, 8}, points[1] = (struct tension_point){1.2, 24}, calibration.flat_m = 0.6;
    for (size_t i = 0; i < search.count; i++) {
        ck_assert(!signbit(search.found[i].anchor.height_m));
        if (search.found[i].anchor.name)
            ck_assert_ptr_null(strchr(search.found[i].anchor.name + strlen("anchor-"), '-'));
    }
}
END_TEST

/* A loop that softens beyond 1 m gains 24 kg from an anchor on the floor, 36 kg from one at 0.20 m and 2 kg or so from
 * one below the bar: 34 kg from two anchors between, at 24 + 60 z and 36 - 20 (z - 0.20), z = 0.17 m and 0.30 m. */
START_TEST(an_anchor_between_two_that_gain_too_little)
{
    points[0] = (struct tension_point){0.8, 8}, points[1] = (struct tension_point){1.0, 16};
    points[2] = (struct tension_point){1.6, 22};
    struct setup_wish wish = wish_for(0.34, SETUP_BANDS);
    struct setup_search search = setup_search(arena, &wish);
    points[1] = (struct tension_point){1.2, 24}, points[2] = (struct tension_point){1.6, 40};
    const struct setup_found *found = found_of(&search, PIECE_BAND, 1, RIG_SINGLE);
    ck_assert_ptr_nonnull(found);
    ck_assert_double_lt(fabs(found->miss_share), 0.005);
}
END_TEST

START_TEST(never_unsound)
{
    static const double shares[] = {0.05, 0.15, 0.25, 0.40, 0.60, 1};
    struct setup_wish wish = wish_for(shares[_i], SETUP_CHAINS | SETUP_BANDS);
    wish.min_added_kg = _i % 2 ? 4 : 0;
    struct setup_search search = setup_search(arena, &wish);
    for (size_t i = 0; i < search.count; i++) {
        const struct setup_found *found = &search.found[i];
        ck_assert_double_ge(found->added_kg, wish.min_added_kg - 1e-9);
        ck_assert(!(found->effect.assumed & ASSUMED_OVER_RANGE));
        ck_assert_double_ge(calibration_left_m(&wish, found), -1e-9);
        ck_assert(!signbit(found->anchor.height_m));
        ck_assert_double_le(found->anchor.height_m, BOTTOM_M - 0.05 + 1e-9);
        for (size_t j = 0; j < found->load.piece_count; j++)
            ck_assert(!found->pieces[j].setup || strcmp(found->pieces[j].setup, "rack-top"));
        if (i) /* ranked by miss, in steps of half a point */
            ck_assert_double_le(fabs(search.found[i - 1].miss_share), fabs(found->miss_share) + 0.005);
    }
    ck_assert_uint_gt(search.count, 0);
    ck_assert_uint_gt(search.rejected[SETUP_OVER_RANGE], 0);
    ck_assert_uint_eq(search.rejected[SETUP_TOO_LIGHT] > 0, wish.min_added_kg > 0);
}
END_TEST

/* From the floor, a chain of a metre swings at 1.4 m. */
START_TEST(swinging_is_counted)
{
    chains[0].leader_m = 0.1;
    struct setup_wish wish = wish_for(0.1, SETUP_CHAINS);
    struct setup_search search = setup_search(arena, &wish);
    chains[0].leader_m = 0.6;
    ck_assert_uint_eq(search.rejected[SETUP_SWINGS], 8); /* one to four chains, by the end and by the middle */
    for (size_t i = 0; i < search.count; i++)
        ck_assert(!isnan(search.found[i].leader_m));
}
END_TEST

/* Every leader to the centimetre, every count, every rig, one kind of gear: nothing that a plain loop finds is nearer
 * by more than the half point that the ranking grants. */
static double best_of_plain_loop(const struct setup_wish *wish)
{
    double best = INFINITY;
    for (int per_side = 1; per_side <= 4; per_side++) {
        for (int rig = RIG_SINGLE; rig <= RIG_DOUBLED; rig++) {
            for (int cm = 0; cm < 100 * TOP_M; cm++) {
                double strand = 1.0 / (rig == RIG_DOUBLED ? 2 : 1), leader = cm / 100.0;
                struct hung_chain chain = {10, 1, leader, 0, rig == RIG_DOUBLED ? 2 : 1, 0.05, 0, false, 0, 0};
                if (TOP_M - leader > strand - 0.05 + 1e-9)
                    continue;
                double gain = 2 * per_side * (chain_load_kg(&chain, TOP_M) - chain_load_kg(&chain, BOTTOM_M));
                best = fmin(best, fabs(gain / MAX_KG - wish->share));
            }
        }
    }
    return best;
}

START_TEST(as_good_as_a_plain_loop)
{
    struct setup_wish wish = wish_for(0.03 * (_i + 1), SETUP_CHAINS);
    struct setup_search search = setup_search(arena, &wish);
    ck_assert_double_le(fabs(search.found[0].miss_share), best_of_plain_loop(&wish) + 0.005);
}
END_TEST

/* A leader of 3 kg/m: solved for, it weighs what it weighs when read again. */
START_TEST(a_heavy_leader_is_solved_with_its_mass)
{
    chains[0].leader_kg = 1.8;
    struct setup_wish wish = wish_for(0.10, SETUP_CHAINS);
    struct setup_search search = setup_search(arena, &wish);
    chains[0].leader_kg = 0;
    const struct setup_found *found = found_of(&search, PIECE_CHAIN, 1, RIG_SINGLE);
    ck_assert_ptr_nonnull(found);
    /* 2 (10 (1.4 - e) + 3 e - 3 x 0.8) = 10 */
    ck_assert_double_eq_tol(found->leader_m, 0.94, 1e-9);
    ck_assert_double_eq_tol(found->effect.bottom_kg, 60 + 2 * 3 * 0.8, 1e-9);
    ck_assert_double_eq_tol(found->effect.top_kg, 60 + 2 * (3 * 0.94 + 10 * 0.46), 1e-9);
    ck_assert_double_le(fabs(found->miss_kg), 2 * 7 * 0.005 + 1e-9);
}
END_TEST

/* What is printed reads back to the same load; a new anchor once its block is in the gym file. */
START_TEST(reads_back)
{
    setups[0].pegs_apart_m = _i % 2 ? 0.3 : 0;
    setups[0].bar_diameter_m = setups[0].peg_diameter_m = _i % 3 ? 0.05 : 0;
    struct setup_wish wish = wish_for(0.05 * (_i + 1), SETUP_CHAINS | SETUP_BANDS);
    struct setup_search search = setup_search(arena, &wish);
    ck_assert_uint_gt(search.count, 10);
    for (size_t i = 0; i < search.count; i++) {
        const struct setup_found *found = &search.found[i];
        struct setup with_new[] = {setups[0], setups[1], found->anchor};
        struct gym larger = *gym;
        larger.setups = with_new, larger.setup_count = 2 + (found->anchor.name != NULL);
        struct load_reader *reader = load_reader_new(arena, loads_new(arena), &larger);
        struct load_fault fault = {0};
        const char *text = load_print(arena, &found->load);
        const struct load *load = load_read(reader, text, (struct load_style){UNIT_KG, '.'}, &fault);
        ck_assert_msg(load != NULL, "%s: %s", text, fault.message);
        struct loading_context context = wish.context;
        context.gym = &larger;
        struct effect effect = loading_effect(loading_make(arena, load, &context), &larger);
        ck_assert_msg(fabs(effect.bottom_kg - found->effect.bottom_kg) < 1e-9 &&
                          fabs(effect.top_kg - found->effect.top_kg) < 1e-9,
                      "%s", text);
        ck_assert_uint_eq(effect.assumed, found->effect.assumed);
        load_reader_free(reader);
    }
}
END_TEST

/* Partners hang together and once. */
START_TEST(partners)
{
    struct band pair[] = {bands[0], bands[0]};
    pair[0].label = "b26", pair[0].pair = false, pair[0].partner = "b30";
    pair[1].label = "b30", pair[1].pair = false, pair[1].partner = "b26";
    gym->bands = pair, gym->band_count = 2;
    struct setup_wish wish = wish_for(0.48, SETUP_BANDS);
    struct setup_search search = setup_search(arena, &wish);
    ck_assert_uint_eq(search.usable_bands, 1);
    for (size_t i = 0; i < search.count; i++) {
        ck_assert_int_eq(search.found[i].piece_count, 1);
        ck_assert_str_eq(search.found[i].pieces[0].label_right, "b30");
    }
    ck_assert_double_eq_tol(search.found[0].miss_share, 0, 1e-9);
}
END_TEST

/* 12 kg wanted on each side over 0.6 m are 20 kg/m: 0.65 m of it with the link that stays; 0.1 m more to hang 2 kg a
 * side. */
static const struct
{
    double min_added_kg, chain_kg, chain_m, leader_m;
} needs[] = {{0, 13, 0.65, 0.8}, {4, 15, 0.75, 0.7}};

START_TEST(what_would_do)
{
    struct setup_wish wish = wish_for(0.24, SETUP_CHAINS);
    wish.min_added_kg = needs[_i].min_added_kg;
    struct setup_need need = setup_need_for(&wish);
    ck_assert_double_eq_tol(need.added_kg, 24, 1e-9);
    ck_assert_double_eq_tol(need.chain_kg, needs[_i].chain_kg, 1e-9);
    ck_assert_double_eq_tol(need.chain_m, needs[_i].chain_m, 1e-9);
    ck_assert_double_eq_tol(need.leader_m, needs[_i].leader_m, 1e-9);
    struct chain wanted[] = {{.label = "new",
                              .mass_kg = need.chain_kg,
                              .length_m = need.chain_m,
                              .link_m = 0.05,
                              .leader_m = need.leader_m}};
    gym->chains = wanted;
    struct setup_search search = setup_search(arena, &wish); /* and it does */
    ck_assert_double_eq_tol(search.found[0].miss_share, 0, 1e-9);
    ck_assert_double_eq_tol(search.found[0].added_kg, needs[_i].min_added_kg, 1e-9);
    wish.min_added_kg = 40; /* 1 m of it would have to hang at 0.8 m */
    ck_assert(isnan(setup_need_for(&wish).chain_kg));
}
END_TEST

START_TEST(no_gear)
{
    gym->chain_count = gym->band_count = 0;
    struct setup_wish wish = wish_for(0.2, SETUP_CHAINS | SETUP_BANDS);
    struct setup_search search = setup_search(arena, &wish);
    ck_assert_uint_eq(search.count + search.tried + search.usable_chains + search.usable_bands, 0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("setup_search");
    TCase *cases = tcase_create("setup_search");
    tcase_add_checked_fixture(cases, begin, end);
    tcase_add_test(cases, a_heavy_leader_is_solved_with_its_mass);
    tcase_add_loop_test(cases, leader_solved, 0, sizeof leaders / sizeof *leaders);
    tcase_add_test(cases, anchor_solved);
    tcase_add_test(cases, anchor_at_hand);
    tcase_add_loop_test(cases, never_unsound, 0, 6);
    tcase_add_test(cases, never_beyond_the_calibration);
    tcase_add_test(cases, the_nearest_anchor_is_a_sound_one);
    tcase_add_test(cases, an_anchor_on_the_floor);
    tcase_add_test(cases, an_anchor_between_two_that_gain_too_little);
    tcase_add_test(cases, swinging_is_counted);
    tcase_add_loop_test(cases, as_good_as_a_plain_loop, 0, 20);
    tcase_add_loop_test(cases, reads_back, 0, 4);
    tcase_add_test(cases, partners);
    tcase_add_loop_test(cases, what_would_do, 0, sizeof needs / sizeof *needs);
    tcase_add_test(cases, no_gear);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
