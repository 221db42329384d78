/* Corrections beside a log: what they match, and that a log keeps its lines. */
#include "reading/corrections/corrected_input.h"

#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct arena *arena;
static struct diags *diags;

static void set_up(void)
{
    arena = arena_new();
    diags = diags_new(arena);
}

static void tear_down(void)
{
    arena_free(arena);
}

static struct corrections *corrections_from(const char *rows)
{
    struct input *input = input_from_memory(arena, "kept/corrections.csv", rows, strlen(rows), diags);
    struct corrections *corrections = corrections_of_input(arena, input, diags);
    input_close(input);
    return corrections;
}

/* All that is read of the log, one text. */
static const char *corrected_text(const char *log, struct corrections *corrections, uint32_t *count)
{
    struct file_corrections *file = corrections_of_file(arena, NULL, corrections, "kept/log.csv");
    if (!file)
        return "nothing is said of it";
    struct input *raw = input_from_memory(arena, "kept/log.csv", log, strlen(log), diags);
    struct corrected_input *corrected = corrected_input_new(arena, raw, file, diags);
    const char *text, *all = "";
    for (size_t length; (length = input_read(corrected_input_text(corrected), &text));)
        all = arena_printf(arena, "%s%.*s", all, (int)length, text);
    *count = corrected_input_count(corrected);
    corrected_input_close(corrected);
    input_close(raw);
    return all;
}

#define HEADER "file,line,record,correction,why\n"

static const struct
{
    const char *rows, *log, *text;
    uint32_t count;
} logs[] = {
    {HEADER "log.csv,2,bad,good,\n", "a\nbad\nb\n", "a\ngood\nb\n", 1},
    {HEADER "log.csv,2,bad,good,\n", "bad\nbad\n", "good\ngood\n", 2},
    {HEADER "log.csv,2,bad,good,\n", "a\nbad", "a\ngood", 1},
    {HEADER "log.csv,2,bad,good,\n", "a\r\nbad\r\nb\r\n", "a\ngood\nb\n", 1},
    {HEADER "log.csv,2,bad,-,\n", "a\nbad\nb\n", "a\n\nb\n", 1},
    {HEADER "log.csv,2,bad, - ,\n", "bad\n", "\n", 1},
    {HEADER "log.csv,2,bad,good,\n", "worse bad\nbad \n bad\n", "worse bad\nbad \n bad\n", 0},
    {HEADER "log.csv,2,\"x,\"\"8\n0\"\"\",\"x,80\",\n", "x,\"8\n0\"\ny\n", "x,80\n\ny\n", 1},
    {HEADER "log.csv,2,\"x,\"\"8\n0\"\"\",-,\n", "x,\"8\n0\"\ny\n", "\n\ny\n", 1},
    {HEADER "log.csv,2,\"x,\"\"8\n0\"\"\",\"x,\"\"8\n\"\"\",\n", "x,\"8\n0\"", "x,\"8\n\"", 1},
    {HEADER "log.csv,2,bad,good,\nlog.csv,3,\"bad\nbad\",better,\n", "bad\nbad\nbad\n", "better\n\ngood\n", 2},
    {HEADER "log.csv,2,bad,first,\nlog.csv,2,bad,second,\n", "bad\n", "first\n", 1},
    {"record;correction;file\nbad;good;log.csv\n", "bad\n", "good\n", 1},
    {"Why\tFile\tCorrection\tRecord\n\tlog.csv\tgood\tbad\n", "bad\n", "good\n", 1},
    {HEADER "./log.csv,2,bad,good,\n", "bad\n", "nothing is said of it", 0},
    {HEADER "other.csv,2,bad,good,\n", "bad\n", "nothing is said of it", 0},
    {HEADER "log.csv,2,bad,,why not\n", "bad\n", "nothing is said of it", 0},
};

START_TEST(a_log_is_read_as_corrected)
{
    uint32_t count = 0;
    ck_assert_str_eq(corrected_text(logs[_i].log, corrections_from(logs[_i].rows), &count), logs[_i].text);
    ck_assert_uint_eq(count, logs[_i].count);
    ck_assert_ptr_null(diags_first(diags));
}
END_TEST

