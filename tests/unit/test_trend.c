#include "analysis/trend.h"

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

static const struct trend_week *weeks_of(size_t *count)
{
    return trend_make(made->arena, train(made), count);
}

static const struct
{
    double share;
    int zone;
} zones[] = {{0.2, 0},   {0.549, 0}, {0.55, 1}, {0.55 - 1e-12, 1}, {0.699, 1}, {0.7, 2},
             {0.799, 2}, {0.8, 3},   {0.9, 4},  {0.899, 3},        {1.2, 4}};

START_TEST(zone_edges_are_inside_above)
{
    ck_assert_int_eq(zone_of(zones[_i].share), zones[_i].zone);
}
END_TEST

START_TEST(a_week_adds_up)
{
    add_max(made, add_lifter(made, ODA), "squat", "2025-12-20", 200);
    add_sets(made, ODA, "squat", "2026-01-05", mass(made, 60), 1, 10)->kind = SET_WARM_UP;
    add_sets(made, ODA, "squat", "2026-01-05", mass(made, 160), 2, 3);
    add_sets(made, ODA, "squat", "2026-01-05", mass(made, 190), 1, 0)->kind = SET_MISSED;
    add_sets(made, ODA, "squat", "2026-01-07", banded(made, 100, 10, 50), 4, 2);
    size_t count;
    const struct trend_week *week = weeks_of(&count);
    ck_assert_uint_eq(count, 2);
    ck_assert_str_eq(week->lift, "squat");
    ck_assert_int_eq(week->week, week_of(day_of("2026-01-05")));
    ck_assert_uint_eq(week->days, 2);
    ck_assert_uint_eq(week->sets, 6);
    ck_assert_uint_eq(week->lifts, 14);
    static const double volumes[LOAD_MEASURES] = {960 + 800, 960 + 880, 960 + 1200, 960 + 1040};
    static const double peaks[LOAD_MEASURES] = {160, 160, 160, 160};
    for (int measure = 0; measure < LOAD_MEASURES; measure++) {
        ck_assert_double_eq_tol(week->volume_kg[measure], volumes[measure], 1e-9);
        ck_assert_double_eq_tol(week->intensity[measure], volumes[measure] / 200 / 14, 1e-12);
        ck_assert_double_eq(week->peak_kg[measure], peaks[measure]);
    }
    static const double zone_lifts[ZONES] = {0, 8, 0, 6, 0};
    for (int zone = 0; zone < ZONES; zone++)
        ck_assert_double_eq(week->zone_lifts[zone], zone_lifts[zone]);
    ck_assert_double_eq_tol(week->inol, 6 / 20.0 + 8 / 35.0, 1e-12);
    /* daily loads 960, 0, 1040, 0, 0, 0, 0 */
    double mean = 2000 / 7.0, squares = 960.0 * 960 + 1040.0 * 1040 - 7 * mean * mean;
    ck_assert_double_eq_tol(week->monotony, mean / sqrt(squares / 6), 1e-12);
    ck_assert_double_eq_tol(week->strain, 2000 * week->monotony, 1e-9);
}
END_TEST

START_TEST(all_lifts_together_have_volume_and_nothing_of_a_max)
{
    add_max(made, add_lifter(made, ODA), "squat", "2025-12-20", 200);
    add_sets(made, ODA, "squat", "2026-01-05", mass(made, 100), 2, 5);
    add_sets(made, ODA, "bench press", "2026-01-05", mass(made, 60), 1, 5);
    add_sets(made, ODA, "bench press", "2026-01-15", mass(made, 60), 1, 5);
    add_sets(made, IVO, "squat", "2026-01-05", mass(made, 100), 1, 5);
    size_t count;
    const struct trend_week *weeks = weeks_of(&count);
    static const char *const lifts[] = {"squat", "*", "bench press", "bench press", "squat", "*", "*"};
    ck_assert_uint_eq(count, 7);
    for (size_t i = 0; i < count; i++) {
        ck_assert_str_eq(weeks[i].lift, lifts[i]);
        ck_assert_str_eq(weeks[i].lifter, i < 2 ? IVO : ODA);
    }
    ck_assert_double_eq(weeks[5].volume_kg[LOAD_MEAN], 1300);
    ck_assert_uint_eq(weeks[5].days, 1);
    ck_assert_uint_eq(weeks[5].sets, 3);
    ck_assert_uint_eq(weeks[5].lifts, 15);
    ck_assert(isnan(weeks[5].inol) && isnan(weeks[5].zone_lifts[0]) && isnan(weeks[5].intensity[LOAD_MEAN]));
    ck_assert(isnan(weeks[5].peak_kg[LOAD_STRAIGHT]));
    ck_assert(!isnan(weeks[5].monotony) && !isnan(weeks[5].acute_kg));
    made->options.lifts = (struct name_choice){(const char *const[]){"squat"},
                                               1}; /* then there is nothing to put together */
    weeks = weeks_of(&count);
    ck_assert_uint_eq(count, 2);
    ck_assert_str_eq(weeks[1].lift, "squat");
}
END_TEST

