#include "model/chain.h"

#include "base/unit.h"
#include "model/geometry/catenary.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>

#define NO_PIN false, 0, 0
#define BY_ITS_END(mass, length)                                                                                       \
    {                                                                                                                  \
        mass, length, 0, 0, 1, 0.05, 0, NO_PIN                                                                         \
    }
#define LEADER(leader, leader_kg, strands)                                                                             \
    {                                                                                                                  \
        8.4, 1.8, leader, leader_kg, strands, 0.05, 0, NO_PIN                                                          \
    }

#define UNEVEN                                                                                                         \
    {                                                                                                                  \
        20, 2.0, 0.4, 1.0, 2, 0.05, 1.5, NO_PIN                                                                        \
    }

/* Load and slope at a height, by hand: C = q clamp(h / e, 0, 1) + k λ clamp(h − e, 0, l / k). */
static const struct
{
    struct hung_chain chain;
    double height_m, load_kg, slope_kg_per_m;
} loads[] = {
    {BY_ITS_END(20, 2.0), 1.0, 10, 10}, /* half off the floor */
    {BY_ITS_END(20, 2.0), 0, 0, 10},    /* at the floor: the next link is picked up */
    {BY_ITS_END(20, 2.0), -0.1, 0, 0},
    {BY_ITS_END(20, 2.0), 2.0, 20, 0}, /* all of it hangs from here on */
    {BY_ITS_END(20, 2.0), 2.5, 20, 0},
    {{20, 2.0, 0, 0, 2, 0.05, 0, NO_PIN}, 0.5, 10, 20}, /* by its middle: two strands at once */
    {{20, 2.0, 0, 0, 2, 0.05, 0, NO_PIN}, 1.0, 20, 0},
    {LEADER(0.4, 0.3, 1), 0.2, 0.15, 0.75},  /* half of the leader lies on the floor */
    {LEADER(0.4, 0.3, 2), 0.1, 0.075, 0.75}, /* one leader, however many strands */
    {LEADER(0.4, 0.3, 1), 0, 0, 0.75},
    {LEADER(0.4, 0.3, 1), -0.1, 0, 0},
    {LEADER(0, 0.3, 1), -0.1, 0.3, 0}, /* a shackle without length is there always */
    {LEADER(0.4, 0.3, 1), 0.4, 0.3, 8.4 / 1.8},
    {LEADER(0.4, 0.3, 1), 0.78, 0.3 + 8.4 / 1.8 * 0.38, 8.4 / 1.8},
    {LEADER(0.4, 0.3, 1), 1.42, 0.3 + 8.4 / 1.8 * 1.02, 8.4 / 1.8},
    {LEADER(0.4, 0.3, 2), 0.78, 0.3 + 2 * 8.4 / 1.8 * 0.38, 2 * 8.4 / 1.8},
    {LEADER(0.4, 0.3, 2), 1.42, 8.7, 0},
    /* in strands of 1.5 and 0.5 m, 10 kg a metre */
    {UNEVEN, 0.2, 0.5, 2.5},
    {UNEVEN, 0.7, 1 + 10 * (0.3 + 0.3), 20},
    {UNEVEN, 0.9, 1 + 10 * (0.5 + 0.5), 10}, /* the end of the shorter one leaves the floor */
    {UNEVEN, 1.4, 1 + 10 * (1.0 + 0.5), 10},
    {UNEVEN, 1.9, 21, 0},
    {UNEVEN, 2.5, 21, 0},
    {{20, 2.0, 0, 0, 1, 0.05, 1.5, NO_PIN}, 1.0, 10, 10}, /* by its end it has one strand */
    {{20, 2.0, 0, 0, 2, 0.05, 1.0, NO_PIN}, 0.5, 10, 20}, /* the middle after all */
};

START_TEST(load_and_slope)
{
    const struct hung_chain *chain = &loads[_i].chain;
    ck_assert_double_eq_tol(chain_load_kg(chain, loads[_i].height_m), loads[_i].load_kg, 1e-12);
    ck_assert_double_eq_tol(chain_slope_kg_per_m(chain, loads[_i].height_m), loads[_i].slope_kg_per_m, 1e-12);
}
END_TEST

