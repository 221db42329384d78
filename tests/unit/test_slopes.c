#include "analysis/statistics/slopes.h"

#include "unit/made_log.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>

static struct made *made;

static void setup(void)
{
    made = made_new();
    add_max(made, add_lifter(made, ODA), "squat", "2025-12-20", 200);
}

static void teardown(void)
{
    made_free(made);
}

static void in_week(int week, const struct load *load, int sets, int reps)
{
    char iso[16];
    date_print(iso, day_of("2026-01-05") + 7 * week);
    add_sets(made, ODA, "squat", iso, load, sets, reps);
}

static const struct trend_slope *slopes_of(size_t *count)
{
    const struct training *training = train(made);
    size_t week_count;
    const struct trend_week *weeks = trend_make(made->arena, training, &week_count);
    return trend_slopes(made->arena, training, weeks, week_count, count);
}

START_TEST(four_rows_a_lift_and_one_for_all_lifts)
{
    for (int week = 0; week < 30; week++)
        in_week(week, mass(made, 100 + week), 1, 10);
    size_t count;
    const struct trend_slope *rows = slopes_of(&count);
    static const char *const measures[] = {"volume_mean_kg", "intensity_mean", "peak_straight_kg", "peak_top_kg",
                                           "volume_mean_kg"};
    static const double slopes[] = {10, 0.005, 1, 1, 10}, recent[] = {1235, 0.6175, 123.5, 123.5, 1235};
    ck_assert_uint_eq(count, 5);
    for (size_t i = 0; i < count; i++) {
        ck_assert_str_eq(rows[i].lift, i < 4 ? "squat" : ALL_LIFTS);
        ck_assert_str_eq(rows[i].measure, measures[i]);
        ck_assert_int_eq(rows[i].in_kg, i != 1);
        ck_assert_uint_eq(rows[i].fit.points, 30);
        ck_assert_double_eq_tol(rows[i].fit.slope, slopes[i], 1e-12);
        ck_assert_str_eq(slope_direction(&rows[i].fit), "up");
        ck_assert_double_eq_tol(rows[i].percent_4w, 400 * slopes[i] / rows[i].fit.median, 1e-9);
        ck_assert_double_eq_tol(rows[i].recent_12, recent[i], 1e-9);
        ck_assert_double_eq_tol(rows[i].before_12, recent[i] - 12 * slopes[i], 1e-9);
    }
}
END_TEST

START_TEST(the_volume_alone_is_the_same_row)
{
    for (int week = 0; week < 30; week++)
        in_week(week, mass(made, 100 + week * week % 7), 1, 10);
    size_t count, week_count, volume_count;
    const struct training *training = train(made);
    const struct trend_week *weeks = trend_make(made->arena, training, &week_count);
    const struct trend_slope *rows = trend_slopes(made->arena, training, weeks, week_count, &count);
    const struct trend_slope *volumes = trend_volume_slopes(made->arena, training, weeks, week_count, &volume_count);
    ck_assert_uint_eq(volume_count, 2);
    ck_assert_ptr_eq(trend_volume_slope_find(volumes, volume_count, &weeks[0]), &volumes[0]);
    ck_assert_ptr_eq(trend_volume_slope_find(volumes, volume_count, &weeks[week_count - 1]), &volumes[1]);
    ck_assert_ptr_null(
        trend_volume_slope_find(volumes, volume_count, &(struct trend_week){.lifter = ODA, .lift = "row"}));
    for (size_t i = 0; i < volume_count; i++) {
        ck_assert_str_eq(volumes[i].measure, "volume_mean_kg");
        ck_assert_str_eq(volumes[i].lift, rows[4 * i].lift);
        ck_assert_mem_eq(&volumes[i].fit, &rows[4 * i].fit, sizeof volumes[i].fit);
    }
}
END_TEST

START_TEST(weeks_without_training_enter_the_volume_only)
{
    for (int week = 0; week < 9; week += 2)
        in_week(week, mass(made, 100), 1, 10);
    size_t count;
    const struct trend_slope *rows = slopes_of(&count);
    ck_assert_uint_eq(rows[0].fit.points, 9);
    ck_assert_uint_eq(rows[1].fit.points, 5);
    ck_assert_uint_eq(rows[3].fit.points, 5);
    ck_assert_double_eq(rows[0].fit.median, 1000);
    ck_assert(isnan(rows[0].before_12));
}
END_TEST

START_TEST(a_median_of_zero_has_no_percentage)
{
    in_week(0, mass(made, 100), 1, 10);
    in_week(6, mass(made, 100), 1, 10);
    size_t count;
    const struct trend_slope *rows = slopes_of(&count);
    ck_assert_double_eq(rows[0].fit.median, 0);
    ck_assert(isnan(rows[0].percent_4w));
    ck_assert(!isnan(rows[2].percent_4w));
}
END_TEST

static const struct
{
    const char *today;
    size_t points;
} todays[] = {
    {"2026-02-08", 4}, /* Sunday: the last week is not over */
    {"2026-02-09", 5},
    {"2026-02-02", 4},
};

