/* Every line of tests/cases/notation reads as its README says: the whole way from bytes to effective loads. */
#include "analysis/training.h"
#include "base/number.h"
#include "reading/gym/gym_file.h"
#include "reading/log_reader.h"
#include "reading/same_history.h"

#include <check.h>
#include <csv.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define LOAD_TOLERANCE_KG 0.01
#define CELLS 16

struct rows /* of an expectation */
{
    struct arena *arena;
    LIST(char **) list;
    char **row;
    size_t column;
};

static struct arena *arena;
static struct diags *diags;
static const struct training *training;
static const struct log *training_log;

static const char *case_file(const char *name)
{
    const char *top = getenv("TOP");
    return arena_printf(arena, "%s/tests/cases/notation/%s", top ? top : ".", name);
}

static void on_cell(void *text, size_t length, void *context)
{
    struct rows *rows = context;
    if (!rows->row)
        rows->row = ARENA_ARRAY(rows->arena, char *, CELLS);
    if (rows->column < CELLS)
        rows->row[rows->column++] = arena_text(rows->arena, text, length);
}

static void on_row(int end, void *context)
{
    struct rows *rows = context;
    (void)end;
    if (rows->row)
        *LIST_ADD(rows->arena, &rows->list) = rows->row;
    rows->row = NULL;
    rows->column = 0;
}

static struct rows read_expected(const char *name)
{
    struct rows rows = {.arena = arena};
    struct csv_parser parser;
    char bytes[65536];
    FILE *file = fopen(case_file(name), "rb");
    ck_assert_ptr_nonnull(file);
    size_t length = fread(bytes, 1, sizeof bytes, file);
    fclose(file);
    csv_init(&parser, 0);
    csv_parse(&parser, bytes, length, on_cell, on_row, &rows);
    csv_fini(&parser, on_cell, on_row, &rows);
    csv_free(&parser);
    ck_assert_uint_gt(rows.list.count, 10);
    return rows;
}

static void read_case(const char *log_name)
{
    arena = arena_new();
    diags = diags_new(arena);
    const struct gym *gym = gym_read(arena, case_file("gym.ini"), diags);
    ck_assert_ptr_nonnull(gym);
    ck_assert_uint_eq(diags_total(diags, SEVERITY_ERROR), 0);
    struct reading_options options = {.dates = DATES_UNSAID};
    struct reading *reading = reading_new(arena, gym, diags, &options);
    ck_assert(read_log(reading, case_file(log_name)));
    reading_finish(reading);
    training_log = reading->log;
    reading_free(reading);
    struct training_options training_options = {.from = NO_DAY, .to = NO_DAY, .today = NO_DAY};
    training = training_make(arena, training_log, gym, &training_options);
}

static void end(void)
{
    arena_free(arena);
}

static void begin_csv(void)
{
    read_case("log.csv");
}

static void begin_text(void)
{
    read_case("log.txt");
}

static const struct diag *refusal_at(uint32_t line)
{
    for (const struct diag *diag = diags_first(diags); diag; diag = diag->next)
        if (diag->at.line == line && diag_severity(diag->id) == SEVERITY_ERROR)
            return diag;
    return NULL;
}

/* The n-th set of a line, from 0; NULL: none. */
static const struct evaluated_set *set_of_line(uint32_t line, size_t n)
{
    for (size_t i = 0; i < training->count; i++)
        if (training->sets[i].set->line == line && n-- == 0)
            return &training->sets[i];
    return NULL;
}

static void expect_load(const char *expected, double got, uint32_t line, const char *what)
{
    double value;
    if (!strcmp(expected, "*"))
        return;
    ck_assert(number_whole(expected, '.', &value));
    ck_assert_msg(fabs(value - got) <= LOAD_TOLERANCE_KG, "line %u: %s is %.6f, expected %s", line, what, got,
                  expected);
}

