#include "writing/table.h"

#include "writing/escape.h"

#include <check.h>
#include <jansson.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

static struct arena *arena;

static void set_up(void)
{
    arena = arena_new();
}

static void tear_down(void)
{
    arena_free(arena);
}

struct row
{
    const char *lift, *measure;
    day_number day;
    double load_kg, share;
    long reps;
};

static void get_lift(const void *row, struct cell *cell)
{
    cell_text(cell, ((const struct row *)row)->lift);
}

static void get_day(const void *row, struct cell *cell)
{
    cell_day(cell, ((const struct row *)row)->day);
}

static void get_week(const void *row, struct cell *cell)
{
    if (((const struct row *)row)->day != NO_DAY)
        cell_week(cell, week_of(((const struct row *)row)->day));
}

static void get_load(const void *row, struct cell *cell)
{
    cell_number(cell, ((const struct row *)row)->load_kg);
}

static void get_share(const void *row, struct cell *cell)
{
    cell_number(cell, ((const struct row *)row)->share);
}

static void get_reps(const void *row, struct cell *cell)
{
    cell_count(cell, ((const struct row *)row)->reps);
}

static const struct column columns[] = {
    {"lift", "lift", QUANTITY_PLAIN, 0, get_lift}, {"date", "date", QUANTITY_PLAIN, 0, get_day},
    {"week", NULL, QUANTITY_PLAIN, 0, get_week},   {"top_u_kg", "top\nkg", QUANTITY_LOAD, 1, get_load},
    {"share", "AR", QUANTITY_SHARE, 1, get_share}, {"reps", "reps", QUANTITY_PLAIN, 0, get_reps},
};

static const struct row rows[] = {
    {"squat", NULL, 20465, 128.25, 0.2, 2}, /* 2026-01-12 */
    {"bench, \"close\" grip", NULL, NO_DAY, NAN, -0.0, 10},
    {"=1+1\nx", NULL, 20466, 1.0 / 3, NAN, 0},
};

static const char *written(struct table_style style, const struct column *list, size_t list_count,
                           const struct row *row, size_t count)
{
    struct output *output = output_to_memory(arena);
    struct table_writer *writer = table_open(arena, output, list, list_count, &style);
    for (size_t i = 0; i < count; i++)
        table_row(writer, &row[i]);
    table_close(writer);
    return output_memory(output, NULL);
}

static const struct
{
    struct table_style style;
    const char *expected;
} whole[] = {
    {{.format = FORMAT_CSV},
     "lift,date,week,top_u_kg,share,reps\n"
     "squat,2026-01-12,2026-W03,128.25,0.2,2\n"
     "\"bench, \"\"close\"\" grip\",,,,0,10\n"
     "\"=1+1\nx\",2026-01-13,2026-W03,0.333333333,,0\n"},
    {{.format = FORMAT_CSV, .unit = UNIT_LB, .spreadsheet_safe = true},
     "lift,date,week,top_u_lb,share,reps\n"
     "squat,2026-01-12,2026-W03,282.742851,0.2,2\n" /* 128.25 / 0.45359237, (1/3) / 0.45359237 */
     "\"bench, \"\"close\"\" grip\",,,,0,10\n"
     "\"'=1+1\nx\",2026-01-13,2026-W03,0.734874207,,0\n"},
    {{.format = FORMAT_JSON},
     "{\"lift\":\"squat\",\"date\":\"2026-01-12\",\"week\":\"2026-W03\",\"top_u_kg\":128.25,\"share\":0.2,\"reps\":2}\n"
     "{\"lift\":\"bench, \\\"close\\\" grip\",\"date\":null,\"week\":null,\"top_u_kg\":null,\"share\":0,\"reps\":10}\n"
     "{\"lift\":\"=1+1\\nx\",\"date\":\"2026-01-13\",\"week\":\"2026-W03\",\"top_u_kg\":0.333333333,"
     "\"share\":null,\"reps\":0}\n"},
};

START_TEST(formats)
{
    ck_assert_str_eq(written(whole[_i].style, columns, 6, rows, 3), whole[_i].expected);
}
END_TEST

START_TEST(text_is_aligned)
{
    ck_assert_str_eq(written((struct table_style){.format = FORMAT_TEXT}, columns, 6, rows, 3),
                     "                                   top\n"
                     "lift                 date           kg     AR  reps\n"
                     "───────────────────  ──────────  ─────  ─────  ────\n"
                     "squat                2026-01-12  128.2  20.0%     2\n"
                     "bench, \"close\" grip      ·         ·     0.0%    10\n"
                     "=1+1\\x0Ax            2026-01-13    0.3    ·       0\n");
}
END_TEST

