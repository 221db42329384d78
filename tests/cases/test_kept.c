/* Every log of tests/cases/kept is read as the expectation beside it says: the program is run on it, as its user would.
 */
#include "base/arena.h"
#include "base/number.h"
#include "base/text.h"

#include <check.h>
#include <config.h>
#include <csv.h>
#include <glob.h>
#include <jansson.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <sys/wait.h>

#define TOLERANCE_KG 0.01
#define COLUMNS 64

static struct arena *arena;
static glob_t found;

static char *folder(void)
{
    const char *top = getenv("TOP");
    return arena_printf(arena, "%s/tests/cases/kept", top ? top : ".");
}

/* --- running --------------------------------------------------------------------------------------------------------- */

struct result
{
    int status;
    char *out, *err;
};

static char *slurp(FILE *file)
{
    char *text = arena_copy(arena, "");
    size_t length = 0, room = 0;
    for (int c; (c = fgetc(file)) != EOF; length++) {
        if (length + 1 >= room) {
            text = arena_grow(arena, room ? text : NULL, room, room ? room * 2 : 4096);
            room = room ? room * 2 : 4096;
        }
        text[length] = (char)c;
        text[length + 1] = 0;
    }
    return text;
}

static struct result run(const char *command, const json_t *wanted)
{
    struct result result = {0};
    char name[] = "/tmp/tautline-kept-XXXXXX";
    int err = mkstemp(name);
    ck_assert_int_ge(err, 0);
    char *line = arena_printf(arena, "cd '%s' && \"${TAUTLINE:-tautline}\" %s", folder(), command);
    size_t i;
    const json_t *argument;
    json_array_foreach(json_object_get(wanted, "args"), i, argument)
        line = arena_printf(arena, "%s '%s'", line, json_string_value(argument));
    line = arena_printf(arena, "%s '%s' 2>%s", line, json_string_value(json_object_get(wanted, "log")), name);
    FILE *pipe = popen(line, "r");
    result.out = slurp(pipe);
    int status = pclose(pipe);
    result.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    FILE *errors = fdopen(err, "r");
    result.err = slurp(errors);
    fclose(errors);
    remove(name);
    return result;
}

/* --- rows ------------------------------------------------------------------------------------------------------------ */

struct row
{
    char *cells[COLUMNS];
    size_t count;
    bool taken;
};

struct table
{
    LIST(struct row) rows; /* the first: the names */
    bool open;
};

static void on_cell(void *text, size_t length, void *context)
{
    struct table *table = context;
    if (!table->open)
        (void)LIST_ADD(arena, &table->rows);
    table->open = true;
    struct row *row = &table->rows.items[table->rows.count - 1];
    if (row->count < COLUMNS)
        row->cells[row->count++] = arena_text(arena, text, length);
}

static void on_row(int end, void *context)
{
    (void)end;
    ((struct table *)context)->open = false;
}

static struct table table_of(const char *text)
{
    struct table table = {0};
    struct csv_parser parser;
    csv_init(&parser, CSV_APPEND_NULL);
    csv_parse(&parser, text, strlen(text), on_cell, on_row, &table);
    csv_fini(&parser, on_cell, on_row, &table);
    csv_free(&parser);
    return table;
}

static const char *cell(const struct table *table, const struct row *row, const char *name)
{
    const struct row *names = &table->rows.items[0];
    for (size_t i = 0; i < names->count && i < row->count; i++)
        if (!strcmp(names->cells[i], name))
            return row->cells[i];
    return "";
}

static double number(const char *text)
{
    double value;
    return number_whole(text, '.', &value) ? value : NAN;
}

/* --- comparing: each gives what is wrong, NULL for nothing ------------------------------------------------------------------ */

static bool has_word(const char *words, const char *word)
{
    size_t length = strlen(word);
    for (const char *at = words; (at = strstr(at, word)); at++)
        if ((at == words || at[-1] == ';') && (!at[length] || at[length] == ';'))
            return true;
    return false;
}

static bool is_kg(const char *text, const json_t *wanted)
{
    return json_is_null(wanted) ? !*text : fabs(number(text) - json_number_value(wanted)) <= TOLERANCE_KG;
}

