#include "analysis/one_rm.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>

static const struct
{
    double load_kg;
    int reps;
    double rpe, rir;
    double e1rm_kg; /* by Epley; NAN: none */
} efforts[] = {
    {100, 1, NAN, NAN, 100},
    {100, 1, 10, NAN, 100},
    {100, 1, 9, NAN, 100 * (1 + 2 / 30.0)},     /* one in reserve: as if two had been made */
    {100, 1, 8.5, NAN, 100 * (1 + 2.5 / 30.0)}, /* half a repetition counts */
    {100, 5, NAN, NAN, 100 * (1 + 5 / 30.0)},
    {100, 5, 8, NAN, 100 * (1 + 7 / 30.0)},
    {100, 5, NAN, 2, 100 * (1 + 7 / 30.0)},
    {100, 5, 6, 1, 100 * (1 + 6 / 30.0)}, /* reserve itself wins over what RPE says of it */
    {100, 6, 6, NAN, 100 * (1 + 10 / 30.0)},
    {100, 5, 5.5, NAN, NAN}, /* more than 4 in reserve */
    {100, 5, NAN, 4.5, NAN},
    {100, 10, NAN, NAN, 100 * (1 + 10 / 30.0)},
    {100, 10, NAN, 0.5, NAN}, /* more than 10 effective repetitions */
    {100, 11, NAN, NAN, NAN},
    {0.5, 6, NAN, NAN, 0.6}, /* any load above 0 */
    {100, 0, NAN, NAN, NAN},
    {0, 5, NAN, NAN, NAN},
    {NAN, 5, NAN, NAN, NAN},
};

START_TEST(effort_is_added_to_repetitions)
{
    double e1rm = e1rm_of_set(E1RM_EPLEY, efforts[_i].load_kg, efforts[_i].reps, efforts[_i].rpe, efforts[_i].rir);
    if (isnan(efforts[_i].e1rm_kg))
        ck_assert_msg(isnan(e1rm), "%g instead of none", e1rm);
    else
        ck_assert_double_eq_tol(e1rm, efforts[_i].e1rm_kg, 1e-9);
}
END_TEST

START_TEST(a_single_is_its_load_by_every_formula)
{
    ck_assert_double_eq(e1rm_of_set((enum e1rm_formula)_i, 142.5, 1, NAN, NAN), 142.5);
}
END_TEST

START_TEST(estimates_rise_with_repetitions)
{
    for (int reps = 1; reps < 10; reps++) {
        double fewer = e1rm_of_set((enum e1rm_formula)_i, 100, reps, NAN, NAN);
        ck_assert_double_gt(e1rm_of_set((enum e1rm_formula)_i, 100, reps + 1, NAN, NAN), fewer);
    }
}
END_TEST

START_TEST(names_read_back)
{
    enum e1rm_formula formula;
    ck_assert(e1rm_formula_read(e1rm_formula_name((enum e1rm_formula)_i), &formula));
    ck_assert_int_eq(formula, _i);
}
END_TEST

START_TEST(names_are_folded_and_no_other_is_taken)
{
    enum e1rm_formula formula = E1RM_LANDER;
    ck_assert(e1rm_formula_read(" Brzycki ", &formula));
    ck_assert_int_eq(formula, E1RM_BRZYCKI);
    ck_assert(!e1rm_formula_read("", &formula));
    ck_assert(!e1rm_formula_read("epleyy", &formula));
    ck_assert_int_eq(formula, E1RM_BRZYCKI);
}
END_TEST

START_TEST(origin_is_printed_with_its_day)
{
    char buffer[32];
    day_number day;
    ck_assert(date_make(2025, 12, 20, &day));
    ck_assert_str_eq(one_rm_print(buffer, &(struct one_rm){130, day, ONE_RM_TESTED}), "tested 2025-12-20");
    ck_assert_str_eq(one_rm_print(buffer, &(struct one_rm){130, day, ONE_RM_ESTIMATED}), "estimated 2025-12-20");
    ck_assert_str_eq(one_rm_print(buffer, &NO_ONE_RM), "");
}
END_TEST

START_TEST(newest_test_counts_and_of_one_day_the_heavier)
{
    struct one_rm tested = NO_ONE_RM;
    one_rm_offer(&tested, 10, 130);
    one_rm_offer(&tested, 20, 120); /* newer, though lighter */
    ck_assert_double_eq(tested.kg, 120);
    one_rm_offer(&tested, 20, 125);
    one_rm_offer(&tested, 20, 110);
    one_rm_offer(&tested, 15, 140); /* out of order: older */
    ck_assert_double_eq(tested.kg, 125);
    ck_assert_int_eq(tested.day, 20);
    ck_assert_int_eq(tested.from, ONE_RM_TESTED);
}
END_TEST

/* Best estimates of days 0, 10 and 20; of equal ones the later day counts. */
static const struct
{
    const char *what;
    double kg[3]; /* 0: none that day */
    double expected_kg;
    day_number day; /* NO_DAY: no 1RM */
} vouched[] = {
    {"one day vouches for none", {100}, 0, NO_DAY},
    {"the second best", {110, 100}, 100, 10},
    {"the second best, which is older", {100, 110}, 100, 0},
    {"two alike: the later day", {100, 100}, 100, 10},
    {"two alike and a lighter one", {100, 100, 90}, 100, 10},
    {"the second best of three", {100, 120, 110}, 110, 20},
    {"the best of three may be last", {100, 110, 120}, 110, 10},
};

START_TEST(second_best_day)
{
    struct arena *arena = arena_new();
    struct rated rated = {0};
    for (int i = 0; i < 3; i++)
        if (vouched[_i].kg[i] > 0)
            rated_add(arena, &rated, 10 * i, vouched[_i].kg[i], vouched[_i].kg[i], false);
    struct one_rm found = one_rm_rated(&rated, 30);
    ck_assert_msg((found.from == ONE_RM_NONE) == (vouched[_i].day == NO_DAY), "%s", vouched[_i].what);
    if (found.from != ONE_RM_NONE)
        ck_assert_msg(found.kg == vouched[_i].expected_kg && found.day == vouched[_i].day, "%s: %g kg of day %d",
                      vouched[_i].what, found.kg, (int)found.day);
    arena_free(arena);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("one_rm");
    TCase *cases = tcase_create("one_rm");
    tcase_add_loop_test(cases, effort_is_added_to_repetitions, 0, sizeof efforts / sizeof *efforts);
    tcase_add_loop_test(cases, a_single_is_its_load_by_every_formula, 0, E1RM_COUNT);
    tcase_add_loop_test(cases, estimates_rise_with_repetitions, 0, E1RM_COUNT);
    tcase_add_loop_test(cases, names_read_back, 0, E1RM_COUNT);
    tcase_add_test(cases, names_are_folded_and_no_other_is_taken);
    tcase_add_test(cases, origin_is_printed_with_its_day);
    tcase_add_test(cases, newest_test_counts_and_of_one_day_the_heavier);
    tcase_add_loop_test(cases, second_best_day, 0, sizeof vouched / sizeof *vouched);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