START_TEST(text_in_pounds)
{
    ck_assert_str_eq(written((struct table_style){.format = FORMAT_TEXT, .unit = UNIT_LB}, columns + 3, 1, rows, 1),
                     "  top\n"
                     "   lb\n"
                     "─────\n"
                     "282.7\n");
}
END_TEST

START_TEST(wide_and_combining_characters)
{
    static const struct row wide[] = {
        {.lift = "力力", .reps = 1},
        {.lift = "e\xCC\x81"
                 "a",
         .reps = 22},
        {.lift = "abcd", .reps = 3},
    };
    const struct column two[] = {columns[0], columns[5]};
    ck_assert_str_eq(written((struct table_style){.format = FORMAT_TEXT}, two, 2, wide, 3), "lift  reps\n"
                                                                                            "────  ────\n"
                                                                                            "力力     1\n"
                                                                                            "e\xCC\x81"
                                                                                            "a      22\n"
                                                                                            "abcd     3\n");
}
END_TEST

START_TEST(widest_words_are_cut)
{
    static const struct row one[] = {{.lift = "a very long name of a lift indeed", .reps = 5}};
    const struct column two[] = {columns[0], columns[5]};
    ck_assert_str_eq(written((struct table_style){.format = FORMAT_TEXT, .width = 20}, two, 2, one, 1),
                     "lift            reps\n"
                     "──────────────  ────\n"
                     "a very long n…     5\n");
    /* Words keep eight columns at least, and numbers are never cut. */
    ck_assert_str_eq(written((struct table_style){.format = FORMAT_TEXT, .width = 3}, two, 2, one, 1),
                     "lift      reps\n"
                     "────────  ────\n"
                     "a very …     5\n");
}
END_TEST

START_TEST(no_rows)
{
    ck_assert_str_eq(written((struct table_style){.format = FORMAT_CSV}, columns, 2, NULL, 0), "lift,date\n");
    ck_assert_str_eq(written((struct table_style){.format = FORMAT_JSON}, columns, 2, NULL, 0), "");
    ck_assert_str_eq(written((struct table_style){.format = FORMAT_TEXT}, columns, 2, NULL, 0),
                     "lift  date\n────  ────\n");
}
END_TEST

static void get_measure(const void *row, struct cell *cell)
{
    cell_text(cell, ((const struct row *)row)->measure);
    cell->quantity = QUANTITY_LOAD;
}

static void get_slope(const void *row, struct cell *cell)
{
    cell_number(cell, ((const struct row *)row)->load_kg);
    cell->quantity = strstr(((const struct row *)row)->measure, "_kg") ? QUANTITY_LOAD : QUANTITY_SHARE;
    cell->decimals = 2;
}

/* A column whose rows are measured in different things: the getter says in which. */
START_TEST(quantity_of_a_cell)
{
    static const struct column slopes[] = {{"measure", "measure", QUANTITY_PLAIN, 0, get_measure},
                                           {"slope", "slope", QUANTITY_PLAIN, 0, get_slope}};
    static const struct row measures[] = {
        {.measure = "peak_top_kg", .load_kg = 45.359237},
        {.measure = "intensity_mean", .load_kg = 0.015},
    };
    ck_assert_str_eq(written((struct table_style){.format = FORMAT_CSV, .unit = UNIT_LB}, slopes, 2, measures, 2),
                     "measure,slope\npeak_top_lb,100\nintensity_mean,0.015\n");
    ck_assert_str_eq(written((struct table_style){.format = FORMAT_TEXT}, slopes, 2, measures, 2),
                     "measure         slope\n"
                     "──────────────  ─────\n"
                     "peak_top_kg     45.36\n"
                     "intensity_mean  1.50%\n");
}
END_TEST

/* --- rows of which much is as in the row before ------------------------------------------------------------------------------- */

static uint64_t seed = 2026;

static size_t chance(size_t below)
{
    seed = seed * 6364136223846793005u + 1442695040888963407u;
    return (size_t)(seed >> 33) % below;
}

#define FIELDS 7

struct made /* as a getter hands it out, and as it must be written */
{
    const char *name, *text;
    double load_kg, number;
    long count;
    day_number day;
};