/* ∫ C dh by hand: a triangle for the chain, then a rectangle; the same for its leader. */
static const struct
{
    struct hung_chain chain;
    double low_m, high_m, integral_kg_m;
} integrals[] = {
    {BY_ITS_END(20, 2.0), 0, 2, 20},
    {BY_ITS_END(20, 2.0), 0.5, 1.0, (5 + 10) / 2.0 * 0.5},
    {BY_ITS_END(20, 2.0), 1.5, 3.0, (15 + 20) / 2.0 * 0.5 + 20},
    {BY_ITS_END(20, 2.0), 2.5, 3.0, 10},
    {BY_ITS_END(20, 2.0), 1.0, 1.0, 0},
    {BY_ITS_END(20, 2.0), 1.0, 0.5, -(5 + 10) / 2.0 * 0.5},
    {{20, 2.0, 0, 0, 2, 0.05, 0, NO_PIN}, 0, 2, 10 + 20},
    {{20, 2.0, 0.5, 1.0, 1, 0.05, 0, NO_PIN}, 0, 1.5, 0.25 + 1.0 + 5},
    {{20, 2.0, 0.5, 1.0, 1, 0.05, 0, NO_PIN}, 0, 0.5, 0.25},
    {UNEVEN, 0.4, 0.9, 0.5 + 2 * 10 * 0.25 / 2},
    {UNEVEN, 0.9, 1.4, 0.5 + 10 * (0.5 + 1) / 2 * 0.5 + 5 * 0.5},
    {UNEVEN, 1.9, 2.4, 21 * 0.5},
    {{20, 2.0, 0.5, 1.0, 1, 0.05, 0, NO_PIN}, 0.2, 0.3, (0.4 + 0.6) / 2 * 0.1},
    {{20, 2.0, 0.5, 1.0, 1, 0.05, 0, NO_PIN}, 0.4, 0.7, (0.8 + 1) / 2 * 0.1 + 0.2 + 2 * 0.2 / 2},
};

START_TEST(integral_in_closed_form)
{
    double integral = chain_integral_kg_m(&integrals[_i].chain, integrals[_i].low_m, integrals[_i].high_m);
    ck_assert_double_eq_tol(integral, integrals[_i].integral_kg_m, 1e-12);
}
END_TEST

START_TEST(integral_is_the_sum_of_loads)
{
    const struct hung_chain chain = {7.3, 1.1, 0.45, 0.35, 2, 0.05, 0, NO_PIN};
    enum
    {
        STEPS = 200000
    };
    double sum = 0, low = 0.3, high = 1.6, step = (high - low) / STEPS;
    for (int i = 0; i < STEPS; i++)
        sum += chain_load_kg(&chain, low + (i + 0.5) * step) * step;
    ck_assert_double_eq_tol(chain_integral_kg_m(&chain, low, high), sum, 1e-9);
}
END_TEST

static const struct
{
    struct hung_chain chain;
    double bottom_m, top_m, clearance_m, resting_share;
} rests[] = {
    {BY_ITS_END(20, 2.0), 0.78, 1.42, 2.0 - 1.42 - 0.05, 0.32},
    {BY_ITS_END(20, 1.4), 0.78, 1.42, -0.05, (1.4 - 0.78) / 1.4}, /* swings: no link is left on the floor */
    {BY_ITS_END(20, 1.47), 0.78, 1.42, 0, 0.64 / 1.47},           /* just one link */
    {{8.4, 1.8, 0.8, 0.3, 2, 0.05, 0, NO_PIN},
     0.78,
     1.42,
     0.9 - 0.62 - 0.05,
     0.62 / 0.9}, /* all of it rests at the bottom */
    {{8.4, 0.5, 0.8, 0.3, 1, 0.04, 0, NO_PIN}, 0.78, 1.42, -0.04, 1},
    {UNEVEN, 0.5, 0.8, 0.1 - 0.05, 2 * 0.3 / 2.0},
    {UNEVEN, 0.6, 1.4, -0.05, (0.8 + 0.3) / 2.0}, /* the shorter strand swings */
};

