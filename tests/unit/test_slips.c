#include "analysis/slips.h"

#include "unit/made_log.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static struct made *made;

static void setup(void)
{
    made = made_new();
}

static void teardown(void)
{
    made_free(made);
}

#define MOST_WEEKS 9

/* One session a week, three sets; found: the weights that are asked about, with what may have been meant. */
struct weeks
{
    const char *what;
    double kg[MOST_WEEKS];
    int reps[MOST_WEEKS]; /* 0: five */
    const char *found;
};

static const struct weeks clean[] = {
    {"waves of three weeks", {80, 84, 88, 81, 85, 89, 82, 86, 90}, {0}, ""},
    {"waves of steep steps", {75, 85, 95, 75, 85, 95, 75, 85, 95}, {0}, ""},
    {"a light week", {80, 84, 88, 60, 81, 85, 89, 60, 82}, {0}, ""},
    {"a beginner's rise", {40, 45, 50, 55, 60, 65, 70, 72.5, 75}, {0}, ""},
    {"heavy singles after fives", {100, 100, 100, 100, 140, 100, 100, 100, 100}, {0, 0, 0, 0, 1}, ""},
    {"a heavy single after a triple and eights of one weight",
     {100, 100, 100, 100, 140, 100, 100, 100, 100},
     {3, 8, 8, 8, 1, 3, 3, 3, 3},
     ""},
    {"the newest week 25 % above", {80, 80, 80, 80, 80, 80, 80, 80, 100}, {0}, ""},
    {"a wave with fewer repetitions", {100, 105, 110, 100, 105, 110, 120, 125, 130}, {0, 0, 0, 0, 0, 0, 3, 3, 3}, ""},
    {"three sessions are none to compare with", {100, 210, 100}, {0}, ""},
};

static const struct weeks planted[] = {
    {"210 for 120", {110, 115, 120, 110, 210, 120, 110, 115, 120}, {0}, "210? 120; "},
    {"a digit left out", {110, 115, 120, 110, 12, 120, 110, 115, 120}, {0}, "12? 120; "},
    {"a point lost", {112.5, 117.5, 122.5, 110, 1225, 120, 110, 115, 120}, {0}, "1225? 122.5; "},
    {"a digit beside in the newest week", {110, 115, 120, 110, 115, 120, 110, 115, 220}, {0}, "220? 120; "},
    {"the one meant follows one that is nearly alike",
     {115, 115, 119.5, 120, 210, 115, 115, 119.5, 119.5},
     {0},
     "210? 120; "},
    {"nothing like it", {60, 60, 60, 60, 105, 60, 60, 60, 60}, {0}, "105? nan; "},
};

static const char *found_in(const struct training *training)
{
    const char *text = "";
    const struct set *before = NULL;
    for (size_t i = 0; i < training->slip_count; i++) {
        const struct slip *slip = &training->slips[i];
        if (!before || before->day != slip->set->day)
            text = arena_printf(made->arena, "%s%.10g? %.10g; ", text, slip->set->weight->kg, slip->likely_kg);
        before = slip->set;
    }
    return text;
}

static const char *found_in_weeks(const struct weeks *weeks)
{
    for (int week = 0; week < MOST_WEEKS; week++) {
        char day[16];
        date_print(day, day_of("2026-01-05") + 7 * week);
        if (weeks->kg[week] > 0)
            add_sets(made, ODA, "squat", day, mass(made, weeks->kg[week]), 3,
                     weeks->reps[week] ? weeks->reps[week] : 5);
    }
    return found_in(train(made));
}

START_TEST(clean_weeks_are_not_asked_about)
{
    const char *found = found_in_weeks(&clean[_i]);
    ck_assert_msg(!*found, "%s: %s", clean[_i].what, found);
}
END_TEST

START_TEST(planted_weeks_are)
{
    const char *found = found_in_weeks(&planted[_i]);
    ck_assert_msg(!strcmp(found, planted[_i].found), "%s: %s", planted[_i].what, found);
    const struct training *training = train(made);
    for (size_t i = 0; i < training->count; i++)
        ck_assert_int_eq(!is_believed(&training->sets[i]), training->sets[i].set->day == training->slips->set->day);
}
END_TEST

static const struct
{
    const char *what;
    double kg[6]; /* of the sets of a day, five repetitions each */
    const char *found;
} days[] = {
    {"five alike", {100, 100, 100, 100, 100}, ""},
    {"one between", {100, 100, 110, 100, 100}, "110? 100; "},
    {"one between, lighter", {100, 80, 100, 100}, "80? nan; "},
    {"two alike are too few", {100, 110, 100}, ""},
    {"a top set at the end", {100, 100, 100, 110}, ""},
    {"a lighter one at the end", {100, 100, 100, 85}, ""},
    {"one character at the end", {100, 100, 100, 150}, "150? 100; "},
    {"what leads up", {60, 100, 100, 100}, ""},
    {"a pyramid", {100, 110, 120, 110, 100}, ""},
};

START_TEST(sets_of_a_day)
{
    for (int i = 0; i < 6; i++)
        if (days[_i].kg[i] > 0)
            add_sets(made, ODA, "squat", "2026-01-05", mass(made, days[_i].kg[i]), 1, 5);
    const char *found = found_in(train(made));
    ck_assert_msg(!strcmp(found, days[_i].found), "%s: %s", days[_i].what, found);
}
END_TEST

START_TEST(off_means_that_nothing_is_left_out)
{
    struct finding_limit off = {"slip", NAN, true};
    made->gym->limits = &off;
    made->gym->limit_count = 1;
    ck_assert_str_eq(found_in_weeks(&planted[0]), "");
}
END_TEST

static const struct
{
    const char *a, *b;
    bool is;
} slips[] = {
    {"120", "210", true},  {"120", "12", true},   {"12", "120", true},   {"112.5", "1125", true}, {"100", "110", true},
    {"100", "100", false}, {"100", "211", false}, {"120", "201", false}, {"100", "1", false},     {"", "1", true},
};

START_TEST(one_slip_of_the_finger)
{
    ck_assert_int_eq(is_one_slip(slips[_i].a, slips[_i].b), slips[_i].is);
    ck_assert_int_eq(is_one_slip(slips[_i].b, slips[_i].a), slips[_i].is);
}
END_TEST

#define COUNT(array) (sizeof(array) / sizeof *(array))

int main(void)
{
    Suite *suite = suite_create("slips");
    TCase *cases = tcase_create("slips");
    tcase_add_checked_fixture(cases, setup, teardown);
    tcase_add_loop_test(cases, clean_weeks_are_not_asked_about, 0, COUNT(clean));
    tcase_add_loop_test(cases, planted_weeks_are, 0, COUNT(planted));
    tcase_add_loop_test(cases, sets_of_a_day, 0, COUNT(days));
    tcase_add_test(cases, off_means_that_nothing_is_left_out);
    tcase_add_loop_test(cases, one_slip_of_the_finger, 0, COUNT(slips));
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