static const char *wrong_words(const char *assumed, const json_t *words, bool wanted)
{
    size_t i;
    const json_t *word;
    json_array_foreach(words, i, word) if (has_word(assumed, json_string_value(word)) != wanted) return "assumed";
    return NULL;
}

static const char *wrong_ar(const char *ar, const char *assumed, const char *wanted)
{
    if (wanted && !strcmp(wanted, "*"))
        return NULL;
    if (!wanted || !strcmp(wanted, "none"))
        return *ar || has_word(assumed, "ar-carried") ? "ar" : NULL;
    if (!strcmp(wanted, "some"))
        return *ar ? NULL : "ar";
    return strcmp(ar, wanted) ? "ar" : NULL;
}

static const char *wrong_more(const struct table *table, const struct row *row, const json_t *more)
{
    static const char *const texts[] = {"focus", "lifter"};
    const char *assumed = cell(table, row, "assumed"),
               *wrong = wrong_ar(cell(table, row, "ar"), assumed, json_string_value(json_object_get(more, "ar")));
    const json_t *kind = json_object_get(more, "kind"), *value;
    if (!wrong)
        wrong = wrong_words(assumed, json_object_get(more, "assumed"), true);
    if (!wrong)
        wrong = wrong_words(assumed, json_object_get(more, "not_assumed"), false);
    if (!wrong && (value = json_object_get(more, "bottom")) && !is_kg(cell(table, row, "bottom_kg"), value))
        wrong = "bottom";
    if (!wrong && (value = json_object_get(more, "top")) && !is_kg(cell(table, row, "top_kg"), value))
        wrong = "top";
    if (!wrong && (value = json_object_get(more, "rpe")) && number(cell(table, row, "rpe")) != json_number_value(value))
        wrong = "rpe";
    for (size_t i = 0; !wrong && i < sizeof texts / sizeof *texts; i++)
        if ((value = json_object_get(more, texts[i])) && strcmp(cell(table, row, texts[i]), json_string_value(value)))
            wrong = texts[i];
    return wrong || !strcmp(cell(table, row, "kind"), kind ? json_string_value(kind) : "work") ? wrong : "kind";
}

/* The next row of that day and lift that none has taken. */
static struct row *next_row(struct table *table, const char *day, const char *lift, const char *lifter)
{
    for (size_t i = 1; i < table->rows.count; i++) {
        struct row *row = &table->rows.items[i];
        if (!row->taken && !strcmp(cell(table, row, "date"), day) && text_same_name(cell(table, row, "lift"), lift) &&
            (!lifter || !strcmp(cell(table, row, "lifter"), lifter)))
            return row;
    }
    return NULL;
}

static const char *wrong_row(struct table *table, const json_t *wanted)
{
    const char *day = json_string_value(json_array_get(wanted, 0)),
               *lift = json_string_value(json_array_get(wanted, 1));
    const json_t *more = json_array_get(wanted, 4);
    struct row *row = next_row(table, day, lift, json_string_value(json_object_get(more, "lifter")));
    const char *wrong = NULL;
    if (!row)
        return arena_printf(arena, "no set is left of %s on %s", lift, day);
    row->taken = true;
    if (number(cell(table, row, "reps")) != json_number_value(json_array_get(wanted, 2)))
        wrong = "reps";
    else if (!is_kg(cell(table, row, "straight_kg"), json_array_get(wanted, 3)))
        wrong = "straight_kg";
    else
        wrong = wrong_more(table, row, more);
    return wrong ? arena_printf(arena, "%s of a set of %s on %s", wrong, lift, day) : NULL;
}

static char *without_names(const char *text, const char *name)
{
    char *left = arena_copy(arena, text);
    for (char *at; (at = strstr(left, name));)
        memset(at, ' ', strlen(name));
    return left;
}

static bool says_word(const char *text, const char *word)
{
    for (const char *at = text; (at = strcasestr(at, word)); at++)
        if (at == text || !strchr("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ", at[-1]))
            return true;
    return false;
}