START_TEST(weeks_without_training_are_zeros_between)
{
    add_sets(made, ODA, "squat", "2025-12-31", mass(made, 100), 1, 5);
    add_sets(made, ODA, "squat", "2026-01-18", mass(made, 100), 1, 5);
    size_t count;
    const struct trend_week *weeks = weeks_of(&count);
    ck_assert_uint_eq(count, 6); /* three weeks, twice: 2026-W01 to W03 */
    for (size_t i = 0; i < 3; i++)
        ck_assert_int_eq(weeks[i].week, week_of(day_of("2025-12-31")) + (week_number)i);
    const struct trend_week *rest = &weeks[1];
    ck_assert_uint_eq(rest->days + rest->sets + rest->lifts, 0);
    ck_assert_double_eq(rest->volume_kg[LOAD_TOP], 0);
    ck_assert_double_eq(rest->inol, 0);
    ck_assert_double_eq(rest->zone_lifts[4], 0);
    ck_assert(isnan(rest->intensity[LOAD_STRAIGHT]) && isnan(rest->peak_kg[LOAD_MEAN]));
    ck_assert(isnan(rest->monotony) && isnan(rest->strain));
    /* first training day Wednesday: four days of rest to Sunday, then seven more */
    ck_assert_double_eq_tol(weeks[0].acute_kg, 500 * pow(0.75, 4), 1e-9);
    ck_assert_double_eq_tol(rest->acute_kg, 500 * pow(0.75, 11), 1e-9);
    ck_assert_double_eq_tol(rest->chronic_kg, 500 * pow(27 / 29.0, 11), 1e-9);
    /* and the second training day is a Sunday */
    ck_assert_double_eq_tol(weeks[2].acute_kg, 500 * pow(0.75, 18) + 0.25 * 500, 1e-9);
}
END_TEST

START_TEST(a_long_break_has_no_rows)
{
    add_sets(made, ODA, "squat", "1972-09-27", mass(made, 100), 1, 5);
    add_sets(made, ODA, "squat", "2025-01-05", mass(made, 100), 1, 5); /* W01, a Sunday */
    add_sets(made, ODA, "squat", "2026-01-05", mass(made, 100), 1, 5); /* W02: 52 weeks between are shown */
    add_sets(made, ODA, "squat", "2027-01-18", mass(made, 100), 1, 5); /* W03: 53 weeks between are not */
    add_sets(made, ODA, "row", "2026-06-01", mass(made, 100), 1, 5);
    size_t count;
    const struct trend_week *weeks = weeks_of(&count);
    ck_assert_str_eq(weeks[0].lift, "row");
    const struct trend_week *squats = weeks + 1;
    ck_assert_int_eq(squats[1].week, week_of(day_of("2025-01-05")));
    ck_assert_uint_eq(squats[2].sets, 0);
    ck_assert_int_eq(squats[54].week, week_of(day_of("2026-01-05")));
    ck_assert_int_eq(squats[55].week, week_of(day_of("2027-01-18")));
    /* the averages know of the days that have no row */
    ck_assert_double_eq_tol(
        squats[55].chronic_kg /
            (squats[54].chronic_kg * pow(27 / 29.0, 53 * 7) * pow(27 / 29.0, 7) + 500 * 2 / 29.0 * pow(27 / 29.0, 6)),
        1, 1e-12);
    const struct trend_week *all = squats + 56; /* a row of June 2026 halves the break of all lifts together */
    ck_assert(all[0].all_lifts && all[1].week == squats[1].week);
    ck_assert_uint_eq(count, 1 + 56 + 1 + (size_t)(squats[55].week - squats[1].week) + 1);
    for (size_t i = 2; all + i < weeks + count; i++)
        ck_assert_int_eq(all[i].week, all[i - 1].week + 1);
}
END_TEST

START_TEST(from_and_to_cut_the_weeks)
{
    for (int week = 0; week < 6; week++) {
        char iso[16];
        date_print(iso, day_of("2026-01-05") + 7 * week);
        add_sets(made, ODA, "squat", iso, mass(made, 100), 1, 5);
    }
    made->options.from = day_of("2026-01-12");
    made->options.to = day_of("2026-01-27");
    made->options.lifts = (struct name_choice){(const char *const[]){"squat"}, 1};
    size_t count;
    const struct trend_week *weeks = weeks_of(&count);
    ck_assert_uint_eq(count, 3);
    ck_assert_int_eq(weeks[0].week, week_of(day_of("2026-01-12")));
}
END_TEST

