/* Tables made up by a seeded generator, in every layout: no cell is lost, whatever stands in it, and each set is found.
 */
#include "property/made_loads.h"

#include "fuzz/target.h"
#include "reading/table/table.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

#define SEED 20260601
#define TABLES_MADE 1500
#define MOST_COLUMNS 12
#define FIRST_MONDAY 20605 /* 2026-06-01 */

enum made_layout
{
    MADE_GROUPS,
    MADE_SET_CELLS,
    MADE_REPS_ACROSS,
    MADE_LIFTS_ACROSS,
    MADE_DATES_ACROSS,
    MADE_WEEKS_ACROSS,
    MADE_SESSIONS,
    MADE_WEEKS_AND_DAYS,
    MADE_LAYOUTS
};

struct made /* a table, and what is in it */
{
    struct arena *arena;
    struct dice dice;
    enum made_layout layout;
    const char *cells[64][MOST_COLUMNS];
    size_t rows, columns;
    size_t filled; /* cells below the header that are not empty */
    size_t sets;   /* that can be read */
    size_t bad;    /* items that cannot */
    size_t bad_cells;
    size_t ignored;
};

static const char *const lifts[] = {"squat", "bench press", "deadlift", "overhead press"};

static char *item(struct made *made)
{
    unsigned kg = 40 + 5 * dice_below(&made->dice, 30), reps = 1 + dice_below(&made->dice, 9);
    static const char *const forms[] = {"%ux%u", "%u kg x %u", "%u x %u @8", "%u.5x%u", "%ux%u+", "%u x %u RPE 9"};
    switch (dice_below(&made->dice, 6)) {
    case 0:
        return arena_printf(made->arena, forms[0], kg, reps);
    case 1:
        return arena_printf(made->arena, forms[1], kg, reps);
    case 2:
        return arena_printf(made->arena, forms[2], kg, reps);
    case 3:
        return arena_printf(made->arena, forms[3], kg, reps);
    case 4:
        return arena_printf(made->arena, forms[4], kg, reps);
    default:
        return arena_printf(made->arena, forms[5], kg, reps);
    }
}

/* At most one in eight, so that four of five items are good in the long run; a table with more is thrown again. */
static bool is_bad(struct made *made)
{
    return !dice_below(&made->dice, 12);
}

static const char *items(struct made *made, bool list)
{
    static const char *const parts[] = {", ", "; ", "\n"};
    unsigned count = list ? 1 + dice_below(&made->dice, 4) : 1;
    const char *text = "", *part = parts[dice_below(&made->dice, 3)];
    bool bad = false;
    for (unsigned i = 0; i < count; i++) {
        bool wrong = is_bad(made) && (!strcmp(part, "; ") || i);
        const char *slip = !strcmp(part, "; ") && dice_below(&made->dice, 2) ? "slept badly" : "8ox3";
        text = arena_printf(made->arena, "%s%s%s", text, i ? part : "", wrong ? slip : item(made));
        made->sets += !wrong;
        made->bad += wrong;
        bad |= wrong;
    }
    made->bad_cells += bad;
    return text;
}

static void set_cell(struct made *made, size_t row, size_t column, const char *text)
{
    made->cells[row][column] = text;
    if (row && *text)
        made->filled++;
}

static const char *day(struct made *made, unsigned days)
{
    char text[16];
    date_print(text, FIRST_MONDAY + (day_number)days);
    return arena_copy(made->arena, text);
}

static void groups(struct made *made)
{
    unsigned count = 2 + dice_below(&made->dice, 3);
    for (unsigned i = 0; i < count; i++) {
        set_cell(made, 0, 2 + 2 * i, arena_printf(made->arena, "Set %u Weight", i + 1));
        set_cell(made, 0, 3 + 2 * i, arena_printf(made->arena, "Set %u Reps", i + 1));
        for (size_t row = 1; row < made->rows; row++) {
            bool there = dice_below(&made->dice, 4), wrong = there && is_bad(made);
            set_cell(made, row, 2 + 2 * i,
                     there ? arena_printf(made->arena, "%u", 60 + dice_below(&made->dice, 80)) : "");
            set_cell(made, row, 3 + 2 * i,
                     wrong   ? "many"
                     : there ? arena_printf(made->arena, "%u", 1 + dice_below(&made->dice, 8))
                             : "");
            made->sets += there && !wrong;
            made->bad += wrong;
            made->bad_cells += 2 * wrong; /* weight and repetitions of the group */
        }
    }
    made->columns = 2 + 2 * count;
}