static void get_made(const void *row, struct cell *cell)
{
    const struct made *made = row;
    cell_name(cell++, made->name);
    cell_text(cell++, made->text);
    cell_number(cell++, made->load_kg);
    cell_number(cell++, made->number);
    cell_count(cell++, made->count);
    cell_day(cell++, made->day);
    cell_week(cell, made->day == NO_DAY ? 0 : week_of(made->day));
}

static const struct column made_columns[FIELDS] = {
    {"name", NULL, QUANTITY_PLAIN, 0, get_made},   {"text", NULL, QUANTITY_PLAIN, 0, get_made},
    {"load_kg", NULL, QUANTITY_LOAD, 0, get_made}, {"number", NULL, QUANTITY_PLAIN, 0, get_made},
    {"count", NULL, QUANTITY_PLAIN, 0, get_made},  {"day", NULL, QUANTITY_PLAIN, 0, get_made},
    {"week", NULL, QUANTITY_PLAIN, 0, get_made},
};

static void expect_text(struct output *expected, const char *text, bool json, bool safe)
{
    if (json && !(text && *text))
        output_text(expected, "null");
    else if (json)
        escape_json(expected, text);
    else
        escape_csv(expected, text, safe);
}

static void expect_number(struct output *expected, double number, bool json)
{
    if (isfinite(number))
        output_printf(expected, "%.9g", number == 0 ? 0 : number);
    else
        output_text(expected, json ? "null" : "");
}

/* Each cell by itself, as printf has it. */
static void expect_row(struct output *expected, const struct made *made, const struct table_style *style)
{
    static const char *const before_json[FIELDS] = {
        "{\"name\":", ",\"text\":", NULL, ",\"number\":", ",\"count\":", ",\"day\":", ",\"week\":"};
    bool json = style->format == FORMAT_JSON;
    const char *quote = json ? "\"" : "";
    char date[16];
    for (int i = 0; i < FIELDS; i++) {
        if (json)
            output_printf(expected, "%s",
                          before_json[i]           ? before_json[i]
                          : style->unit == UNIT_LB ? ",\"load_lb\":"
                                                   : ",\"load_kg\":");
        else
            output_text(expected, i ? "," : "");
        switch (i) {
        case 0:
            expect_text(expected, made->name, json, style->spreadsheet_safe);
            break;
        case 1:
            expect_text(expected, made->text, json, style->spreadsheet_safe);
            break;
        case 2:
            expect_number(expected, kg_to(made->load_kg, style->unit), json);
            break;
        case 3:
            expect_number(expected, made->number, json);
            break;
        case 4:
            output_printf(expected, "%ld", made->count);
            break;
        case 5:
            if (made->day == NO_DAY)
                output_text(expected, json ? "null" : "");
            else if (date_print(date, made->day))
                output_printf(expected, "%s%s%s", quote, date, quote);
            break;
        default:
            week_print(date, made->day == NO_DAY ? 0 : week_of(made->day));
            output_printf(expected, "%s%s%s", quote, date, quote);
        }
    }
    output_text(expected, json ? "}\n" : "\n");
}

static void change(struct made *made, char *text, const char *const *texts, size_t text_count)
{
    static const double numbers[] = {0, -0.0, 1, 100, 102.5, 1.0 / 3, 2e10, 1e-7};
    if (!chance(3))
        made->name = texts[chance(text_count)];
    if (!chance(3)) /* another text at the same address */
        strcpy(text, texts[1 + chance(text_count - 1)]);
    made->text = chance(5) ? text : "";
    if (!chance(3))
        made->load_kg = numbers[chance(8)];
    if (!chance(3))
        made->number = chance(4) ? numbers[chance(8)] : NAN;
    if (!chance(3))
        made->count = (long)chance(1000) - 500;
    if (!chance(3))
        made->day = chance(4) ? (day_number)chance(20000) : NO_DAY;
}

#define ROWS_FILE "test_table.rows"

static const char *whole_file(const char *path)
{
    FILE *file = fopen(path, "rb");
    ck_assert_ptr_nonnull(file);
    char *text = arena_alloc(arena, (size_t)1 << 22);
    ck_assert_uint_lt(fread(text, 1, ((size_t)1 << 22) - 1, file), ((size_t)1 << 22) - 1);
    fclose(file);
    unlink(path);
    return text;
}

static const struct table_style made_styles[] = {
    {.format = FORMAT_CSV},
    {.format = FORMAT_CSV, .unit = UNIT_LB, .spreadsheet_safe = true},
    {.format = FORMAT_JSON},
    {.format = FORMAT_JSON, .unit = UNIT_LB},
};

