/* Repetitions and kinds of set, as the trade writes them. */
#include "reading/csv/cells.h"

#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* "2x5 1x4+": the groups as read. */
static const char *shown(const struct reps_cell *cell)
{
    static char text[512];
    size_t used = 0;
    text[0] = 0;
    for (size_t i = 0; i < cell->count && used < sizeof text - 24; i++)
        used += (size_t)snprintf(text + used, sizeof text - used, "%s%dx%d%s", i ? " " : "", cell->groups[i].sets,
                                 cell->groups[i].reps, cell->groups[i].to_failure ? "+" : "");
    return text;
}

static const struct
{
    const char *text;
    char decimal;
    const char *groups; /* NULL: refused */
    bool sets_said;
} reps[] = {
    {"", '.', "", false},
    {"5", '.', "1x5", false},
    {" 5 ", '.', "1x5", false},
    {"5.0", '.', "1x5", false},
    {"5.00", ',', "1x5", false},
    {"5,0", ',', "1x5", false},
    {"5,0", '.', "1x5 1x0", true}, /* where the comma is no decimal sign: five, then a miss */
    {"0", '.', "1x0", false},
    {"10+", '.', "1x10+", false},
    {"5,5,4", '.', "2x5 1x4", true},
    {"5, 5, 4", '.', "2x5 1x4", true},
    {"5/5/4", '.', "2x5 1x4", true},
    {"5 5 4", '.', "2x5 1x4", true},
    {"5;5;4", '.', "2x5 1x4", true},
    {"3,2,0", '.', "1x3 1x2 1x0", true},
    {"5,5,4", ',', "2x5 1x4", true},
    {"3x5", '.', "3x5", true},
    {"3 x 5", '.', "3x5", true},
    {"3X5", '.', "3x5", true},
    {"3\xC3\x97"
     "5",
     '.', "3x5", true},
    {"3x5, 2x4", '.', "3x5 2x4", true},
    {"3x10+", '.', "2x10 1x10+", true}, /* to failure on the last set only */
    {"1x10+", '.', "1x10+", true},
    {"AMRAP 10", '.', "1x10+", false},
    {"10 amrap", '.', "1x10+", false},
    {"3 sets of 5", '.', "3x5", true},
    {"2 sets x 8 reps", '.', "2x8", true},
    {"5 reps", '.', "1x5", false},
    {"3 sets", '.', NULL, false},
    {"1000", '.', "1x1000", false},
    {"8-10", '.', NULL, false},
    {"5.5", '.', NULL, false},
    {"five", '.', NULL, false},
    {"-5", '.', NULL, false},
    {"3x", '.', NULL, false},
    {"x5", '.', NULL, false},
    {"0x5", '.', NULL, false},
    {"3x5x100", '.', NULL, false},
    {"5,", '.', NULL, false},
    {"5,,4", '.', NULL, false},
    {"1001", '.', NULL, false},
    {"101x5", '.', NULL, false},
    {"99999999999999999999", '.', NULL, false},
};

START_TEST(test_reps)
{
    struct reps_cell cell;
    bool good = reps_read(reps[_i].text, reps[_i].decimal, &cell);
    ck_assert_msg(good == (reps[_i].groups != NULL), "'%s' was %s", reps[_i].text, good ? "read" : "refused");
    if (!good)
        return;
    ck_assert_str_eq(shown(&cell), reps[_i].groups);
    ck_assert_msg(cell.sets_said == reps[_i].sets_said, "'%s'", reps[_i].text);
}
END_TEST

/* More groups than a cell has room for are refused, not cut. */
START_TEST(test_many_groups)
{
    char text[400] = "";
    for (int i = 0; i < 64; i++)
        strcat(text, i % 2 ? "5," : "4,");
    strcat(text, "4");
    struct reps_cell cell;
    ck_assert(!reps_read(text, '.', &cell));
    text[strlen(text) - 2] = 0;
    ck_assert(reps_read(text, '.', &cell));
    ck_assert_uint_eq(cell.count, 64);
}
END_TEST

static const struct
{
    const char *text;
    enum set_kind kind;
    bool to_failure, drop, known;
} kinds[] = {
    {"", SET_WORK, false, false, true},
    {"Work", SET_WORK, false, false, true},
    {"normal", SET_WORK, false, false, true},
    {"Warm-up", SET_WARM_UP, false, false, true},
    {"WARM_UP", SET_WARM_UP, false, false, true},
    {"warmup", SET_WARM_UP, false, false, true},
    {"w-up", SET_WARM_UP, false, false, true},
    {"W", SET_WARM_UP, false, false, true},
    {"failure", SET_WORK, true, false, true},
    {"F", SET_WORK, true, false, true},
    {"to failure", SET_WORK, true, false, true},
    {"AMRAP", SET_WORK, true, false, true},
    {"Drop set", SET_WORK, false, true, true},
    {"d", SET_WORK, false, true, true},
    {"back-off", SET_WORK, false, false, true},
    {"top", SET_WORK, false, false, true},
    {"cluster", SET_WORK, false, false, true},
    {"rest-pause", SET_WORK, false, false, true},
    {"left", SET_WORK, false, false, true},
    {"right", SET_WORK, false, false, true},
    {"miss", SET_MISSED, false, false, true},
    {"Missed", SET_MISSED, false, false, true},
    {"no lift", SET_MISSED, false, false, true},
    {"fail", SET_MISSED, false, false, true},
    {"failed", SET_WORK, false, false,
     false}, /* to failure or missed: not settled, so an unknown word, which is work */
    {"myo-reps", SET_WORK, false, false, false},
    {"a word longer than any kind of set that there is", SET_WORK, false, false, false},
};

START_TEST(test_kinds)
{
    struct kind_cell cell = kind_read(kinds[_i].text);
    ck_assert_msg(cell.kind == kinds[_i].kind && cell.to_failure == kinds[_i].to_failure &&
                      cell.drop == kinds[_i].drop && cell.known == kinds[_i].known,
                  "'%s' is %d %d %d %d", kinds[_i].text, (int)cell.kind, cell.to_failure, cell.drop, cell.known);
}
END_TEST

#define COUNT(list) ((int)(sizeof list / sizeof *list))

int main(void)
{
    Suite *suite = suite_create("cells");
    TCase *cases = tcase_create("cells");
    tcase_add_loop_test(cases, test_reps, 0, COUNT(reps));
    tcase_add_test(cases, test_many_groups);
    tcase_add_loop_test(cases, test_kinds, 0, COUNT(kinds));
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