static void columns_of_sets(struct made *made, size_t from, unsigned count, const char *form, bool list)
{
    for (unsigned i = 0; i < count; i++) {
        set_cell(made, 0, from + i, form ? arena_printf(made->arena, "%s %u", form, i + 1) : lifts[i]);
        for (size_t row = 1; row < made->rows; row++)
            set_cell(made, row, from + i, dice_below(&made->dice, 4) ? items(made, list) : "");
    }
    made->columns = from + count;
}

static void reps_across(struct made *made)
{
    set_cell(made, 0, 2, "Weight");
    for (size_t row = 1; row < made->rows; row++)
        set_cell(made, row, 2, "100");
    for (unsigned i = 0; i < 3; i++) {
        set_cell(made, 0, 3 + i, arena_printf(made->arena, "Set %u", i + 1));
        for (size_t row = 1; row < made->rows; row++) {
            bool there = dice_below(&made->dice, 4), wrong = there && is_bad(made);
            set_cell(made, row, 3 + i,
                     wrong   ? "?"
                     : there ? arena_printf(made->arena, "%u", 1 + dice_below(&made->dice, 9))
                             : "");
            made->sets += there && !wrong;
            made->bad += wrong;
            made->bad_cells += wrong;
        }
    }
    made->columns = 6;
}

static void sessions(struct made *made)
{
    set_cell(made, 0, 1, "Workout");
    for (size_t row = 1; row < made->rows; row++) {
        unsigned count = 1 + dice_below(&made->dice, 3);
        const char *text = "";
        for (unsigned i = 0; i < count; i++) {
            const char *first = item(made), *second = item(made);
            text = arena_printf(made->arena, "%s%s%s: %s, %s", text, i ? "; " : "", lifts[i], first, second);
            made->sets += 2;
        }
        set_cell(made, row, 1, text);
    }
    made->columns = 2;
}

static void weeks_and_days(struct made *made)
{
    static const char *const headers[] = {"Week", "Day", "Exercise", "Reps", "Load"};
    for (size_t i = 0; i < 5; i++)
        set_cell(made, 0, i, headers[i]);
    for (size_t row = 1; row < made->rows; row++) {
        set_cell(made, row, 0, arena_printf(made->arena, "%zu", row));
        set_cell(made, row, 1, dice_below(&made->dice, 2) ? "Thu" : "1");
        set_cell(made, row, 2, lifts[dice_below(&made->dice, 4)]);
        set_cell(made, row, 3, "5");
        set_cell(made, row, 4, "100");
        made->sets++;
    }
    made->columns = 5;
}

static void dates_and_lifts(struct made *made, bool with_lifts)
{
    set_cell(made, 0, 0, "Date");
    for (size_t row = 1; row < made->rows; row++)
        set_cell(made, row, 0, day(made, (unsigned)row));
    if (!with_lifts)
        return;
    set_cell(made, 0, 1, "Exercise");
    for (size_t row = 1; row < made->rows; row++)
        set_cell(made, row, 1, lifts[dice_below(&made->dice, 4)]);
}

static void lifts_down(struct made *made)
{
    set_cell(made, 0, 0, "Exercise");
    for (size_t row = 1; row < made->rows; row++)
        set_cell(made, row, 0, lifts[row % 4]);
}

static void add_ignored(struct made *made)
{
    set_cell(made, 0, made->columns, "Mood");
    for (size_t row = 1; row < made->rows; row++)
        if (dice_below(&made->dice, 2)) {
            set_cell(made, row, made->columns, "fine");
            made->ignored++;
        }
    made->columns++;
}