static void expect_assumed(const char *expected, unsigned got, uint32_t line)
{
    char words[192];
    if (!strcmp(expected, "*"))
        return;
    assumptions_print(words, got & ~(unsigned)(ASSUMED_UNIT | ASSUMED_DATE_ORDER));
    ck_assert_msg(!strcmp(words, expected), "line %u: assumed '%s', expected '%s'", line, words, expected);
}

static uint32_t whole(const char *text)
{
    double value;
    ck_assert(number_whole(text, '.', &value));
    return (uint32_t)value;
}

START_TEST(every_line_of_the_export)
{
    struct rows rows = read_expected("expected.csv");
    for (size_t i = 1; i < rows.list.count; i++) {
        char **row = rows.list.items[i];
        uint32_t line = whole(row[0]);
        const struct evaluated_set *evaluated = set_of_line(line, 0);
        if (!strcmp(row[1], "refused")) {
            ck_assert_msg(!evaluated, "line %u was read", line);
            ck_assert_msg(refusal_at(line), "line %u is refused without a word", line);
            ck_assert_uint_gt(refusal_at(line)->at.column, 0);
            ck_assert_ptr_nonnull(refusal_at(line)->hint);
            continue;
        }
        ck_assert_msg(evaluated, "line %u was not read: %s", line, refusal_at(line) ? refusal_at(line)->message : "");
        expect_load(row[2], evaluated->effect->straight_kg, line, "straight");
        expect_load(row[3], evaluated->effect->bottom_kg, line, "bottom");
        expect_load(row[4], evaluated->effect->top_kg, line, "top");
        expect_assumed(row[5], evaluated->assumed & ~(unsigned)ASSUMED_ONE_REP_MAX, line);
        ck_assert_msg((*evaluated->set->ar->ar != 0) == !strcmp(row[6], "some"), "line %u: ar '%s'", line,
                      evaluated->set->ar->ar);
    }
    ck_assert_uint_eq(training->count, 86); /* lines 2 to 87 */
}
END_TEST

START_TEST(every_line_of_the_text_log)
{
    struct rows rows = read_expected("expected-text.csv");
    size_t sets = 0, of_line = 0;
    uint32_t before = 0;
    for (size_t i = 1; i < rows.list.count; i++) {
        char **row = rows.list.items[i];
        uint32_t line = whole(row[0]);
        if (!strcmp(row[7], "refused")) {
            ck_assert_msg(refusal_at(line), "line %u was not refused", line);
            ck_assert_msg(!set_of_line(line, 0), "line %u was read", line);
            continue;
        }
        of_line = line == before ? of_line + 1 : 0;
        before = line;
        sets++;
        const struct evaluated_set *evaluated = set_of_line(line, of_line);
        ck_assert_msg(evaluated, "line %u, set %zu was not read: %s", line, of_line + 1,
                      refusal_at(line) ? refusal_at(line)->message : "");
        ck_assert_str_eq(evaluated->lift, row[1]);
        ck_assert_uint_eq(evaluated->set->reps, whole(row[3]));
        expect_load(row[4], evaluated->effect->straight_kg, line, "straight");
        expect_load(row[5], evaluated->effect->top_kg, line, "top");
        if (*row[6])
            expect_load(row[6], evaluated->set->rpe, line, "rpe");
        else
            ck_assert_msg(isnan(evaluated->set->rpe), "line %u has an rpe", line);
        ck_assert_str_eq(set_kind_name((enum set_kind)evaluated->set->kind), row[7]);
    }
    ck_assert_uint_eq(training->count, sets);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("notation cases");
    TCase *csv = tcase_create("export"), *text = tcase_create("text log");
    tcase_add_checked_fixture(csv, begin_csv, end);
    tcase_add_test(csv, every_line_of_the_export);
    tcase_add_checked_fixture(text, begin_text, end);
    tcase_add_test(text, every_line_of_the_text_log);
    suite_add_tcase(suite, csv);
    suite_add_tcase(suite, text);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