START_TEST(what_stays_on_the_floor_and_what_comes_to_rest)
{
    ck_assert_double_eq_tol(chain_clearance_m(&rests[_i].chain, rests[_i].top_m), rests[_i].clearance_m, 1e-12);
    double share = chain_resting_share(&rests[_i].chain, rests[_i].bottom_m, rests[_i].top_m);
    ck_assert_double_eq_tol(share, rests[_i].resting_share, 1e-12);
}
END_TEST

START_TEST(thrust_of_links_picked_up)
{
    const struct hung_chain single = BY_ITS_END(20, 2.0), folded = {20, 2.0, 0, 0, 2, 0.05, 0, NO_PIN};
    double thrust = 10 * 0.9 * 0.9 / STANDARD_GRAVITY_MS2; /* k λ v² / g */
    ck_assert_double_eq_tol(chain_thrust_kg(&single, 1.0, 0.9), thrust, 1e-12);
    ck_assert_double_eq_tol(chain_thrust_kg(&folded, 0.5, 0.9), 2 * thrust, 1e-12);
    ck_assert_double_eq(chain_thrust_kg(&single, 2.1, 0.9), 0);  /* nothing left to pick up */
    ck_assert_double_eq(chain_thrust_kg(&single, 1.0, -0.9), 0); /* laid down, not picked up */
    ck_assert_double_eq(chain_thrust_kg(&single, 1.0, 0), 0);
}
END_TEST

/* 10 kg/m and a pin 0.8 m high, 0.5 m to the side: model/geometry/catenary.h. */
#define PINNED(length, leader, leader_kg, strands, longer)                                                             \
    {                                                                                                                  \
        10 * length, length, leader, leader_kg, strands, 0.05, longer, true, 0.8, 0.5                                  \
    }

static double carried_kg(double length_m, double end_m)
{
    const struct pinned_strand strand = {length_m, end_m, 0.8, 0.5};
    return 10 * catenary_of(&strand).carried_m;
}

START_TEST(a_chain_held_by_a_pin)
{
    const struct hung_chain one = PINNED(1.5, 0.2, 0.4, 1, 0), two = PINNED(3.0, 0.2, 0.4, 2, 0),
                            uneven = PINNED(2.8, 0, 0, 2, 1.6);
    ck_assert_double_eq_tol(chain_load_kg(&one, 1.3), 0.4 + carried_kg(1.5, 1.1), 1e-12);
    ck_assert_double_eq_tol(chain_load_kg(&one, 0.1), 0.2,
                            1e-12); /* half of the leader; the chain's end on the floor */
    ck_assert_double_eq_tol(chain_load_kg(&two, 1.3), 0.4 + 2 * carried_kg(1.5, 1.1), 1e-12);
    ck_assert_double_eq_tol(chain_load_kg(&uneven, 1.3), carried_kg(1.6, 1.3) + carried_kg(1.2, 1.3), 1e-12);
    ck_assert_double_eq_tol(chain_resting_share(&one, 0.9, 1.3), (carried_kg(1.5, 1.1) - carried_kg(1.5, 0.7)) / 15,
                            1e-12);
    ck_assert(isnan(chain_clearance_m(&one, 1.3)));
    ck_assert(chain_reaches(&one, 2.4) && !chain_reaches(&one, 2.5));
    ck_assert(chain_reaches(&uneven, 1.89) && !chain_reaches(&uneven, 1.90)); /* the shorter strand */
    ck_assert(isnan(chain_load_kg(&one, 2.5)));
    ck_assert_double_gt(chain_level_pull_kg(&one, 1.3), 0);
    const struct hung_chain free_end = BY_ITS_END(20, 2.0);
    ck_assert(chain_reaches(&free_end, 5));
    ck_assert_double_eq(chain_level_pull_kg(&free_end, 1), 0);
}
END_TEST

