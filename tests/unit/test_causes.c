#include "analysis/findings/causes.h"

#include "unit/made_findings.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

static const struct causes *causes_of_log(void)
{
    const struct training *training = train(made);
    return causes_make(made->arena, findings_make(made->arena, training, &every), training);
}

static const struct cause *cause_named(const struct causes *causes, const char *name)
{
    for (size_t i = 0; i < causes->count; i++)
        if (!strcmp(causes->items[i].name, name))
            return &causes->items[i];
    ck_abort_msg("no cause %s", name);
    return NULL;
}

static void waves_of_speed(const double *ar_kg, int waves)
{
    for (int week = 0; week < 3 * waves; week++)
        in_week(week, chained(made, 50 + 5 * (week % 3), 1, ar_kg[week / 3] / 2), 8, 3, FOCUS_SPEED);
}

START_TEST(too_much_chain_wave_after_wave_is_one_cause)
{
    waves_of_speed((double[]){30, 30, 30}, 3);
    const struct causes *causes = causes_of_log();
    const struct cause *cause = cause_named(causes, "squat, speed: share-out-of-range: high");
    ck_assert_uint_eq(cause->count, 3);
    ck_assert_uint_eq(cause->episodes, 3);
    ck_assert_int_eq(cause->newest->first->set->day, day_of("2026-02-16"));
    ck_assert_int_eq(cause->first, day_of("2026-01-05"));
    ck_assert_int_eq(cause->last, day_of("2026-03-02"));
    ck_assert_ptr_eq(cause->findings[0], cause->newest);
    ck_assert_str_eq(cause_remedy(cause), "Take chain or band off the bar");
    ck_assert_uint_eq(cause->lift_count, 1);
    ck_assert_double_eq_tol(cause->kg, 5, 1e-9); /* 30 % where 25 % are the most */
}
END_TEST

START_TEST(a_jump_explains_the_share_that_it_leads_to)
{
    waves_of_speed((double[]){16, 36}, 2);
    const struct causes *causes = causes_of_log();
    const struct cause *cause = cause_named(causes, "squat, speed: share-jump");
    ck_assert_uint_eq(causes->count, 1);
    ck_assert_uint_eq(cause->count, 2);
    ck_assert_uint_eq(cause->episodes, 1);
    ck_assert_int_eq(cause->id, FINDING_SHARE_JUMP);
    for (size_t i = 0; i < cause->count; i++)
        ck_assert_ptr_eq(cause_of(causes, cause->findings[i]), cause);
}
END_TEST

START_TEST(too_small_a_share_is_another_cause_than_too_large_a_one)
{
    waves_of_speed((double[]){5, 20, 30}, 3);
    const struct causes *causes = causes_of_log();
    ck_assert_str_eq(cause_remedy(cause_named(causes, "squat, speed: share-out-of-range: low")),
                     "Hang more chain or band on the bar");
    ck_assert_uint_eq(causes_count(causes, NULL, FINDING_CAUTION), causes->count);
}
END_TEST

/* A chain that swung in the first week is a fault; nothing is said first of it ten weeks later. */
START_TEST(what_did_not_come_back_is_history)
{
    add_chain(0.30, 0.80);
    in_week(0, hung(&(struct piece){.kind = PIECE_CHAIN, .label = "long"}), 3, 3, FOCUS_STRENGTH);
    for (int week = 1; week < 7; week++)
        in_week(week, mass(made, 60), 3, 3, FOCUS_STRENGTH);
    ck_assert(!causes_of_log()->items[0].history);
    ck_assert_int_eq(causes_of_log()->items[0].severity, FINDING_FAULT);
    in_week(8, mass(made, 60), 3, 3, FOCUS_STRENGTH); /* eight weeks later, to the day */
    ck_assert(causes_of_log()->items[0].history);
    in_week(8, mass(made, 30), 100, 8, FOCUS_STRENGTH);
    const struct causes *causes = causes_of_log();
    ck_assert_uint_ge(causes->count, 2);
    ck_assert(!causes->items[0].history);
    ck_assert_int_eq(causes->items[0].id, FINDING_VOLUME_JUMP);
    ck_assert(causes->items[1].history);
}
END_TEST

START_TEST(the_gravest_comes_first)
{
    add_chain(0.30, 0.80);
    waves_of_speed((double[]){5, 5}, 2);
    in_week(5, hung(&(struct piece){.kind = PIECE_CHAIN, .label = "long"}), 3, 3, FOCUS_STRENGTH);
    const struct causes *causes = causes_of_log();
    ck_assert_str_eq(causes->items[0].name, "squat: chain-swings: chain long");
    for (size_t i = 1; i < causes->count; i++)
        ck_assert_int_le(causes->items[i].severity, causes->items[i - 1].severity);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("causes");
    TCase *cases = tcase_create("causes");
    tcase_add_checked_fixture(cases, made_setup, made_teardown);
    tcase_add_test(cases, too_much_chain_wave_after_wave_is_one_cause);
    tcase_add_test(cases, a_jump_explains_the_share_that_it_leads_to);
    tcase_add_test(cases, too_small_a_share_is_another_cause_than_too_large_a_one);
    tcase_add_test(cases, what_did_not_come_back_is_history);
    tcase_add_test(cases, the_gravest_comes_first);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
