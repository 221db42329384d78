/* Units against their published definitions, and the pounds that lifters meet. */
#include "base/unit.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

START_TEST(definitions)
{
    /* Thompson & Taylor 2008, NIST SP 811, App. B.8: 1 lb = 0.453 592 37 kg, 1 in = 25.4 mm, 1 ft = 304.8 mm, all exact
     */
    ck_assert(kg_from(1, UNIT_LB) == 0.45359237);
    ck_assert(M_PER_IN == 0.0254);
    ck_assert(M_PER_FT == 0.3048);
    ck_assert_double_eq_tol(12 * M_PER_IN, M_PER_FT, 1e-15);
    /* 3rd CGPM 1901: standard gravity, exact. The pound-force that follows: 4.448 221 615 260 5 N */
    ck_assert(STANDARD_GRAVITY_MS2 == 9.80665);
    ck_assert_double_eq_tol(KG_PER_LB * STANDARD_GRAVITY_MS2, 4.4482216152605, 1e-13);
    /* 1 kg = 2.204 622 621 848 775 7 lb (computed from the definition) */
    ck_assert_double_eq_tol(kg_to(1, UNIT_LB), 2.2046226218487757, 1e-15);
}
END_TEST

START_TEST(units_round_trip)
{
    for (int i = 1; i < 2000; i++) {
        double kg = i * 0.25;
        ck_assert_double_eq_tol(kg_from(kg_to(kg, UNIT_LB), UNIT_LB), kg, kg * 1e-15);
    }
}
END_TEST

static const struct
{
    const char *text;
    bool is_mass, read, missing_unit;
    double value;
} quantities[] = {
    {"7.0 kg", true, true, false, 7.0},
    {"15.5lb", true, true, false, 15.5 * 0.45359237},
    {"45 Pounds", true, true, false, 45 * 0.45359237},
    {"20", true, false, true, 0},
    {"20 m", true, false, false, 0},
    {"kg", true, false, false, 0},
    {"1.80 m", false, true, false, 1.80},
    {"40 cm", false, true, false, 0.40},
    {"13 mm", false, true, false, 0.013},
    {"5 ft", false, true, false, 1.524},
    {"2 in", false, true, false, 0.0508},
    {"1.80", false, false, true, 0},
    {"1.80 kg", false, false, false, 0},
    {"nan m", false, false, false, 0},
};

START_TEST(a_quantity_has_a_number_and_a_unit)
{
    double value = 0;
    bool missing = false;
    bool read = quantities[_i].is_mass ? mass_read(quantities[_i].text, &value, &missing)
                                       : length_read(quantities[_i].text, &value, &missing);
    ck_assert_msg(read == quantities[_i].read, "'%s'", quantities[_i].text);
    ck_assert_int_eq(missing, quantities[_i].missing_unit);
    if (read)
        ck_assert_double_eq_tol(value, quantities[_i].value, 1e-12);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("units");
    TCase *tests = tcase_create("units");
    tcase_add_test(tests, definitions);
    tcase_add_test(tests, units_round_trip);
    tcase_add_loop_test(tests, a_quantity_has_a_number_and_a_unit, 0, sizeof quantities / sizeof *quantities);
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