static void make(struct made *made)
{
    struct dice dice = made->dice;
    struct arena *arena = made->arena;
    *made = (struct made){.arena = arena, .dice = dice, .layout = (enum made_layout)dice_below(&dice, MADE_LAYOUTS)};
    made->dice = dice;
    made->rows = 4 + dice_below(&made->dice, 20);
    for (size_t row = 0; row < made->rows; row++)
        for (size_t i = 0; i < MOST_COLUMNS; i++)
            made->cells[row][i] = "";
    unsigned count = 2 + dice_below(&made->dice, 3);
    if (made->layout <= MADE_LIFTS_ACROSS || made->layout == MADE_SESSIONS)
        dates_and_lifts(made, made->layout < MADE_LIFTS_ACROSS);
    else if (made->layout != MADE_WEEKS_AND_DAYS)
        lifts_down(made);
    switch (made->layout) {
    case MADE_GROUPS:
        groups(made);
        break;
    case MADE_SET_CELLS:
        columns_of_sets(made, 2, count, "Set", true);
        break;
    case MADE_REPS_ACROSS:
        reps_across(made);
        break;
    case MADE_LIFTS_ACROSS:
        columns_of_sets(made, 1, count, NULL, true);
        break;
    case MADE_DATES_ACROSS:
        columns_of_sets(made, 1, count, NULL, true);
        for (unsigned i = 0; i < count; i++)
            made->cells[0][1 + i] = day(made, 7 * i);
        break;
    case MADE_WEEKS_ACROSS:
        columns_of_sets(made, 1, count, "Week", true);
        break;
    case MADE_SESSIONS:
        sessions(made);
        break;
    default:
        weeks_and_days(made);
    }
    add_ignored(made);
}

static bool mostly_good(const struct made *made)
{
    return made->sets >= 4 && made->bad * 6 < made->sets;
}

static const char *shown(const struct made *made)
{
    const char *text = "";
    for (size_t row = 0; row < made->rows; row++)
        for (size_t i = 0; i < made->columns; i++)
            text = arena_printf(made->arena, "%s%s%s", text, made->cells[row][i], i + 1 == made->columns ? "\n" : "|");
    return text;
}

static void check_table(struct made *made)
{
    struct reading *reading = target_reading(target_gym());
    struct table_origin origin = {.path = "made", .decimal = '.', .sheet = true};
    struct table *table = table_new(reading, &origin);
    reading->options.start_said = true;
    reading->options.start = FIRST_MONDAY;
    for (size_t row = 0; row < made->rows; row++) {
        const struct table_row given = {.line = (uint32_t)row + 1,
                                        .lines = 1,
                                        .count = made->columns,
                                        .cells = made->cells[row],
                                        .record = "a record"};
        table_add(table, &given);
    }
    *LIST_ADD(reading->log->arena,
              &reading->log->files) = (struct log_file){.path = "made", .first = NO_DAY, .last = NO_DAY};
    ck_assert_msg(table_is_log(table), "no log:\n%s", shown(made));
    bool read = table_read(table, 0);
    const struct diag *first = diags_first(reading->diags);
    ck_assert_msg(read, "refused: %s\n%s", first ? first->message : "", shown(made));
    struct table_cells cells = table_cells(table);
    ck_assert_msg(cells.read + cells.aside + cells.ignored + cells.refused == made->filled,
                  "%zu cells of %zu are counted:\n%s", cells.read + cells.aside + cells.ignored + cells.refused,
                  made->filled, shown(made));
    ck_assert_msg(reading->log->sets.count == made->sets, "%zu sets of %zu:\n%s", reading->log->sets.count, made->sets,
                  shown(made));
    ck_assert_msg(cells.refused >= made->bad_cells, "%zu cells refused, not %zu:\n%s", cells.refused, made->bad_cells,
                  shown(made));
    ck_assert_msg(cells.refused || !made->bad, "nothing was refused:\n%s", shown(made));
    ck_assert_msg(cells.refused || cells.ignored == made->ignored, "%zu cells ignored, not %zu:\n%s", cells.ignored,
                  made->ignored, shown(made));
    ck_assert_msg(diags_total(reading->diags, SEVERITY_ERROR) == made->bad, "%zu errors, not %zu:\n%s",
                  diags_total(reading->diags, SEVERITY_ERROR), made->bad, shown(made));
    table_free(table);
    reading->options.start_said = false;
}

START_TEST(no_cell_of_a_table_is_lost)
{
    struct made *made = calloc(1, sizeof *made);
    size_t seen[MADE_LAYOUTS] = {0};
    made->dice.state = SEED;
    for (int i = 0; i < TABLES_MADE; i++) {
        made->arena = arena_new();
        make(made);
        if (mostly_good(made)) {
            check_table(made);
            seen[made->layout]++;
        }
        arena_free(made->arena);
    }
    for (int layout = 0; layout < MADE_LAYOUTS; layout++)
        ck_assert_uint_ge(seen[layout], 20);
    free(made);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("tables");
    TCase *cases = tcase_create("tables");
    tcase_set_timeout(cases, 300);
    tcase_add_test(cases, no_cell_of_a_table_is_lost);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