START_TEST(sets_without_a_max_or_a_weight)
{
    made->options.lifts = (struct name_choice){(const char *const[]){"squat"}, 1};
    add_sets(made, ODA, "squat", "2026-01-05", no_load(made), 2, 5);
    add_sets(made, ODA, "squat", "2026-01-12", mass(made, 100), 1, 12); /* twelve repetitions estimate nothing */
    add_sets(made, ODA, "squat", "2026-01-19", no_load(made), 1, 5);
    add_sets(made, ODA, "squat", "2026-01-19", mass(made, 100), 1, 5)->rpe = 9;
    add_sets(made, ODA, "squat", "2026-01-21", mass(made, 90), 1, 5);
    size_t count;
    const struct trend_week *weeks = weeks_of(&count);
    ck_assert_uint_eq(count, 3);
    ck_assert_uint_eq(weeks[0].lifts, 10);
    ck_assert(isnan(weeks[0].volume_kg[LOAD_STRAIGHT]) && isnan(weeks[0].peak_kg[LOAD_STRAIGHT]));
    ck_assert(isnan(weeks[0].inol) && isnan(weeks[0].acute_kg) && isnan(weeks[0].monotony));
    ck_assert_double_eq(weeks[1].volume_kg[LOAD_STRAIGHT], 1200);
    ck_assert(isnan(weeks[1].inol) && isnan(weeks[1].zone_lifts[0]) && isnan(weeks[1].intensity[LOAD_MEAN]));
    ck_assert_double_eq(weeks[2].volume_kg[LOAD_STRAIGHT], 950);
    ck_assert_uint_eq(weeks[2].sets, 3);
    ck_assert_double_eq_tol(weeks[2].intensity[LOAD_MEAN], 0.75, 1e-12); /* of 120 kg, which rest on the set before */
    ck_assert_double_eq(weeks[2].zone_lifts[2], 5);
}
END_TEST

START_TEST(a_set_at_the_max_empties_inol)
{
    made->options.lifts = (struct name_choice){(const char *const[]){"squat"}, 1};
    add_max(made, add_lifter(made, ODA), "squat", "2025-12-20", 100);
    add_sets(made, ODA, "squat", "2026-01-05", mass(made, 80), 1, 5);
    add_sets(made, ODA, "squat", "2026-01-07", mass(made, 100), 1, 1);
    size_t count;
    const struct trend_week *weeks = weeks_of(&count);
    ck_assert(isnan(weeks[0].inol));
    ck_assert_double_eq(weeks[0].zone_lifts[4], 1);
    ck_assert_double_eq(weeks[0].zone_lifts[3], 5);
}
END_TEST

START_TEST(unknown_gear_counts_by_its_straight_weight)
{
    made->options.lifts = (struct name_choice){(const char *const[]){"squat"}, 1};
    add_sets(made, ODA, "squat", "2026-01-05", labelled(made, 100, "b99"), 1, 5);
    size_t count;
    const struct trend_week *weeks = weeks_of(&count);
    for (int measure = 0; measure < LOAD_MEASURES; measure++)
        ck_assert_double_eq(weeks[0].volume_kg[measure], 500);
}
END_TEST

START_TEST(warm_ups_alone_are_no_training)
{
    add_sets(made, ODA, "squat", "2026-01-05", mass(made, 60), 1, 5)->kind = SET_WARM_UP;
    size_t count;
    weeks_of(&count);
    ck_assert_uint_eq(count, 0);
}
END_TEST

START_TEST(monotony_of_equal_days_is_undefined)
{
    double days[7];
    for (int i = 0; i < 7; i++)
        days[i] = 0.1 * (_i + 1);
    ck_assert(isnan(monotony_of(days)));
    days[3] *= 1.1;
    ck_assert(!isnan(monotony_of(days)));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("trend");
    TCase *cases = tcase_create("trend");
    tcase_add_checked_fixture(cases, setup, teardown);
    tcase_add_loop_test(cases, zone_edges_are_inside_above, 0, sizeof zones / sizeof *zones);
    tcase_add_test(cases, a_week_adds_up);
    tcase_add_test(cases, all_lifts_together_have_volume_and_nothing_of_a_max);
    tcase_add_test(cases, weeks_without_training_are_zeros_between);
    tcase_add_test(cases, a_long_break_has_no_rows);
    tcase_add_test(cases, from_and_to_cut_the_weeks);
    tcase_add_test(cases, sets_without_a_max_or_a_weight);
    tcase_add_test(cases, a_set_at_the_max_empties_inol);
    tcase_add_test(cases, unknown_gear_counts_by_its_straight_weight);
    tcase_add_test(cases, warm_ups_alone_are_no_training);
    tcase_add_loop_test(cases, monotony_of_equal_days_is_undefined, 0, 9);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
