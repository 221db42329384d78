/* Volume, intensity, zones, INOL, monotony, strain and decaying averages against published or exactly worked values. */
#include "analysis/statistics/statistics.h"
#include "analysis/trend.h"

#include "unit/made_log.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>

/* BMJ Military Health, Table 1 of monitoring equations, and a certification study site for the last: volume load = Σ
 * sets × reps × load, average load = volume load / repetitions. */
static const struct
{
    struct
    {
        int sets, reps;
        double kg;
    } work[5];
    double one_rm_kg;
    double volume_kg, lifts, average_kg, intensity;
} volumes[] = {
    {{{3, 8, 65}}, 110, 1560, 24, 65, 65 / 110.0},
    {{{1, 10, 55}, {1, 8, 65}, {1, 6, 75}}, 110, 1520, 24, 63.3333, 0.575758}, /* printed: 63 kg, 57 % */
    {{{1, 5, 50}, {1, 5, 75}, {3, 5, 100}}, 200, 2125, 25, 85, 0.425}, /* five sets, 25 repetitions, average 85 */
};

START_TEST(volume_load)
{
    struct made *made = made_new();
    add_max(made, add_lifter(made, ODA), "bench press", "2025-12-20", volumes[_i].one_rm_kg);
    for (int i = 0; i < 5 && volumes[_i].work[i].sets; i++)
        add_sets(made, ODA, "bench press", "2026-01-05", mass(made, volumes[_i].work[i].kg), volumes[_i].work[i].sets,
                 volumes[_i].work[i].reps);
    size_t count;
    const struct trend_week *week = trend_make(made->arena, train(made), &count);
    double volume_kg = week->volume_kg[LOAD_MEAN];
    ck_assert_double_eq(volume_kg, volumes[_i].volume_kg);
    ck_assert_double_eq((double)week->lifts, volumes[_i].lifts);
    ck_assert_double_eq_tol(volume_kg / (double)week->lifts, volumes[_i].average_kg, 5e-5);
    ck_assert_double_eq_tol(week->intensity[LOAD_MEAN], volumes[_i].intensity, 5e-7);
    made_free(made);
}
END_TEST

/* INOL: Hristov, How to design strength training programs using Prilepin's table (2004). Printed: 0.20; 0.96; 1.06
 * (16/15, cut); 0.17; 0.25; 0.33. */
static const struct
{
    double reps, share, inol;
} inols[] = {
    {5, 0.75, 0.20}, {24, 0.75, 0.96},   {16, 0.85, 16 / 15.0}, {5, 0.70, 1 / 6.0},
    {5, 0.80, 0.25}, {5, 0.85, 1 / 3.0}, {1, 1.00, NAN},        {1, 1.05, NAN},
};

START_TEST(inol)
{
    double value = inol_of(inols[_i].reps, inols[_i].share);
    if (isnan(inols[_i].inol))
        ck_assert(isnan(value));
    else
        ck_assert_double_eq_tol(value, inols[_i].inol, 1e-12);
}
END_TEST

/* Foster 1998, Med Sci Sports Exerc 30(7):1164–1168: monotony = mean / s.d. of daily load, strain = week's load ×
 * monotony. The values are worked out for n − 1 and rest days of 0; with n the monotony would be 1.079568. */
START_TEST(monotony_and_strain)
{
    static const double days[7] = {400, 0, 300, 0, 500, 600, 0};
    double monotony = monotony_of(days);
    ck_assert_double_eq_tol(sample_mean(days, 7), 257.142857, 5e-7);
    ck_assert_double_eq_tol(sample_deviation(days, 7, sample_mean(days, 7)), 257.275098, 5e-7);
    ck_assert_double_eq_tol(monotony, 0.999486, 5e-7);
    ck_assert_double_eq_tol(1800 * monotony, 1799.0748, 5e-5);
}
END_TEST

START_TEST(monotony_and_strain_of_a_week_of_training)
{
    static const double days[7] = {400, 0, 300, 0, 500, 600, 0};
    struct made *made = made_new();
    for (int day = 0; day < 7; day++) {
        char iso[16];
        date_print(iso, day_of("2026-01-05") + day);
        if (days[day] > 0)
            add_sets(made, ODA, "squat", iso, mass(made, 100), 1, (int)days[day] / 100);
    }
    size_t count;
    const struct trend_week *week = trend_make(made->arena, train(made), &count);
    ck_assert_double_eq_tol(week->monotony, 0.999486, 5e-7);
    ck_assert_double_eq_tol(week->strain, 1799.0748, 5e-5);
    made_free(made);
}
END_TEST

/* BMJ Military Health, same table: a week of mean 790 and s.d. 897 has a monotony of 0.88. */
START_TEST(monotony_of_a_published_week)
{
    /* Any week will do, moved to that mean and stretched to that deviation. */
    static const double shape[7] = {3, 0, 0, 2, 0, 1, 1};
    double days[7];
    for (int day = 0; day < 7; day++)
        days[day] = 790 +
                    (shape[day] - sample_mean(shape, 7)) * 897 / sample_deviation(shape, 7, sample_mean(shape, 7));
    ck_assert_double_eq_tol(monotony_of(days), 0.880713, 5e-7);
}
END_TEST

/* Williams et al. 2017, Br J Sports Med 51(3):209–210: EWMA = λ load + (1 − λ) EWMA, λ = 2/(N + 1), N = 7 and 28.
 * Worked out for 28 days of 100, then 7 of 150, starting with the first day's load. */
START_TEST(decaying_averages)
{
    double acute = 100, chronic = 100;
    for (int day = 1; day < 35; day++) {
        acute = ewma_next(acute, day < 28 ? 100 : 150, ACUTE_DAYS);
        chronic = ewma_next(chronic, day < 28 ? 100 : 150, CHRONIC_DAYS);
        if (day == 27)
            ck_assert_double_eq_tol(acute / chronic, 1, 1e-12);
    }
    ck_assert_double_eq_tol(acute, 143.3258056640625, 1e-9);
    ck_assert_double_eq_tol(chronic, 119.67991823355166, 1e-9);
    ck_assert_double_eq_tol(acute / chronic, 1.1975760660561834, 1e-12);
}
END_TEST

START_TEST(decaying_averages_of_five_weeks_of_training)
{
    struct made *made = made_new();
    for (int day = 0; day < 35; day++) {
        char iso[16];
        date_print(iso, day_of("2026-01-05") + day);
        add_sets(made, ODA, "squat", iso, mass(made, day < 28 ? 20 : 30), 1, 5);
    }
    size_t count;
    made->options.lifts = (struct name_choice){(const char *const[]){"squat"}, 1};
    const struct trend_week *weeks = trend_make(made->arena, train(made), &count);
    ck_assert_uint_eq(count, 5);
    ck_assert_double_eq_tol(weeks[4].acute_kg, 143.3258056640625, 1e-9);
    ck_assert_double_eq_tol(weeks[4].chronic_kg, 119.67991823355166, 1e-9);
    ck_assert(isnan(weeks[4].monotony)); /* seven equal days */
    made_free(made);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("volume_sources");
    TCase *cases = tcase_create("published");
    tcase_add_loop_test(cases, volume_load, 0, sizeof volumes / sizeof *volumes);
    tcase_add_loop_test(cases, inol, 0, sizeof inols / sizeof *inols);
    tcase_add_test(cases, monotony_and_strain);
    tcase_add_test(cases, monotony_and_strain_of_a_week_of_training);
    tcase_add_test(cases, monotony_of_a_published_week);
    tcase_add_test(cases, decaying_averages);
    tcase_add_test(cases, decaying_averages_of_five_weeks_of_training);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
