#include "analysis/records.h"

#include "unit/made_log.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>

static struct made *made;

static void setup(void)
{
    made = made_new();
}

static void teardown(void)
{
    made_free(made);
}

START_TEST(bests_by_repetitions)
{
    add_sets(made, ODA, "squat", "2026-01-05", mass(made, 100), 2, 5);
    add_sets(made, ODA, "squat", "2026-01-12", mass(made, 120), 1, 2);
    add_sets(made, ODA, "squat", "2026-01-19", mass(made, 120), 1, 1); /* no more than before */
    add_sets(made, ODA, "squat", "2026-01-19", mass(made, 60), 1, 12);
    add_sets(made, ODA, "squat", "2026-01-19", mass(made, 150), 1, 0)->kind = SET_MISSED;
    add_sets(made, ODA, "squat", "2026-01-19", mass(made, 140), 1, 1)->kind = SET_WARM_UP;
    size_t count;
    const struct lift_records *rows = records_make(made->arena, train(made), &count);
    static const double kg[RECORD_REPS] = {120, 120, 100, 100, 100, 60, 60, 60, 60, 60};
    ck_assert_uint_eq(count, 1);
    for (int i = 0; i < RECORD_REPS; i++) {
        ck_assert_double_eq(rows->best[LOAD_STRAIGHT][i].kg, kg[i]);
        ck_assert_double_eq(rows->best[LOAD_TOP][i].kg, kg[i]);
    }
    ck_assert_int_eq(rows->best[LOAD_STRAIGHT][0].set->set->day, day_of("2026-01-12"));
    ck_assert_uint_eq(rows->best[LOAD_STRAIGHT][4].set->number, 1);
}
END_TEST

START_TEST(ar_counts_at_both_ends_and_not_as_straight_weight)
{
    add_sets(made, ODA, "squat", "2026-01-05", mass(made, 100), 1, 3);
    add_sets(made, ODA, "squat", "2026-01-12", banded(made, 95, 10, 40), 1, 3);
    add_sets(made, ODA, "squat", "2026-01-19", labelled(made, 130, "b99"), 1, 3); /* unknown at the top */
    size_t count;
    const struct lift_records *rows = records_make(made->arena, train(made), &count);
    ck_assert_double_eq(rows->best[LOAD_STRAIGHT][2].kg, 100);
    ck_assert_double_eq(rows->best[LOAD_TOP][2].kg, 135);
    ck_assert_double_eq(rows->best[LOAD_BOTTOM][2].kg, 130); /* at least the straight weight was there */
    ck_assert(isnan(rows->best[LOAD_STRAIGHT][3].kg));
    ck_assert_ptr_null(rows->best[LOAD_STRAIGHT][3].set);
    ck_assert(isnan(rows->best[LOAD_MEAN][0].kg));
}
END_TEST

START_TEST(a_lift_that_is_always_done_with_ar_has_its_row)
{
    add_sets(made, ODA, "bench press", "2026-01-12", banded(made, 95, 10, 40), 1, 3);
    add_sets(made, ODA, "squat", "2026-01-12", labelled(made, 130, "b99"), 1, 3); /* unknown at the top */
    size_t count;
    const struct lift_records *rows = records_make(made->arena, train(made), &count);
    ck_assert_uint_eq(count, 2);
    ck_assert_double_eq(rows[0].best[LOAD_BOTTOM][0].kg, 105);
    ck_assert_double_eq(rows[0].best[LOAD_TOP][0].kg, 135);
    ck_assert_ptr_null(rows[0].best[LOAD_STRAIGHT][0].set);
    ck_assert_double_eq(rows[1].best[LOAD_BOTTOM][0].kg, 130);
    ck_assert_ptr_null(rows[1].best[LOAD_TOP][0].set);
}
END_TEST

START_TEST(a_row_for_each_lifter_and_lift_with_a_weight)
{
    add_sets(made, ODA, "squat", "2026-01-05", mass(made, 100), 1, 3);
    add_sets(made, ODA, "pull-up", "2026-01-05", no_load(made), 1, 3);
    add_sets(made, IVO, "squat", "2026-01-05", mass(made, 110), 1, 3);
    add_sets(made, IVO, "bench press", "2026-01-05", mass(made, 70), 1, 3);
    size_t count;
    const struct lift_records *rows = records_make(made->arena, train(made), &count);
    ck_assert_uint_eq(count, 3);
    ck_assert_str_eq(rows[0].lift, "bench press");
    ck_assert_str_eq(rows[1].lifter, IVO);
    ck_assert_double_eq(rows[1].best[LOAD_BOTTOM][0].kg, 110);
    ck_assert_str_eq(rows[2].lifter, ODA);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("records");
    TCase *cases = tcase_create("records");
    tcase_add_checked_fixture(cases, setup, teardown);
    tcase_add_test(cases, bests_by_repetitions);
    tcase_add_test(cases, ar_counts_at_both_ends_and_not_as_straight_weight);
    tcase_add_test(cases, a_lift_that_is_always_done_with_ar_has_its_row);
    tcase_add_test(cases, a_row_for_each_lifter_and_lift_with_a_weight);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
