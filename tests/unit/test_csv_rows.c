/* Records, physical lines, quotes; the same however the input is cut. */
#include "reading/csv/csv_rows.h"

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

/* Rows as text: "LINE+LINES[cell|cell]", NUL shown as 0, line breaks as /; "LINE!!" where it is too long. */
struct shown
{
    char *text;
    size_t stop_after, rows;
};

static bool show(void *context, const struct csv_row *row)
{
    struct shown *shown = context;
    if (row->too_long) {
        shown->text = arena_printf(arena, "%s%u!!", shown->text, row->line);
        return ++shown->rows != shown->stop_after;
    }
    shown->text = arena_printf(arena, "%s%u+%u[", shown->text, row->line, row->lines);
    for (size_t i = 0; i < row->count; i++) {
        char *cell = arena_text(arena, row->cells[i], row->lengths[i]);
        ck_assert_int_eq(row->cells[i][row->lengths[i]], 0);
        for (size_t at = 0; at < row->lengths[i]; at++)
            cell[at] = cell[at] == '\n' ? '/' : cell[at] ? cell[at] : '0';
        shown->text = arena_printf(arena, "%s%s%s", shown->text, i ? "|" : "", cell);
    }
    shown->text = arena_printf(arena, "%s]%s", shown->text, row->open_quote ? "!" : "");
    return ++shown->rows != shown->stop_after;
}

static char *rows_of(const char *bytes, size_t length, char delimiter, uint32_t first_line, size_t stop_after)
{
    struct shown shown = {.text = arena_copy(arena, ""), .stop_after = stop_after};
    struct input *input = input_from_memory(arena, "log.csv", bytes, length, diags);
    ck_assert(csv_rows_read(input, delimiter, first_line, diags, show, &shown));
    input_close(input);
    return shown.text;
}

#define BYTES(literal) literal, sizeof(literal) - 1

static const struct
{
    const char *bytes;
    size_t length;
    char delimiter;
    uint32_t first_line;
    const char *rows;
} records[] = {
    {BYTES(""), ',', 1, ""},
    {BYTES("a,b\n1,2\n"), ',', 1, "1+1[a|b]2+1[1|2]"},
    {BYTES("a,b\r\n1,2"), ',', 1, "1+1[a|b]2+1[1|2]"},
    {BYTES("a,b\r1,2\r"), ',', 1, "1+1[a|b]2+1[1|2]"},
    {BYTES("\n\na\n \n\nb\n\n"), ',', 1, "3+1[a]6+1[b]"}, /* blank lines count and make no record */
    {BYTES("a,,\n,,\n"), ',', 1, "1+1[a||]2+1[||]"},
    {BYTES(" a , b c \n"), ',', 1, "1+1[a|b c]"},
    {BYTES("\" a \",b\n"), ',', 1, "1+1[ a |b]"},
    {BYTES("\"a,b\",\"c\"\"d\"\"\"\n"), ',', 1, "1+1[a,b|c\"d\"]"},
    {BYTES("a,\"x\ny\n\nz\",b\nc\n"), ',', 1, "1+4[a|x/y//z|b]5+1[c]"}, /* quoted line breaks */
    {BYTES("a,\"x\r\ny\"\r\nc\r\n"), ',', 1, "1+2[a|x/y]3+1[c]"},
    {BYTES("a;b,c;d\n"), ';', 1, "1+1[a|b,c|d]"},
    {BYTES("a|b\n"), '|', 1, "1+1[a|b]"},
    {BYTES("a\t\tb\t\n"), '\t', 1, "1+1[a||b|]"}, /* tabs separate and are no blanks then */
    {BYTES("\ta\n"), '\t', 1, "1+1[|a]"},
    {BYTES("a\t,b\n"), ',', 1, "1+1[a|b]"},
    {BYTES("2\" box,b\n"), ',', 1, "1+1[2\" box|b]"}, /* a quote within an unquoted cell is a character */
    {BYTES("a,b\0c\n"), ',', 1, "1+1[a|b0c]"},
    {BYTES("a,b\nc,\"d\ne,f\n"), ',', 1, "1+1[a|b]2+1[c]!"}, /* a quote that never closes */
    {BYTES("\"a"), ',', 1, "1+1[]!"},
    {BYTES("a,\"x\ny\",\"z\n"), ',', 1, "1+2[a|x/y]!"},
    {BYTES("a,\"b\""), ',', 1, "1+1[a|b]"},                                /* closed by the end of the file */
    {BYTES("a \"title,\n\"open\na,b\n1,2\n"), ',', 3, "3+1[a|b]4+1[1|2]"}, /* title lines need not be CSV */
    {BYTES("a\nb\n"), ',', 3, ""},
};

