#include "model/effect.h"

#include "invented_gym.h"
#include "model/heights.h"
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

static struct loading *hang_on(day_number day, const char *lifter, const char *lift, double straight_kg,
                               const struct piece *pieces, size_t count)
{
    struct load *load = ARENA_NEW(arena, struct load);
    *load = (struct load){.straight = STRAIGHT_MASS, .kg = straight_kg, .pieces = pieces, .piece_count = count};
    struct loading_context context = {gym, gym_lifter(gym, lifter), lift, day, NAN, NAN};
    return loading_make(arena, load, &context);
}

static struct loading *hang(const char *lifter, const char *lift, const struct piece *piece)
{
    return hang_on(NO_DAY, lifter, lift, 100, piece, 1);
}

static struct effect weigh(const char *lifter, const char *lift, const struct piece *piece)
{
    return loading_effect(hang(lifter, lift, piece), gym);
}

static void assert_assumed(unsigned assumed, unsigned expected)
{
    char is[160], should_be[160];
    ck_assert_str_eq(assumptions_print(is, assumed), assumptions_print(should_be, expected));
}

/* --- straight weight --- */

static const struct
{
    struct load load;
    const char *lift;
    double one_rm_kg, bodyweight_kg, straight_kg;
    unsigned assumed;
} straights[] = {
    {{.straight = STRAIGHT_MASS, .kg = 102.5}, "squat", NAN, NAN, 102.5, 0},
    {{.straight = STRAIGHT_MASS, .bars = 1}, "squat", NAN, NAN, 20, 0},
    {{.straight = STRAIGHT_MASS, .kg = 80, .bars = 1}, "squat", NAN, 70, 100, 0},
    {{.straight = STRAIGHT_PERCENT, .percent = 72.5}, "deadlift", 180, 70, 130.5, 0},
    {{.straight = STRAIGHT_PERCENT, .percent = 72.5}, "deadlift", NAN, 70, NAN, ASSUMED_NO_WEIGHT},
    {{.straight = STRAIGHT_BODYWEIGHT, .kg = 10}, "pull-up", NAN, 78.5, 88.5, 0},
    {{.straight = STRAIGHT_BODYWEIGHT, .kg = -20}, "pull-up", NAN, 78.5, 58.5, 0},
    {{.straight = STRAIGHT_BODYWEIGHT, .kg = -80}, "pull-up", NAN, 78.5, 0, ASSUMED_UNLOADED},
    {{.straight = STRAIGHT_BODYWEIGHT, .kg = 10}, "pull-up", NAN, NAN, NAN, ASSUMED_NO_WEIGHT},
    {{.straight = STRAIGHT_MASS, .kg = 10}, "dip", NAN, 78.5, 88.5, 0},
    {{.straight = STRAIGHT_MASS, .kg = 10}, "dip", NAN, NAN, 10, 0},
    {{.straight = STRAIGHT_PERCENT, .percent = 50}, "dip", 120, 78.5, 60, 0},
    {{.straight = STRAIGHT_NONE}, "squat", 100, 70, NAN, ASSUMED_NO_WEIGHT},
};

START_TEST(straight_weight)
{
    struct loading_context context = {.gym = gym, .lift = straights[_i].lift, .day = NO_DAY};
    context.one_rm_kg = straights[_i].one_rm_kg;
    context.bodyweight_kg = straights[_i].bodyweight_kg;
    struct effect effect = loading_effect(loading_make(arena, &straights[_i].load, &context), gym);
    double expected = straights[_i].straight_kg;
    const double all[] = {effect.straight_kg,    effect.bottom_kg,       effect.top_kg,
                          effect.mean_kg,        effect.lowering_top_kg, effect.counted_bottom_kg,
                          effect.counted_top_kg, effect.counted_mean_kg};
    for (size_t i = 0; i < sizeof all / sizeof *all; i++)
        ck_assert(isnan(expected) ? isnan(all[i]) : fabs(all[i] - expected) < 1e-12);
    ck_assert(isnan(expected) ? isnan(effect.top_u_kg) : effect.top_u_kg == 0 && effect.bottom_u_kg == 0);
    assert_assumed(effect.assumed, straights[_i].assumed);
}
END_TEST

/* --- chains by mass --- */