START_TEST(long_logs_are_streamed)
{
    size_t lines = 200000, length = 0;
    char *log = malloc(lines * 12 + 1);
    for (size_t i = 0; i < lines; i++)
        length += (size_t)sprintf(log + length, i % 1000 ? "line %zu\n" : "bad\n", i % 97);
    struct corrections *corrections = corrections_from(HEADER
                                                       "log.csv,2,bad,a correction that is longer than its record,\n");
    struct file_corrections *file = corrections_of_file(arena, NULL, corrections, "log.csv");
    struct input *raw = input_from_memory(arena, "log.csv", log, length, diags);
    struct corrected_input *corrected = corrected_input_new(arena, raw, file, diags);
    struct input *text = corrected_input_text(corrected);
    const char *block;
    while (input_read(text, &block))
        ;
    ck_assert_uint_eq(input_lines(text), lines);
    ck_assert_uint_eq(corrected_input_count(corrected), lines / 1000);
    ck_assert_uint_eq(corrections->rows[0].matched, lines / 1000);
    corrected_input_close(corrected);
    input_close(raw);
    free(log);
}
END_TEST

static const struct
{
    const char *rows;
    enum diag_id id;
} refused[] = {
    {HEADER "log.csv,2,,x,\n", DIAG_BAD_CORRECTION},
    {HEADER "log.csv,2,bad,\"a\nb\",\n", DIAG_BAD_CORRECTION},
    {HEADER "log.csv,2,bad,\"a\n", DIAG_BAD_CORRECTION},
    {"Date,Exercise,Weight,Reps\n2026-01-05,squat,100,5\n", DIAG_NOT_CORRECTIONS},
    {"", DIAG_NOT_CORRECTIONS},
};

START_TEST(what_is_no_correction_is_said)
{
    struct corrections *corrections = corrections_from(refused[_i].rows);
    ck_assert_ptr_nonnull(diags_first(diags));
    ck_assert_int_eq(diags_first(diags)->id, refused[_i].id);
    ck_assert(!corrections || !corrections->count);
}
END_TEST

START_TEST(what_matches_nothing_is_said)
{
    uint32_t count;
    struct corrections *corrections = corrections_from(
        HEADER "log.csv,2,bad,good,\nlog.csv,3,gone,there,\nlog.csv,4,open,,\nno/such.csv,2,x,y,\n");
    corrected_text("bad\n", corrections, &count);
    corrections_say_unmatched(corrections, diags);
    const struct diag *first = diags_first(diags), *second = first ? first->next : NULL;
    ck_assert(first && second && !second->next);
    ck_assert_uint_eq(first->at.line, 3);
    ck_assert_uint_eq(second->at.line, 5);
}
END_TEST

static const struct
{
    const char *folder, *log, *name;
} names[] = {
    {".", "log.csv", "log.csv"},      {".", "logs/log.csv", "logs/log.csv"}, {".", "./log.csv", "log.csv"},
    {".", "../log.csv", "log.csv"},   {".", "/a/log.csv", "log.csv"},        {"/a", "/a/b/log.csv", "b/log.csv"},
    {"/a", "/ab/log.csv", "log.csv"}, {"logs", "logs/log.csv", "log.csv"},   {"logs", "other/log.csv", "log.csv"},
};

START_TEST(a_log_is_named_from_the_corrections_folder)
{
    ck_assert_str_eq(corrections_file_name(arena, names[_i].folder, names[_i].log), names[_i].name);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("corrections");
    TCase *cases = tcase_create("corrections");
    tcase_add_checked_fixture(cases, set_up, tear_down);
    tcase_add_loop_test(cases, a_log_is_read_as_corrected, 0, sizeof logs / sizeof *logs);
    tcase_add_test(cases, long_logs_are_streamed);
    tcase_add_loop_test(cases, what_is_no_correction_is_said, 0, sizeof refused / sizeof *refused);
    tcase_add_test(cases, what_matches_nothing_is_said);
    tcase_add_loop_test(cases, a_log_is_named_from_the_corrections_folder, 0, sizeof names / sizeof *names);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
