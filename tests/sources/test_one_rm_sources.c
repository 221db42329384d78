/* Published one-repetition-maximum formulas, at 100 kg. The coefficients were seen together and mutually consistent in
 * at least three independent public code texts that name Epley 1985, Brzycki 1993, Lombardi 1989, Mayhew et al. 1992,
 * Wathan 1994, O'Conner et al. 1989 and Lander 1985; the table is worked out from them, with no special case at one
 * repetition. */
#include "analysis/one_rm.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>

static const struct
{
    int reps;
    double kg[E1RM_COUNT]; /* epley brzycki lombardi mayhew wathan oconner lander */
} table[] = {
    {1, {103.3333, 100.0000, 100.0000, 108.8640, 101.3042, 102.5000, 101.3903}},
    {2, {106.6667, 102.8571, 107.1773, 111.4387, 105.1457, 105.0000, 104.2128}},
    {3, {110.0000, 105.8824, 111.6123, 113.9903, 108.9797, 107.5000, 107.1969}},
    {4, {113.3333, 109.0909, 114.8698, 116.5154, 112.7955, 110.0000, 110.3569}},
    {5, {116.6667, 112.5000, 117.4619, 119.0107, 116.5825, 112.5000, 113.7089}},
    {6, {120.0000, 116.1290, 119.6231, 121.4729, 120.3306, 115.0000, 117.2709}},
    {7, {123.3333, 120.0000, 121.4814, 123.8990, 124.0300, 117.5000, 121.0633}},
    {8, {126.6667, 124.1379, 123.1144, 126.2863, 127.6714, 120.0000, 125.1092}},
    {9, {130.0000, 128.5714, 124.5731, 128.6322, 131.2463, 122.5000, 129.4349}},
    {10, {133.3333, 133.3333, 125.8925, 130.9343, 134.7467, 125.0000, 134.0704}},
    {11, {136.6667, 138.4615, 127.0982, 133.1903, 138.1654, 127.5000, 139.0502}},
    {12, {140.0000, 144.0000, 128.2089, 135.3985, 141.4959, 130.0000, 144.4143}},
};

START_TEST(raw_formulas)
{
    for (int formula = 0; formula < E1RM_COUNT; formula++)
        ck_assert_double_eq_tol(e1rm_raw((enum e1rm_formula)formula, 100, table[_i].reps), table[_i].kg[formula], 5e-5);
}
END_TEST

START_TEST(raw_formulas_are_used_from_two_repetitions_to_ten)
{
    for (int formula = 0; formula < E1RM_COUNT; formula++) {
        double e1rm = e1rm_of_set((enum e1rm_formula)formula, 100, table[_i].reps, NAN, NAN);
        if (table[_i].reps == 1)
            ck_assert_double_eq(e1rm, 100);
        else if (table[_i].reps <= 10)
            ck_assert_double_eq_tol(e1rm, table[_i].kg[formula], 5e-5);
        else
            ck_assert(isnan(e1rm));
    }
}
END_TEST

START_TEST(brzycki_is_the_fraction_not_its_printed_decimals)
{
    /* w / (1.0278 − 0.0278 r), as often printed, gives 112.5113 at five repetitions */
    ck_assert_double_eq_tol(e1rm_raw(E1RM_BRZYCKI, 100, 5), 112.5, 1e-12);
    ck_assert_double_eq_tol(e1rm_raw(E1RM_BRZYCKI, 100, 10), e1rm_raw(E1RM_EPLEY, 100, 10), 1e-12);
}
END_TEST

/* RPE from repetitions in reserve: Zourdos et al. 2016, J Strength Cond Res 30(1):267–275; Helms et al. 2016, Strength
 * Cond J 38(4):42–49 (10 ↔ 0, 9 ↔ 1, 8 ↔ 2, 7 ↔ 3: PMC11057620, Table 1D). */
static const struct
{
    double rpe, rir;
} reserves[] = {{10, 0}, {9, 1}, {8, 2}, {7, 3}};

START_TEST(rpe_says_what_is_in_reserve)
{
    ck_assert_double_eq(e1rm_of_set(E1RM_EPLEY, 100, 4, reserves[_i].rpe, NAN),
                        e1rm_of_set(E1RM_EPLEY, 100, 4, NAN, reserves[_i].rir));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("one_rm_sources");
    TCase *cases = tcase_create("formulas");
    tcase_add_loop_test(cases, raw_formulas, 0, sizeof table / sizeof *table);
    tcase_add_loop_test(cases, raw_formulas_are_used_from_two_repetitions_to_ten, 0, sizeof table / sizeof *table);
    tcase_add_test(cases, brzycki_is_the_fraction_not_its_printed_decimals);
    tcase_add_loop_test(cases, rpe_says_what_is_in_reserve, 0, sizeof reserves / sizeof *reserves);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
