#include "base/pounds.h"

#include <check.h>

static struct arena *arena;

static void set_up(void)
{
    arena = arena_new();
}

static void tear_down(void)
{
    arena_free(arena);
}

START_TEST(loads_take_pounds_and_inches)
{
    static const struct
    {
        const char *in_kg, *in_lb;
    } rows[] = {
        {"2 x 7 kg chain/side", "2 x 15.4 lb chain/side"},
        {"18.1436948 kg chain", "40 lb chain"},
        {"102.05828325 kg + 2 chains/side", "225 lb + 2 chains/side"},
        {"bands 20 kg bottom 40 kg top", "bands 44.1 lb bottom 88.2 lb top"},
        {"bar + 3 chains \"low\"/side doubled on 1.03 m leader",
         "bar + 3 chains \"low\"/side doubled on 40.6 in leader"},
        {"chain \"7 kg blue\"/side", "chain \"7 kg blue\"/side"}, /* a label is as it is called */
        {"band b34 @ anchor-2cm", "band b34 @ anchor-2cm"},
        {"", ""},
    };
    ck_assert_str_eq(load_in_unit(arena, rows[_i].in_kg, UNIT_LB), rows[_i].in_lb);
    ck_assert_str_eq(load_in_unit(arena, rows[_i].in_kg, UNIT_KG), rows[_i].in_kg);
}
END_TEST

START_TEST(advice_takes_blanks_only)
{
    ck_assert_str_eq(advice_in_unit(arena, "flat = ___ m\ntension = ___ m : ___ kg", UNIT_LB),
                     "flat = ___ in\ntension = ___ in : ___ lb");
    ck_assert_str_eq(advice_in_unit(arena, "write squat 120 kg: 5x5", UNIT_LB), "write squat 120 kg: 5x5");
    ck_assert_str_eq(advice_in_unit(arena, "mass = ___ kg", UNIT_KG), "mass = ___ kg");
    ck_assert_ptr_null(advice_in_unit(arena, NULL, UNIT_LB));
}
END_TEST

START_TEST(lengths)
{
    ck_assert_str_eq(length_in_unit(arena, 0.79, UNIT_KG), "0.79 m");
    ck_assert_str_eq(length_in_unit(arena, 0.165, UNIT_KG), "0.165 m");
    ck_assert_str_eq(length_in_unit(arena, 1.4224, UNIT_LB), "56.0 in");
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("pounds");
    TCase *cases = tcase_create("pounds");
    tcase_add_checked_fixture(cases, set_up, tear_down);
    tcase_add_loop_test(cases, loads_take_pounds_and_inches, 0, 8);
    tcase_add_test(cases, advice_takes_blanks_only);
    tcase_add_test(cases, lengths);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed != 0;
}