START_TEST(test_records)
{
    ck_assert_str_eq(rows_of(records[_i].bytes, records[_i].length, records[_i].delimiter, records[_i].first_line, 0),
                     records[_i].rows);
    ck_assert_ptr_null(diags_first(diags));
}
END_TEST

START_TEST(test_stop)
{
    ck_assert_str_eq(rows_of(BYTES("a\nb\nc\n"), ',', 1, 2), "1+1[a]2+1[b]");
    ck_assert_str_eq(rows_of(BYTES("a\n\"b"), ',', 1, 1), "1+1[a]");
}
END_TEST

/* Records across blocks, with quoted line breaks: each keeps its number and its line. */
struct counted
{
    uint32_t rows, line;
};

static bool count(void *context, const struct csv_row *row)
{
    struct counted *counted = context;
    char number[16];
    snprintf(number, sizeof number, "%u", ++counted->rows);
    ck_assert_str_eq(row->cells[0], number);
    ck_assert_uint_eq(row->count, 3);
    ck_assert_str_eq(row->cells[1], "two\nlines \"quoted\", and more");
    ck_assert_uint_eq(row->line, counted->line);
    counted->line += 2;
    return true;
}

START_TEST(test_long)
{
    char *bytes = arena_alloc(arena, 30000 * 64), *to = bytes;
    struct counted counted = {.line = 1};
    for (int i = 1; i <= 30000; i++)
        to += snprintf(to, 64, "%d,\"two\r\nlines \"\"quoted\"\", and more\",x\r\n", i);
    ck_assert_uint_gt((size_t)(to - bytes), INPUT_BLOCK_BYTES * 3);
    struct input *input = input_from_memory(arena, "log.csv", bytes, (size_t)(to - bytes), diags);
    ck_assert(csv_rows_read(input, ',', 1, diags, count, &counted));
    ck_assert_uint_eq(counted.rows, 30000);
    input_close(input);
}
END_TEST

START_TEST(test_wide_cells)
{
    size_t length = 300000;
    char *bytes = arena_alloc(arena, length * 2 + 16);
    memset(bytes, 'x', length * 2 + 2);
    bytes[length] = ',';
    bytes[length * 2 + 1] = '\n';
    struct shown shown = {.text = arena_copy(arena, "")};
    struct input *input = input_from_memory(arena, "log.csv", bytes, length * 2 + 2, diags);
    ck_assert(csv_rows_read(input, ',', 1, diags, show, &shown));
    ck_assert_uint_eq(strlen(shown.text), length * 2 + strlen("1+1[|]"));
    input_close(input);
}
END_TEST

START_TEST(test_limits)
{
    char *bytes = arena_alloc(arena, CSV_CELLS_LIMIT * 2 + 16);
    memset(bytes, ',', CSV_CELLS_LIMIT + 8);
    struct shown shown = {.text = arena_copy(arena, "")};
    struct input *input = input_from_memory(arena, "log.csv", bytes, CSV_CELLS_LIMIT + 8, diags);
    ck_assert(!csv_rows_read(input, ',', 1, diags, show, &shown));
    ck_assert_uint_eq(diags_total(diags, SEVERITY_FAILURE), 1);
    ck_assert_int_eq(diags_first(diags)->id, DIAG_LIMIT_REACHED);
    input_close(input);
}
END_TEST