static const struct
{
    struct piece piece;
    const char *chain; /* that it is taken for; NULL: none */
} by_mass[] = {
    {CHAIN_MASS(1, 8.4), "long"},
    {CHAIN_MASS(1, 8.568), "long"}, /* 2 % */
    {CHAIN_MASS(1, 8.232), "long"},
    {CHAIN_MASS(1, 8.6), NULL},
    {CHAIN_MASS(1, 8.2), NULL},
    {CHAIN_MASS(2, 5.25), "short"},
    {CHAIN_MASS(0, 8.4), NULL}, /* no count: how many? */
    {CHAIN_MASS(0, 16.8), NULL},
    {{.kind = PIECE_CHAIN, .per_side = 1, .mass_kg = 8.4, .label = "short", .leader_m = NAN, NO_ENDS}, NULL},
    {{.kind = PIECE_CHAIN, .per_side = 1, .mass_kg = 5.2, .label = "SHORT", .leader_m = NAN, NO_ENDS}, "short"},
};

START_TEST(a_mass_near_a_gym_chain_is_that_chain)
{
    struct loading *loading = hang(MEASURED, "squat", &by_mass[_i].piece);
    const struct chain *chain = loading->hung[0].gym_chain;
    if (!by_mass[_i].chain) {
        ck_assert_ptr_null(chain);
        assert_assumed(loading->assumed, ASSUMED_CHAIN_MASS);
        return;
    }
    ck_assert_ptr_nonnull(chain);
    ck_assert_str_eq(chain->label, by_mass[_i].chain);
    ck_assert_double_eq(loading->hung[0].chain.mass_kg, chain->mass_kg);
    assert_assumed(loading->assumed, 0);
}
END_TEST

START_TEST(the_default_chain_comes_first_and_then_the_nearest)
{
    struct chain alike[] = {
        {.label = "a", .mass_kg = 7.00, .length_m = 1},
        {.label = "b", .mass_kg = 7.05, .length_m = 1},
        {.label = "c", .mass_kg = 7.10, .length_m = 1},
    };
    const struct piece piece = CHAIN_MASS(1, 7.05);
    gym->chains = alike;
    gym->chain_count = 3;
    ck_assert_str_eq(hang(MEASURED, "squat", &piece)->hung[0].gym_chain->label, "b");
    alike[2].is_default = true;
    ck_assert_str_eq(hang(MEASURED, "squat", &piece)->hung[0].gym_chain->label, "c");
}
END_TEST

/* As heavy per metre as the gym's of 0.40 m and 0.3 kg. */
START_TEST(a_written_leader_replaces_the_length_of_the_gyms)
{
    const struct piece piece = {.kind = PIECE_CHAIN, .per_side = 1, .mass_kg = NAN, .leader_m = 0.60, NO_ENDS};
    struct effect effect = weigh(MEASURED, "squat", &piece);
    ck_assert_double_eq_tol(effect.bottom_kg, 100 + 2 * (0.45 + 8.4 / 1.8 * 0.18), 1e-9);
    ck_assert_double_eq_tol(effect.top_kg, 100 + 2 * (0.45 + 8.4 / 1.8 * 0.82), 1e-9);
}
END_TEST

START_TEST(a_leader_weighs_by_its_length)
{
    const struct chain strap = {.leader_m = 0.5, .leader_kg = 0.4}, shackle = {.leader_kg = 0.4}, none = {0};
    ck_assert_double_eq(chain_leader_of_kg(&strap, 0.5), 0.4);
    ck_assert_double_eq_tol(chain_leader_of_kg(&strap, 1.25), 1.0, 1e-12);
    ck_assert_double_eq(chain_leader_of_kg(&strap, 0), 0);
    ck_assert_double_eq(chain_leader_of_kg(&shackle, 1.25), 0.4); /* nothing says what a metre weighs */
    ck_assert_double_eq(chain_leader_of_kg(&none, 1.25), 0);
}
END_TEST

/* --- heights, set-ups, days --- */

START_TEST(stature_gives_the_heights_of_a_squat)
{
    double bottom, top;
    ck_assert(heights_from_stature("squat", 1.80, &bottom, &top));
    ck_assert_double_eq_tol(top, 1.4724, 1e-9);
    ck_assert_double_eq_tol(bottom, 0.506 * 1.80, 0.0005 * 1.80);
    ck_assert_double_eq_tol(top - bottom, 0.56, 0.005); /* 0.312 H */
    ck_assert(!heights_from_stature("bench press", 1.80, &bottom, &top));
    ck_assert(!heights_from_stature("squat", NAN, &bottom, &top));
    ck_assert(!heights_from_stature("squat", 0, &bottom, &top));
}
END_TEST

