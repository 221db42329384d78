/* CSV files and their cells by others (README here says whose): our reader sees the same cells, also where they are
 * columns of a log. */
#include "reading/csv/csv_detect.h"
#include "reading/csv/csv_log.h"
#include "reading/csv/csv_rows.h"
#include "reading/log_reader.h"

#include <check.h>
#include <jansson.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *const names[] = {
    "comma_in_quotes", "empty",         "empty_crlf",          "escaped_quotes", "json",        "location_coordinates",
    "newlines",        "newlines_crlf", "quotes_and_newlines", "simple",         "simple_crlf", "utf8"};

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

static const char *path_of(const char *name, const char *ending)
{
    const char *top = getenv("TOP");
    return arena_printf(arena, "%s/tests/spectrum/%s.%s", top ? top : ".", name, ending);
}

static const char *bytes_of(const char *path)
{
    char *bytes = arena_alloc(arena, 4096);
    FILE *file = fopen(path, "rb");
    ck_assert_msg(file != NULL, "%s", path);
    ck_assert_uint_lt(fread(bytes, 1, 4095, file), 4095);
    fclose(file);
    return bytes;
}

/* Line ends in a cell are LF to us, whatever the file has: a log's note is one text on every system. */
static const char *with_lf(const char *text)
{
    char *copy = arena_copy(arena, text), *to = copy;
    for (const char *from = text; *from; from++)
        if (strncmp(from, "\r\n", 2) != 0)
            *to++ = *from;
    *to = 0;
    return copy;
}

struct table
{
    LIST(const char *const *) rows; /* the header first */
    size_t columns;
};

static bool take_row(void *context, const struct csv_row *row)
{
    struct table *table = context;
    const char **cells = ARENA_ARRAY(arena, const char *, row->count);
    ck_assert(!row->open_quote);
    ck_assert_uint_eq(row->count, table->columns ? table->columns : row->count);
    table->columns = row->count;
    for (size_t i = 0; i < row->count; i++)
        cells[i] = arena_text(arena, row->cells[i], row->lengths[i]);
    *LIST_ADD(arena, &table->rows) = cells;
    return true;
}

static struct table read_table(const char *name)
{
    struct table table = {0};
    const char *bytes = bytes_of(path_of(name, "csv"));
    struct input *input = input_from_memory(arena, name, bytes, strlen(bytes), diags);
    ck_assert(csv_rows_read(input, ',', 1, diags, take_row, &table));
    input_close(input);
    ck_assert_uint_ge(table.rows.count, 2);
    return table;
}

/* What must be in the cell; NULL: not said. The package's location_coordinates.json is an object, no list, and has
 * another telephone number than its CSV. */
static const char *expected_cell(const json_t *rows, const char *name, const struct table *table, size_t row,
                                 size_t column)
{
    const char *header = table->rows.items[0][column];
    bool odd = !strcmp(name, "location_coordinates");
    if (odd && column == 0)
        return NULL;
    const json_t *cell = json_object_get(odd ? rows : json_array_get(rows, row - 1), header);
    ck_assert_msg(json_is_string(cell), "%s: row %zu has no '%s'", name, row, header);
    return with_lf(json_string_value(cell));
}

static json_t *expected_rows(const char *name)
{
    json_t *rows = json_load_file(path_of(name, "json"), 0, NULL);
    ck_assert_msg(rows != NULL, "%s", path_of(name, "json"));
    return rows;
}

START_TEST(cells_are_equal)
{
    struct table table = read_table(names[_i]);
    json_t *rows = expected_rows(names[_i]);
    if (json_is_array(rows))
        ck_assert_uint_eq(json_array_size(rows), table.rows.count - 1);
    for (size_t row = 1; row < table.rows.count; row++) {
        for (size_t column = 0; column < table.columns; column++) {
            const char *wanted = expected_cell(rows, names[_i], &table, row, column);
            if (wanted)
                ck_assert_str_eq(table.rows.items[row][column], wanted);
        }
    }
    json_decref(rows);
}
END_TEST

/* The same bytes as a log: four cells of ours before each record, and one of its columns headed Notes. */
static const char *as_log(const char *name, const struct table *table, size_t notes)
{
    const char *header = "Date,Exercise,Weight,Reps", *text = bytes_of(path_of(name, "csv")), *log;
    for (size_t i = 0; i < table->columns; i++)
        header = arena_printf(arena, "%s,%s", header, i == notes ? "Notes" : arena_printf(arena, "other %zu", i));
    log = header;
    bool quoted = false, begins = false;
    for (text = strchr(text, '\n'); text && *text; text++) {
        if (begins)
            log = arena_printf(arena, "%s2026-01-05,squat,100,5,", log);
        quoted ^= *text == '"';
        begins = *text == '\n' && !quoted;
        log = arena_printf(arena, "%s%c", log, *text);
    }
    return log;
}

START_TEST(cells_are_a_log_s)
{
    const char *name = names[_i];
    struct table table = read_table(name);
    json_t *rows = expected_rows(name);
    for (size_t column = 0; column < table.columns; column++) {
        const char *log = as_log(name, &table, column);
        struct reading *reading = reading_new(arena, gym_new(arena), diags, &(struct reading_options){0});
        struct input *input = input_from_memory(arena, name, log, strlen(log), diags);
        char delimiter;
        uint32_t header_line;
        ck_assert(csv_log_detect(reading, input, &delimiter, &header_line));
        LIST_ADD(arena, &reading->log->files)->path = name;
        ck_assert(read_csv_log(reading, input, 0, delimiter, header_line));
        ck_assert_uint_eq(reading->log->sets.count, table.rows.count - 1);
        for (size_t row = 1; row < table.rows.count; row++) {
            const char *wanted = expected_cell(rows, name, &table, row, column),
                       *note = reading->log->sets.items[row - 1].note;
            if (wanted)
                ck_assert_str_eq(note ? note : "", wanted);
        }
        input_close(input);
        reading_free(reading);
    }
    ck_assert_uint_eq(diags_total(diags, SEVERITY_ERROR), 0);
    json_decref(rows);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("spectrum");
    TCase *cases = tcase_create("spectrum");
    tcase_add_checked_fixture(cases, set_up, tear_down);
    tcase_add_loop_test(cases, cells_are_equal, 0, sizeof names / sizeof *names);
    tcase_add_loop_test(cases, cells_are_a_log_s, 0, sizeof names / sizeof *names);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed != 0;
}