/* A line that is too long takes its record with it, whatever is open, and the next line begins one. */
START_TEST(test_long_line)
{
    static const struct
    {
        const char *before, *after, *rows;
    } lines[] = {
        {"a,b\nc,", "\nd,e\n", "1+1[a|b]2!!3+1[d|e]"},
        {"a,b\nc,\"", "\nd,e\n", "1+1[a|b]2!!3+1[d|e]"},
        {"a,b\nc,\"f\n\ng", "\"\nd,e\n", "1+1[a|b]4!!5+1[d|e]"},
        {"a,b\n\n\nc,", "", "1+1[a|b]4!!"},
        {"", "\nd,e\n", "1!!2+1[d|e]"},
    };
    size_t filler = INPUT_LINE_LIMIT + INPUT_BLOCK_BYTES;
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
        size_t before = strlen(lines[i].before), after = strlen(lines[i].after);
        for (char with = 'x'; with;
             with = with == 'x' ? ',' : 0) { /* one cell, and more cells than a record may have */
            char *bytes = arena_alloc(arena, before + filler + after);
            memcpy(bytes, lines[i].before, before);
            memset(bytes + before, with, filler);
            memcpy(bytes + before + filler, lines[i].after, after);
            ck_assert_str_eq(rows_of(bytes, before + filler + after, ',', 1, 0), lines[i].rows);
        }
    }
}
END_TEST

/* A quote open for more than a cell may hold is one that never closes: memory does not grow with the file. */
START_TEST(test_long_open_quote)
{
    size_t length = CSV_CELL_LIMIT * 3;
    char *bytes = arena_alloc(arena, length);
    memset(bytes, 'x', length);
    for (size_t i = 60; i < length; i += 61)
        bytes[i] = '\n';
    memcpy(bytes, "a,b\nc,\"d", 8);
    ck_assert_str_eq(rows_of(bytes, length, ',', 1, 0), "1+1[a|b]2+1[c]!");
}
END_TEST

static const struct
{
    const char *text;
    char delimiter;
    size_t cell;
    uint32_t column;
} columns[] = {
    {"a,b,c\n", ',', 0, 1},
    {"a,b,c\n", ',', 2, 5},
    {"a,  b,c\n", ',', 1, 5},
    {"Zo\xC3\xAB,b\n", ',', 1, 5}, /* characters, not bytes */
    {"\"a,\"\"x\"\"\",b\n", ',', 1, 11},
    {"a,\"b c\"\n", ',', 1, 4}, /* the text begins behind its quote */
    {"a\t\tb\n", '\t', 2, 4},
    {"2\" box,b\n", ',', 1, 8},
    {"a,\"x\ny\",b\n", ',', 2, 1}, /* on a later line */
};

struct sought
{
    struct input *input;
    char delimiter;
    size_t cell;
    uint32_t column;
};

static bool seek(void *context, const struct csv_row *row)
{
    struct sought *sought = context;
    sought->column = csv_cell_column(sought->input, arena, row, sought->cell, sought->delimiter);
    return false;
}

START_TEST(test_columns)
{
    struct input *input = input_from_memory(arena, "log.csv", columns[_i].text, strlen(columns[_i].text), diags);
    struct sought sought = {.input = input, .delimiter = columns[_i].delimiter, .cell = columns[_i].cell};
    csv_rows_read(input, columns[_i].delimiter, 1, diags, seek, &sought);
    ck_assert_uint_eq(sought.column, columns[_i].column);
    input_close(input);
}
END_TEST

START_TEST(test_split)
{
    const char *const *cells;
    ck_assert_uint_eq(csv_split_record(arena, BYTES("Date;\"Weight\n(kg)\";Reps\n1;2;3\n"), ';', &cells), 3);
    ck_assert_str_eq(cells[1], "Weight\n(kg)");
    ck_assert_str_eq(cells[2], "Reps");
    ck_assert_uint_eq(csv_split_record(arena, BYTES("a,b"), ',', &cells), 2);
    ck_assert_str_eq(cells[1], "b");
    ck_assert_uint_eq(csv_split_record(arena, BYTES("\na,b\n"), ',', &cells), 0);
    ck_assert_uint_eq(csv_split_record(arena, BYTES(""), ',', &cells), 0);
}
END_TEST

#define COUNT(list) ((int)(sizeof list / sizeof *list))

int main(void)
{
    Suite *suite = suite_create("csv rows");
    TCase *cases = tcase_create("rows");
    tcase_add_checked_fixture(cases, set_up, tear_down);
    tcase_add_loop_test(cases, test_records, 0, COUNT(records));
    tcase_add_test(cases, test_stop);
    tcase_add_test(cases, test_long);
    tcase_add_test(cases, test_wide_cells);
    tcase_add_test(cases, test_limits);
    tcase_add_test(cases, test_long_line);
    tcase_add_test(cases, test_long_open_quote);
    tcase_add_loop_test(cases, test_columns, 0, COUNT(columns));
    tcase_add_test(cases, test_split);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