static const struct
{
    const char *lifter;
    const char *lift;
    struct piece piece;
    bool known, estimated;
    unsigned assumed;
} stature_rows[] = {
    {TALL, "squat", CHAIN_COUNT(1), true, true, ASSUMED_NO_HEIGHTS},
    {TALL, "back squat", BAND(1, "b26"), true, true, ASSUMED_NO_HEIGHTS},
    {TALL, "bench press", CHAIN_COUNT(1), false, false, ASSUMED_NO_HEIGHTS},
    {TALL, "squat", BAND_PULL(12, 40, true), true, true, 0}, /* needs no heights */
    {TALL, "squat", CHAIN_MASS(0, 30), true, true, ASSUMED_CHAIN_MASS},
    {TALL, "squat", RELEASERS(1, 10), true, true, 0},
    {MEASURED, "COMP  Squat", CHAIN_COUNT(1), true, false, 0}, /* measured under the lift's main name */
    {MEASURED, "squat", CHAIN_COUNT(1), true, false, 0},
};

START_TEST(heights_are_measured_or_estimated_or_unknown)
{
    struct loading *loading = hang(stature_rows[_i].lifter, stature_rows[_i].lift, &stature_rows[_i].piece);
    ck_assert_int_eq(loading->heights_known, stature_rows[_i].known);
    ck_assert_int_eq(loading->heights_estimated, stature_rows[_i].estimated);
    ck_assert_int_eq(isnan(loading->bottom_m), !stature_rows[_i].known);
    assert_assumed(loading->assumed, stature_rows[_i].assumed);
    bool measured = loading->heights_known && !loading->heights_estimated;
    bool sure = measured || stature_rows[_i].piece.kind == PIECE_RELEASER;
    ck_assert_int_eq(isnan(loading_effect(loading, gym).top_u_kg), !sure);
}
END_TEST

static const struct
{
    const char *lift;
    struct piece piece;
    double anchor_m; /* NAN: not hung */
    unsigned assumed;
} anchors[] = {
    {"squat", BAND(1, "b26"), 0.05, 0},
    {"squat", BAND_AT(RIG_SINGLE, "b26", "floor"), 0, 0},
    {"squat", BAND_AT(RIG_SINGLE, "b26", "Rack-Top"), 2.25, 0},
    {"squat", BAND_AT(RIG_SINGLE, "b26", "nowhere"), 0, ASSUMED_NO_SETUP},
    {"good morning", BAND(1, "b26"), 0, ASSUMED_NO_SETUP},
    {"good morning", BAND_AT(RIG_SINGLE, "b26", "pegs"), 0.05, 0},
    {"squat", REVERSE_AT("b48", "bar-high"), 0.78, 0}, /* not below the bottom */
    {"deadlift", REVERSE_AT("b48", "bar-high"), 0.78, 0},
    {"squat", REVERSE_AT("b48", "pegs"), NAN, ASSUMED_NO_SETUP | ASSUMED_NO_HEIGHTS},
};

START_TEST(bands_hang_where_the_setup_says)
{
    struct loading *loading = hang(MEASURED, anchors[_i].lift, &anchors[_i].piece);
    const struct hung *hung = &loading->hung[0];
    ck_assert_int_eq(hung->kind, isnan(anchors[_i].anchor_m) ? HUNG_UNKNOWN : HUNG_BAND);
    if (hung->kind == HUNG_BAND)
        ck_assert_double_eq(hung->band.anchor_height_m, anchors[_i].anchor_m);
    assert_assumed(loading->assumed, anchors[_i].assumed);
}
END_TEST

static const struct
{
    struct piece piece;
    unsigned assumed;
} marks[] = {
    {BAND_RIGGED(RIG_CHOKED, "b26"), ASSUMED_HITCH},
    {BAND_RIGGED(RIG_CHOKED, "b48"), 0}, /* its hitch was measured */
    {BAND(1, "single"), ASSUMED_ONE_POINT | ASSUMED_OVER_RANGE},
    {BAND(1, "stretched"), ASSUMED_OVER_RANGE},
    {BAND_AT(RIG_DOUBLED, "stretched", "pegs"), ASSUMED_OVER_RANGE},
    {REVERSE_AT("stretched", "rack-top"), ASSUMED_OVER_RANGE}, /* at the bottom alone */
    {BAND(1, "b26"), 0},
};

START_TEST(bands_say_what_they_rest_on)
{
    assert_assumed(hang(MEASURED, "squat", &marks[_i].piece)->assumed, marks[_i].assumed);
}
END_TEST