START_TEST(the_running_week_is_left_out)
{
    for (int week = 0; week < 5; week++)
        in_week(week, mass(made, 100), 1, week < 4 ? 10 : 1);
    made->options.today = day_of(todays[_i].today);
    size_t count;
    const struct trend_slope *rows = slopes_of(&count);
    ck_assert_uint_eq(rows[0].fit.points, todays[_i].points);
    ck_assert_double_eq(rows[0].recent_12, 1000);
}
END_TEST

START_TEST(a_single_running_week_leaves_no_point)
{
    in_week(0, mass(made, 100), 1, 10);
    made->options.today = day_of("2026-01-06");
    size_t count;
    const struct trend_slope *rows = slopes_of(&count);
    ck_assert_uint_eq(count, 5);
    ck_assert_uint_eq(rows[0].fit.points, 0);
    ck_assert(isnan(rows[0].fit.slope) && isnan(rows[0].recent_12) && isnan(rows[0].percent_4w));
}
END_TEST

START_TEST(waves_have_a_point_each)
{
    for (int wave = 0; wave < 5; wave++)
        for (int step = 0; step < 3; step++)
            in_week(3 * wave + step, banded(made, 120 + 10 * step + 3 * wave, 0, 30 + 2 * wave), 3, 4);
    size_t count;
    const struct waves *waves = waves_make(made->arena, train(made));
    const struct wave_slope *rows = wave_slopes(made->arena, waves, NO_DAY, &count);
    static const char *const measures[] = {"first_straight_kg", "last_straight_kg", "first_bottom_kg",
                                           "last_bottom_kg",    "first_top_kg",     "last_top_kg",
                                           "straight_kg",       "bottom_kg",        "top_kg"};
    static const double slopes[] = {3, 3, 3, 3, 5, 5, 3, 3, 5},
                        medians[] = {126, 146, 126, 146, 160, 180, 136, 136, 170};
    ck_assert_uint_eq(waves->wave_count, 5);
    ck_assert_uint_eq(count, 9);
    for (size_t i = 0; i < count; i++) {
        ck_assert_str_eq(rows[i].measure, measures[i]);
        ck_assert_int_eq(rows[i].focus, FOCUS_STRENGTH);
        ck_assert_uint_eq(rows[i].fit.points, i < 6 ? 5 : 15);
        ck_assert_double_eq_tol(rows[i].fit.slope, slopes[i], 1e-12);
        ck_assert_double_eq_tol(rows[i].fit.median, medians[i], 1e-12);
        ck_assert_str_eq(slope_direction(&rows[i].fit), "up");
    }
}
END_TEST

/* The fifth wave's last week is 14 of 0 to 14: on its Sunday it may still go on, on the Monday after it is over. */
START_TEST(a_wave_of_this_week_is_left_out)
{
    for (int wave = 0; wave < 5; wave++)
        for (int step = 0; step < 3; step++)
            in_week(3 * wave + step, mass(made, 120 + 10 * step + 3 * wave), 3, 4);
    const struct waves *waves = waves_make(made->arena, train(made));
    day_number sunday = week_monday(waves->waves[4].weeks[2].week) + 6;
    size_t count;
    ck_assert_uint_eq(wave_slopes(made->arena, waves, sunday, &count)[0].fit.points, 4);
    ck_assert_uint_eq(wave_slopes(made->arena, waves, sunday, &count)[6].fit.points, 12);
    ck_assert_uint_eq(wave_slopes(made->arena, waves, sunday + 1, &count)[0].fit.points, 5);
}
END_TEST

START_TEST(waves_of_unknown_gear_have_no_top)
{
    for (int week = 0; week < 4; week++)
        in_week(week, labelled(made, week % 2 ? 110 : 100, "b99"), 3, 4);
    size_t count;
    const struct wave_slope *rows = wave_slopes(made->arena, waves_make(made->arena, train(made)), NO_DAY, &count);
    ck_assert_uint_eq(count, 9);
    ck_assert_uint_eq(rows[0].fit.points, 2);
    ck_assert_uint_eq(rows[4].fit.points, 0);
    ck_assert(isnan(rows[4].fit.slope));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("slopes");
    TCase *cases = tcase_create("slopes");
    tcase_add_checked_fixture(cases, setup, teardown);
    tcase_add_test(cases, four_rows_a_lift_and_one_for_all_lifts);
    tcase_add_test(cases, the_volume_alone_is_the_same_row);
    tcase_add_test(cases, weeks_without_training_enter_the_volume_only);
    tcase_add_test(cases, a_median_of_zero_has_no_percentage);
    tcase_add_loop_test(cases, the_running_week_is_left_out, 0, sizeof todays / sizeof *todays);
    tcase_add_test(cases, a_single_running_week_leaves_no_point);
    tcase_add_test(cases, waves_have_a_point_each);
    tcase_add_test(cases, a_wave_of_this_week_is_left_out);
    tcase_add_test(cases, waves_of_unknown_gear_have_no_top);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
