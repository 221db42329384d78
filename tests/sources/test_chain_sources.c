/* Chains against published values. */
#include "model/chain.h"

#include "model/effect.h"
#include "model/heights.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>

/* Mass per metre: DIN 763:1990-12, table 1 (8 mm: the mass is not legible in the text at hand); DIN 766:1986-01 as two
 * industrial suppliers' tables have it; DIN 764 and DIN 5685 form A from a supplier's table each. */
static const struct
{
    const char *standard;
    double wire_mm, kg_per_m;
} tables[] = {
    {"DIN 766", 6, 0.80},   {"DIN 766", 8, 1.4},    {"DIN 766", 10, 2.2},  {"DIN 766", 13, 3.8},  {"DIN 766", 16, 5.7},
    {"DIN 763", 6, 0.63},   {"DIN 763", 7, 0.86},   {"DIN 763", 10, 1.75}, {"DIN 763", 13, 2.95}, {"DIN 763", 16, 4.45},
    {"DIN 764", 10, 2.1},   {"DIN 764", 13, 3.5},   {"DIN 764", 16, 5.3},  {"DIN 5685", 6, 0.73}, {"DIN 5685", 8, 1.30},
    {"DIN 5685", 10, 2.05}, {"DIN 5685", 13, 3.45},
};

START_TEST(mass_per_metre_of_the_standards)
{
    double pitch, width;
    ck_assert(chain_standard(tables[_i].standard, tables[_i].wire_mm / 1000, &pitch, &width));
    double mass = chain_mass_per_metre(tables[_i].wire_mm / 1000, pitch, width);
    ck_assert_double_eq_tol(mass, tables[_i].kg_per_m, 0.04 * tables[_i].kg_per_m);
}
END_TEST

/* Worked out for the links of both standards from the formula, to the digits given. */
static const struct
{
    double wire_mm, pitch_mm, width_mm, kg_per_m, link_g;
} vectors[] = {
    {10, 28, 12, 2.2265, 62.341}, {16, 45, 19.2, 5.6885, 255.981}, {6, 18.5, 7.2, 0.7687, NAN},
    {8, 24, 9.6, 1.3826, NAN},    {13, 36, 15.6, 3.7814, NAN},     {6, 42, 10.8, 0.6087, NAN},
    {7, 49, 12.6, 0.8285, NAN},   {8, 52, 14.4, 1.1046, NAN},      {10, 65, 18.0, 1.7260, NAN},
    {13, 82, 23.4, 2.9423, NAN},  {16, 100, 28.8, 4.4690, NAN},
};

START_TEST(link_formula)
{
    double pitch = vectors[_i].pitch_mm / 1000;
    double mass = chain_mass_per_metre(vectors[_i].wire_mm / 1000, pitch, vectors[_i].width_mm / 1000);
    ck_assert_double_eq_tol(mass, vectors[_i].kg_per_m, 0.00005 + 1e-9);
    if (!isnan(vectors[_i].link_g))
        ck_assert_double_eq_tol(mass * pitch * 1000, vectors[_i].link_g, 0.0005 + 1e-9);
}
END_TEST

/* Neelly, Terry & Morris 2010, J Strength Cond Res 24(1):278–281, doi 10.1519/JSC.0b013e3181b2977a: a lifter of 1.83 m
 * squats with 9.6 kg of chain; hung straight 36–42 % of it is unloaded at the bottom, looped from a leader chain
 * 78–89 %. A straight chain that just reaches the floor at lockout, at heights from stature: none of it was tuned. */
START_TEST(neelly_2010_straight_hang)
{
    double bottom, top;
    ck_assert(heights_from_stature("squat", 1.83, &bottom, &top));
    const struct hung_chain chain = {.mass_kg = 9.6, .length_m = top, .strands = 1};
    double unloaded = chain_resting_share(&chain, bottom, top);
    ck_assert_double_ge(unloaded, 0.36);
    ck_assert_double_le(unloaded, 0.42);
    ck_assert_double_eq_tol(chain_load_kg(&chain, top) - chain_load_kg(&chain, bottom), unloaded * 9.6, 1e-9);
    ck_assert_double_ge(chain_load_kg(&chain, bottom), 5.55); /* still hanging: 5.6 to 6.1 kg */
    ck_assert_double_le(chain_load_kg(&chain, bottom), 6.15);
}
END_TEST

/* The looped hang: the abstract gives neither leader nor length. Here the leader ends a hand's breadth above the floor
 * at the bottom, and the loop just reaches the floor at lockout: nearly all of the heavy chain comes down. */
START_TEST(neelly_2010_looped_hang)
{
    double bottom, top;
    ck_assert(heights_from_stature("squat", 1.83, &bottom, &top));
    double leader = bottom - 0.10;
    const struct hung_chain chain = {.mass_kg = 9.6, .length_m = 2 * (top - leader), .leader_m = leader, .strands = 2};
    double unloaded = chain_resting_share(&chain, bottom, top);
    ck_assert_double_ge(unloaded, 0.78);
    ck_assert_double_le(unloaded, 0.89);
    ck_assert_double_ge(chain_load_kg(&chain, bottom), 1.05); /* still hanging: 1.1 to 2.1 kg */
    ck_assert_double_le(chain_load_kg(&chain, bottom), 2.15);
}
END_TEST

/* Common practice, no source: a 400 lb bar with 80 lb of chain, half of it down at lockout and all of it at the chest,
 * is 440 lb at the top and 400 lb at the bottom. */
START_TEST(worked_example_of_the_trade)
{
    const double chest = 0.9, lockout = 1.3;
    const struct hung_chain one = {.mass_kg = 40, .length_m = 2 * (lockout - chest), .leader_m = chest, .strands = 1};
    ck_assert_double_eq_tol(400 + 2 * chain_load_kg(&one, lockout), 440, 1e-9);
    ck_assert_double_eq_tol(400 + 2 * chain_load_kg(&one, chest), 400, 1e-9);
}
END_TEST

#define ADD_ROWS(test, table) tcase_add_loop_test(cases, test, 0, sizeof table / sizeof *table)

int main(void)
{
    Suite *suite = suite_create("chain sources");
    TCase *cases = tcase_create("chain sources");
    ADD_ROWS(mass_per_metre_of_the_standards, tables);
    ADD_ROWS(link_formula, vectors);
    tcase_add_test(cases, neelly_2010_straight_hang);
    tcase_add_test(cases, neelly_2010_looped_hang);
    tcase_add_test(cases, worked_example_of_the_trade);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