START_TEST(a_hitch_shortens_the_band)
{
    const struct piece piece = BAND_RIGGED(RIG_CHOKED, "b48"), plain = BAND(1, "b48");
    struct loading *choked = hang(MEASURED, "squat", &piece);
    double distance = hypot(1.42 - 0.05, 0.12), stretch = distance * 1.04 / (1.04 - 0.12);
    double expected = 100 + 2 * band_pull_kg(choked->hung[0].band.curve, stretch) * 1.37 / distance;
    struct effect effect = loading_effect(choked, gym);
    ck_assert_double_eq_tol(effect.top_kg, expected, 1e-9);
    ck_assert(effect.top_kg > weigh(MEASURED, "squat", &plain).top_kg);
}
END_TEST

START_TEST(the_calibration_of_the_day)
{
    const struct piece piece = BAND_AT(RIG_SINGLE, "line", "floor");
    const struct band *band = gym_band(gym, "line");
    day_number aged = band->calibrations[1].measured;
    const day_number days[] = {NO_DAY, aged - 1, aged, aged + 1000};
    for (int i = 0; i < 4; i++) {
        struct effect effect = loading_effect(hang_on(days[i], MEASURED, "squat", 100, &piece, 1), gym);
        ck_assert_double_eq_tol(effect.top_kg, 100 + 2 * (i < 2 ? 20 : 16) * (1.42 - 1.0), 1e-9);
    }
}
END_TEST

/* The last row of the table is behind those that count. */
static const struct
{
    size_t count;
    int is_default, expected; /* -1: none */
} chain_tables[] = {{0, -1, -1}, {1, -1, 0}, {1, 0, 0}, {2, -1, -1}, {2, 0, 0}, {2, 1, 1}, {1, 1, 0}, {2, 2, -1}};

START_TEST(the_default_chain_is_the_one_marked_or_the_only_one)
{
    struct chain chains[3] = {{.label = "a"}, {.label = "b"}, {.label = "c"}};
    if (chain_tables[_i].is_default >= 0)
        chains[chain_tables[_i].is_default].is_default = true;
    gym->chains = chains, gym->chain_count = chain_tables[_i].count;
    const struct chain *found = gym_default_chain(gym);
    ck_assert_ptr_eq(found, chain_tables[_i].expected < 0 ? NULL : &chains[chain_tables[_i].expected]);
    ck_assert_ptr_eq(gym_chain(gym, "a"), chain_tables[_i].count > 0 ? &chains[0] : NULL);
    ck_assert_ptr_eq(gym_chain(gym, "b"), chain_tables[_i].count > 1 ? &chains[1] : NULL);
    ck_assert_ptr_null(gym_chain(gym, "c"));
}
END_TEST

START_TEST(left_and_right_are_kept_apart)
{
    const struct piece piece = BAND_PAIR("b26", "b48");
    struct loading *loading = hang(MEASURED, "squat", &piece);
    ck_assert_uint_eq(loading->hung_count, 2);
    ck_assert(!loading->hung[0].right && loading->hung[1].right);
    ck_assert_str_eq(loading->hung[0].gym_band->label, "b26");
    ck_assert_str_eq(loading->hung[1].gym_band->label, "b48");
    ck_assert_int_eq(loading->hung[0].times, 1);
}
END_TEST

#define ADD_ROWS(test, table) tcase_add_loop_test(cases, test, 0, sizeof table / sizeof *table)

int main(void)
{
    Suite *suite = suite_create("loading");
    TCase *cases = tcase_create("loading");
    tcase_add_checked_fixture(cases, set_up, tear_down);
    ADD_ROWS(straight_weight, straights);
    ADD_ROWS(a_mass_near_a_gym_chain_is_that_chain, by_mass);
    tcase_add_test(cases, the_default_chain_comes_first_and_then_the_nearest);
    tcase_add_test(cases, a_written_leader_replaces_the_length_of_the_gyms);
    tcase_add_test(cases, a_leader_weighs_by_its_length);
    tcase_add_test(cases, stature_gives_the_heights_of_a_squat);
    ADD_ROWS(heights_are_measured_or_estimated_or_unknown, stature_rows);
    ADD_ROWS(bands_hang_where_the_setup_says, anchors);
    ADD_ROWS(bands_say_what_they_rest_on, marks);
    tcase_add_test(cases, a_hitch_shortens_the_band);
    tcase_add_test(cases, the_calibration_of_the_day);
    ADD_ROWS(the_default_chain_is_the_one_marked_or_the_only_one, chain_tables);
    tcase_add_test(cases, left_and_right_are_kept_apart);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