START_TEST(integral_and_slope_of_a_chain_held_by_a_pin)
{
    const struct hung_chain chain = PINNED(1.5, 0.2, 0.4, 2, 1.1);
    enum
    {
        STEPS = 20000
    };
    double sum = 0, low = 0.3, high = 0.95, step = (high - low) / STEPS;
    for (int i = 0; i < STEPS; i++)
        sum += chain_load_kg(&chain, low + (i + 0.5) * step) * step;
    ck_assert(isnan(sum)); /* the shorter strand, 0.4 m, never reaches */
    const struct hung_chain longer = PINNED(3.2, 0.2, 0.4, 2, 1.8);
    sum = 0;
    for (int i = 0; i < STEPS; i++)
        sum += chain_load_kg(&longer, low + (i + 0.5) * step) * step;
    ck_assert_double_eq_tol(chain_integral_kg_m(&longer, low, high), sum, 1e-7);
    double rise = chain_load_kg(&longer, 0.9 + 1e-6) - chain_load_kg(&longer, 0.9 - 1e-6);
    ck_assert_double_eq_tol(chain_slope_kg_per_m(&longer, 0.9), rise / 2e-6, 1e-5);
}
END_TEST

static const struct
{
    const char *standard;
    double wire_mm, pitch_mm, width_mm; /* pitch 0: not in the table */
} standards[] = {
    {"DIN 766", 6, 18.5, 7.2},
    {"din766", 8, 24, 9.6},
    {" Din  766 ", 10, 28, 12},
    {"DIN-766", 13, 36, 15.6},
    {"DIN 763", 10, 65, 18},
    {"DIN 763", 16, 100, 28.8},
    {"DIN 764", 13, 45, 15.6},
    {"DIN 5685", 8, 32, 14.4},
    {"DIN 764", 6, 0, 0},
    {"DIN 5685", 16, 0, 0},
    {"DIN 766", 9, 0, 0},
    {"DIN 7", 10, 0, 0},
    {"DIN 766766", 10, 0, 0},
    {"", 10, 0, 0},
    {NULL, 10, 0, 0},
    {"DIN 766", NAN, 0, 0},
    {"DIN 763", 10.009, 65, 18},
    {"DIN 763", 9.991, 65, 18}, /* as near as a caliper tells */
    {"DIN 763", 10.011, 0, 0},
    {"DIN 763", 9.989, 0, 0},
};

START_TEST(standards_by_name_and_size)
{
    double pitch = -1, width = -1;
    bool found = chain_standard(standards[_i].standard, standards[_i].wire_mm / 1000, &pitch, &width);
    ck_assert_int_eq(found, standards[_i].pitch_mm > 0);
    ck_assert_double_eq_tol(pitch, found ? standards[_i].pitch_mm / 1000 : -1, 1e-12);
    ck_assert_double_eq_tol(width, found ? standards[_i].width_mm / 1000 : -1, 1e-12);
}
END_TEST

START_TEST(load_never_falls_as_the_bar_rises)
{
    for (int strands = 1; strands <= 2; strands++) {
        for (double leader = 0; leader < 1; leader += 0.3) {
            const struct hung_chain chain = {7.3, 1.1, leader, 0.35, strands, 0.05, 0, NO_PIN};
            double before = 0;
            for (double height = -0.2; height < 3; height += 0.01) {
                double load = chain_load_kg(&chain, height);
                ck_assert(load >= before && load >= (leader > 0 ? 0 : 0.35) && load <= 7.65 + 1e-12);
                before = load;
            }
        }
    }
}
END_TEST

#define ADD_ROWS(test, table) tcase_add_loop_test(cases, test, 0, sizeof table / sizeof *table)

int main(void)
{
    Suite *suite = suite_create("chain");
    TCase *cases = tcase_create("chain");
    ADD_ROWS(load_and_slope, loads);
    ADD_ROWS(integral_in_closed_form, integrals);
    tcase_add_test(cases, integral_is_the_sum_of_loads);
    ADD_ROWS(what_stays_on_the_floor_and_what_comes_to_rest, rests);
    tcase_add_test(cases, thrust_of_links_picked_up);
    tcase_add_test(cases, a_chain_held_by_a_pin);
    tcase_add_test(cases, integral_and_slope_of_a_chain_held_by_a_pin);
    ADD_ROWS(standards_by_name_and_size, standards);
    tcase_add_test(cases, load_never_falls_as_the_bar_rises);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