static const char *wrong_says(const char *text, const json_t *says)
{
    size_t i, k;
    const json_t *one, *word;
    json_array_foreach(says, i, one)
    {
        bool said = json_is_string(one) && says_word(text, json_string_value(one));
        json_array_foreach(one, k, word) said |= says_word(text, json_string_value(word));
        if (!said)
            return arena_printf(arena, "not said: %s",
                                json_is_string(one) ? json_string_value(one)
                                                    : json_string_value(json_array_get(one, 0)));
    }
    return NULL;
}

static size_t errors_in(const char *text)
{
    size_t count = 0;
    for (const char *at = text; (at = strstr(at, ": error: ")); at++)
        count++;
    return count;
}

static const char *wrong_reading(const struct result *result, const json_t *wanted, const char *log)
{
    struct table table = table_of(result->out);
    size_t i, sets = table.rows.count ? table.rows.count - 1 : 0;
    const json_t *each, *refused = json_object_get(wanted, "refused");
    bool good = false;
    json_array_foreach(json_object_get(wanted, "exit"), i, each) good |= json_integer_value(each) == result->status;
    if (!good)
        return arena_printf(arena, "exit status %d", result->status);
    if (sets != (size_t)json_integer_value(json_object_get(wanted, "sets")))
        return arena_printf(arena, "%zu sets", sets);
    if (json_is_integer(refused) && errors_in(result->err) != (size_t)json_integer_value(refused))
        return arena_printf(arena, "%zu refused", errors_in(result->err));
    json_array_foreach(json_object_get(wanted, "rows"), i, each)
    {
        const char *wrong = wrong_row(&table, each);
        if (wrong)
            return wrong;
    }
    return wrong_says(without_names(result->err, log), json_object_get(wanted, "says"));
}

static const char *wrong_case(const json_t *wanted)
{
    const char *log = json_string_value(json_object_get(wanted, "log")), *wrong = "no reading is allowed";
    const struct result result = run("loads --format csv", wanted);
    const json_t *readings = json_object_get(wanted, "any_of"), *check = json_object_get(wanted, "check");
    for (size_t i = 0; i < json_array_size(readings) && wrong; i++)
        wrong = wrong_reading(&result, json_array_get(readings, i), log);
    if (wrong || !check)
        return wrong ? arena_printf(arena, "%s\n%s", wrong, result.err) : NULL;
    const struct result checked = run("check", wanted);
    return wrong_says(without_names(checked.out, log), json_object_get(check, "says"));
}

/* --- the cases ------------------------------------------------------------------------------------------------------------- */

static bool is_left_out(const char *log)
{
#if WITH_WORKBOOKS
    (void)log;
    return false;
#else
    const char *dot = log ? strrchr(log, '.') : NULL;
    return dot && (!strcmp(dot, ".xlsx") || !strcmp(dot, ".ods"));
#endif
}

START_TEST(reads_as_expected)
{
    char *path = found.gl_pathv[_i], *name = arena_copy(arena, strrchr(path, '/') + 1);
    *strstr(name, ".expected.json") = 0;
    json_error_t error;
    json_t *wanted = json_load_file(path, 0, &error);
    ck_assert_msg(wanted, "%s: %s", path, error.text);
    bool left_out = is_left_out(json_string_value(json_object_get(wanted, "log")));
    if (left_out)
        printf("%s: left out, as this tautline was built without workbooks\n", name);
    const char *wrong = left_out ? NULL : wrong_case(wanted);
    json_decref(wanted);
    ck_assert_msg(!wrong, "%s: %s", name, wrong);
}
END_TEST

int main(void)
{
    arena = arena_new();
    if (glob(arena_printf(arena, "%s/*.expected.json", folder()), 0, NULL, &found) || found.gl_pathc < 20)
        return 99;
    Suite *suite = suite_create("logs as people keep them");
    TCase *cases = tcase_create("logs as people keep them");
    tcase_set_timeout(cases, 120);
    tcase_add_loop_test(cases, reads_as_expected, 0, (int)found.gl_pathc);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    globfree(&found);
    arena_free(arena);
    return failed ? 1 : 0;
}