START_TEST(rows_do_not_depend_on_those_before)
{
    static char long_text[40001], longest_kept[160];
    const char *const texts[] = {NULL,
                                 "squat",
                                 "bench, close",
                                 "say \"up\"",
                                 "=1+1",
                                 " blank",
                                 "a line\nand another",
                                 "k\xC3\xB6rper",
                                 "a name that is longer than the thirty-two bytes that are copied at once",
                                 longest_kept,
                                 long_text};
    const struct table_style *style = &made_styles[_i];
    struct output *expected = output_to_memory(arena), *output = output_to_memory(arena),
                  *file = output_open(arena, ROWS_FILE);
    struct table_writer *writer = table_open(arena, output, made_columns, FIELDS, style),
                        *of_file = table_open(arena, file, made_columns, FIELDS, style);
    struct made made = {.load_kg = 60};
    char text[sizeof long_text];
    memset(long_text, '"', sizeof long_text - 1);
    memset(longest_kept, 'x', 78);
    output_text(expected, output_memory(output, NULL));
    for (int i = 0; i < 3000; i++) {
        change(&made, text, texts, chance(100) ? 10 : 11);
        table_row(i % 700 < 350 ? writer : table_part(arena, output, writer), &made);
        table_row(of_file, &made);
        expect_row(expected, &made, style);
    }
    ck_assert(output_commit(file)); /* it was written out many times on the way, and the other was moved */
    ck_assert_str_eq(output_memory(output, NULL), output_memory(expected, NULL));
    ck_assert_str_eq(whole_file(ROWS_FILE), output_memory(expected, NULL));
}
END_TEST

static const struct
{
    const char *name, *renamed;
} names[] = {
    {"bottom_u_kg", "bottom_u_lb"},
    {"over_kg_sum", "over_lb_sum"},
    {"mean load, kg", "mean load, lb"},
    {"kg", "lb"},
    {"kgs", "kgs"},
    {"top\nkg per week", "top\nlb per week"},
    {"backkg", "backkg"},
    {"", ""},
};

START_TEST(units_in_names)
{
    ck_assert_str_eq(name_in_unit(arena, names[_i].name, UNIT_LB), names[_i].renamed);
    ck_assert_str_eq(name_in_unit(arena, names[_i].name, UNIT_KG), names[_i].name);
}
END_TEST

/* Every JSON line is read back by another's parser. */
START_TEST(json_reads_back)
{
    char *text = arena_copy(arena, written((struct table_style){.format = FORMAT_JSON}, columns, 6, rows, 3));
    size_t lines = 0;
    for (char *line = text, *end; (end = strchr(line, '\n')); line = end + 1, lines++) {
        *end = 0;
        json_t *object = json_loads(line, JSON_REJECT_DUPLICATES, NULL);
        ck_assert_ptr_nonnull(object);
        ck_assert_uint_eq(json_object_size(object), 6);
        ck_assert_str_eq(json_string_value(json_object_get(object, "lift")), rows[lines].lift);
        json_decref(object);
    }
    ck_assert_uint_eq(lines, 3);
}
END_TEST

START_TEST(colour_only_when_asked)
{
    const struct table_style plain = {.format = FORMAT_TEXT}, colour = {.format = FORMAT_TEXT, .colour = true},
                             csv = {.format = FORMAT_CSV, .colour = true};
    ck_assert_ptr_null(strchr(written(plain, columns, 6, rows, 3), '\033'));
    ck_assert_ptr_nonnull(strstr(written(colour, columns, 6, rows, 3), "\033[1mlift"));
    ck_assert_ptr_null(strchr(written(csv, columns, 6, rows, 3), '\033'));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("table");
    TCase *cases = tcase_create("table");
    tcase_add_checked_fixture(cases, set_up, tear_down);
    tcase_add_loop_test(cases, formats, 0, sizeof whole / sizeof *whole);
    tcase_add_test(cases, text_is_aligned);
    tcase_add_test(cases, text_in_pounds);
    tcase_add_test(cases, wide_and_combining_characters);
    tcase_add_test(cases, widest_words_are_cut);
    tcase_add_test(cases, no_rows);
    tcase_add_test(cases, quantity_of_a_cell);
    tcase_add_loop_test(cases, rows_do_not_depend_on_those_before, 0, sizeof made_styles / sizeof *made_styles);
    tcase_add_loop_test(cases, units_in_names, 0, sizeof names / sizeof *names);
    tcase_add_test(cases, json_reads_back);
    tcase_add_test(cases, colour_only_when_asked);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed != 0;
}
