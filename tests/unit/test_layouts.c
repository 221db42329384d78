/* Tables of every layout, small ones: how they are laid out, how many sets they hold, what is said of them. */
#include "reading/csv/csv_detect.h"
#include "reading/csv/csv_log.h"
#include "reading/log_reader.h"
#include "reading/table/heading.h"
#include "reading/table/items.h"
#include "reading/table/table_log.h"
#include "reading/text/text_patterns.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

static struct arena *arena;
static struct reading *reading;

static void begin(void)
{
    const struct reading_options options = {.dates = DATES_UNSAID};
    arena = arena_new();
    reading = reading_new(arena, gym_new(arena), diags_new(arena), &options);
}

static void end(void)
{
    reading_free(reading);
    arena_free(arena);
}

static const char *read_text(const char *path, const char *text)
{
    struct input *input = input_from_memory(arena, path, text, strlen(text), reading->diags);
    char delimiter = 0;
    uint32_t header = 0;
    bool csv = csv_log_detect(reading, input, &delimiter, &header),
         wide = csv ? table_wanted(reading, input, delimiter, header)
                    : table_detect(reading, input, &delimiter, &header);
    LIST_ADD(reading->log->arena, &reading->log->files)->path = path;
    if (wide)
        read_table_log(reading, input, 0, delimiter, header);
    else if (csv)
        read_csv_log(reading, input, 0, delimiter, header);
    input_close(input);
    const char *columns = reading->log->files.items[0].columns;
    return !csv && !wide ? "no table" : columns ? columns : "refused";
}

static const struct
{
    const char *text, *columns; /* how it begins */
    size_t sets;
    const char *said; /* the name of a diagnostic; NULL: none of an error */
} tables[] = {
    {"Date,Exercise,Weight,Reps\n2026-01-05,squat,100,5\n",
     "Date = date; Exercise = lift; Weight = weight; Reps = reps", 1, NULL},
    {"Date,Exercise,W1,R1,W2,R2\n2026-01-05,squat,100,5,110,3\n",
     "as numbered groups: Date = date; Exercise = lift; W1 = weight of set 1; R1 = reps of set 1", 2, NULL},
    {"Date,Lift,kg,reps,kg.1,reps.1\n2026-01-05,squat,100,5,110,3\n",
     "as numbered groups: Date = date; Lift = lift; kg = weight of set 1", 2, NULL},
    {"Date,Lift,kg,reps,kg,reps\n2026-01-05,squat,100,5,110,3\n2026-01-06,squat,100,5,,\n", "as numbered groups", 3,
     NULL},
    {"Date,Lift,Set 1 Weight,Set 1 Reps,Set 2 Weight,Set 2 Reps\n2026-01-05,squat,100,5,110,\n", "as numbered groups",
     1, "bad-reps"},
    {"Date,Lift,Chains per side,Set 1 kg,Set 1 reps,Link chains\n2026-01-05,squat,2,100,5,x\n",
     "as numbered groups: Date = date; Lift = lift; Chains per side = chain per side", 1, "unread-column"},
    {"Date,Lift,Weight,Reps 1,Reps 2\n2026-01-05,squat,100,5,4\n", "as numbered groups", 2, NULL},
    {"Date,Lift,Set 1,Set 2\n2026-01-05,squat,100x5,110x3\n2026-01-06,squat,8ox5,90x3\n2026-01-07,squat,80x5,90x3\n",
     "as set cells", 5, "bad-set-cell"},
    {"Date,Lift,Sets\n2026-01-05,squat,\"100x5, 110x3\"\n2026-01-06,squat,\"5x5 @ 100\"\n", "as set cells", 7, NULL},
    {"Date,Lift,Load\n2026-01-05,squat,60 + 2 chains/side 7x2\n2026-01-06,squat,100 kg x 5 x 5\n", "as set cells", 12,
     NULL},
    {"Date,Lift,Weight,Set 1,Set 2\n2026-01-05,squat,100,5,4\n,,110,3,\n", "as repetitions across", 3, NULL},
    {"Date,Squat,Zercher squat\n2026-01-05,100x5,60x8\n2026-01-06,,60x8\n",
     "as lifts across: Date = date; Squat = sets of Squat; Zercher squat = sets of Zercher squat", 3, NULL},
    {"Date,Squat (2 chains/side),Bench\n2026-01-05,100x5,60x8\n2026-01-06,\"100x5 no chains, 90x5\",\n",
     "as lifts across: Date = date; Squat (2 chains/side) = sets of Squat, 2 chains/side", 4, NULL},
    {"Date,Lift,Set 1 kg,Set 1 reps,Set 1 chain/side\n2026-01-05,squat,100,5,8 kg\n",
     "as numbered groups: Date = date; Lift = lift; Set 1 kg = weight of set 1; Set 1 reps = reps of set 1; "
     "Set 1 chain/side = chain per side of set 1",
     1, NULL},
    {"Date,Squat,Bench,Notes\n2026-01-05,100x5,60x8,2 chains\n2026-01-06,100x5,,tired\n", "as lifts across", 3,
     "unread-clause"},
    {"Exercise,5 Jan 2026,12 Jan 2026\nsquat,100x5,110x3\n", "as dates across", 2, NULL},
    {"Exercise,5 Jan 2026,12 Jan 2026\nsquat,100 3x5,110 2x3\n", "as dates across", 5, NULL},
    {"Exercise,5 Jan,12 Jan\nsquat,100x5,110x3\n", "refused", 0, "bad-date"},
    {"Exercise,Week 1,Week 2\nsquat,100x5,110x3\n", "refused", 0, "no-start"},
    {"Date,Workout\n2026-01-05,\"Squat: 100x5, 110x3; Bench 60x5x3\"\n2026-01-06,\"Squat 100x5, Bench 60x5\"\n",
     "as session cells", 7, NULL},
    {"Date,Workout\n2026-01-05,Squat: 100x5\n2026-01-06,\"Squat: 100x5; 110x3; felt odd; Bench 70x5; Press 40x5; Press "
     "50x5\"\n",
     "as session cells", 6, "bad-set-cell"},
    {"Exercise,Weight,Reps\n2026-01-05 squat day,,\nsquat,100,5\n,110,3\n", "as one row per set", 2, NULL},
    {"Exercise,Weight,Reps\nsquat,100,5\n,110,3\n", "refused", 0, "missing-column"},
    {"Date,Lift,Weight 1,Reps 1,Set 1\n2026-01-05,squat,100,5,100x5\n2026-01-06,squat,100,5,100x5\n", "refused", 0,
     "two-layouts"},
    {"Date,Lift,Set 1,Set 2\n2026-01-05,squat,hard,100x5\n2026-01-06,squat,easy,rest\n", "refused", 0, "no-layout"},
    {"Date,Lift,Planned reps,Weight\n2026-01-05,squat,5,100\n2026-01-06,squat,5,100\n", "refused", 0, "missing-column"},
    {"Date,Lift,Reps,Actual reps,Weight\n2026-01-05,squat,5,4,100\n",
     "Date = date; Lift = lift; Reps = ignored; Actual reps = reps; Weight = weight", 1, NULL},
    {"Day,Date,Lift,Reps,Weight\nMon,2026-01-05,squat,5,100\n", "Day = ignored; Date = date", 1, NULL},
    {"Date;Lift;Set 1;Set 2\n5.1.2026;squat;102,5x5;110,5x3\n", "as set cells", 2, NULL},
    {"dear all,\nthe date, as you know, is open\n", "no table", 0, NULL},
};

START_TEST(a_table_is_read)
{
    begin();
    const char *columns = read_text("log.csv", tables[_i].text);
    ck_assert_msg(!strncmp(columns, tables[_i].columns, strlen(tables[_i].columns)), "%s: %s", tables[_i].text,
                  columns);
    ck_assert_msg(reading->log->sets.count == tables[_i].sets, "%s: %zu sets", tables[_i].text,
                  reading->log->sets.count);
    bool said = false, error = false;
    for (const struct diag *diag = diags_first(reading->diags); diag; diag = diag->next) {
        said |= tables[_i].said && !strcmp(diag_name(diag->id), tables[_i].said);
        error |= diag_severity(diag->id) >= SEVERITY_ERROR;
    }
    ck_assert_msg(tables[_i].said ? said : !error, "%s", tables[_i].text);
    end();
}
END_TEST

/* Chains in a header are on each set below it that says nothing of chains itself. */
START_TEST(a_header_names_chains)
{
    begin();
    read_text("log.csv",
              "Date,Squat (2 chains/side),Bench\n2026-01-05,\"100x5, 90x5 no chains, 80x5 + 1 chain/side\",60x8\n");
    static const char *const loads[] = {"100 kg + 2 chains/side", "90 kg", "80 kg + 1 chain/side", "60 kg"};
    ck_assert_uint_eq(reading->log->sets.count, 4);
    for (size_t i = 0; i < 4; i++) {
        const struct set *set = &reading->log->sets.items[i];
        const struct load load = load_of_both(set->weight, set->ar);
        ck_assert_str_eq(load_print(arena, &load), loads[i]);
    }
    end();
}
END_TEST

START_TEST(places_are_those_of_the_cell)
{
    begin();
    read_text("log.csv",
              "Date,Lift,Set 1,Set 2\n2026-01-05,squat,\"100x5, 8ox3\",90x5\n2026-01-06,squat,100x5,\"90x5, 80x5\"\n");
    const struct diag *diag = diags_first(reading->diags);
    while (diag && diag->id != DIAG_BAD_SET_CELL)
        diag = diag->next;
    ck_assert(diag && diag->at.line == 2 && diag->at.column == 26 && diag->at.length == 4);
    ck_assert_str_eq(diag->hint, "write 80x3, if that is what it means");
    ck_assert_str_eq(diag->excerpt, "2026-01-05,squat,\"100x5, 8ox3\",90x5");
    end();
}
END_TEST

/* What is wrong with a cell is said once, though it goes with each set of its row. */
START_TEST(a_cell_is_refused_once)
{
    begin();
    read_text("log.csv", "Date,Lift,Chain,Set 1 kg,Set 1 reps,Set 2 kg,Set 2 reps\n2026-01-05,squat,2,100,5,110,3\n"
                         "2026-01-06,squat,2,100,5,110,3\n");
    ck_assert_uint_eq(diags_total(reading->diags, SEVERITY_ERROR), 2);
    end();
}
END_TEST

START_TEST(the_year_is_that_of_the_row_above)
{
    begin();
    read_text("log-2025.csv", "Date,Exercise,Weight,Reps\n20 Dec,squat,100,5\n5 Jan,squat,100,5\n12 Jan,squat,100,5\n");
    ck_assert_uint_eq(reading->log->sets.count, 3);
    char text[16];
    date_print(text, reading->log->sets.items[0].day);
    ck_assert_str_eq(text, "2025-12-20");
    date_print(text, reading->log->sets.items[2].day);
    ck_assert_str_eq(text, "2026-01-12");
    ck_assert(reading->log->sets.items[1].assumed & ASSUMED_YEAR);
    end();
}
END_TEST

static const struct
{
    const char *text, *field;
    unsigned number;
    bool set, planned, day;
    unsigned week;
} headings[] = {
    {"Set 2 Weight (kg)", "weight", 2, false, false, false, 0},
    {"Weight 3", "weight", 3, false, false, false, 0},
    {"Reps_2", "reps", 2, false, false, false, 0},
    {"S3 kg", "weight", 3, false, false, false, 0},
    {"kg.2", "weight", 2, false, false, false, 0},
    {"2nd set reps", "reps", 2, false, false, false, 0},
    {"Set 4", NULL, 4, true, false, false, 0},
    {"Set 4 (kg)", NULL, 4, true, false, false, 0},
    {"#4", NULL, 4, true, false, false, 0},
    {"Week 12", NULL, 0, false, false, false, 12},
    {"12 Jan", NULL, 0, false, false, true, 0},
    {"2026-01-12", NULL, 0, false, false, true, 0},
    {"Reps done", "reps", 0, false, false, false, 0},
    {"Rep count", "reps", 0, false, false, false, 0},
    {"Actual reps", "reps", 0, false, false, false, 0},
    {"Weight used", "weight", 0, false, false, false, 0},
    {"Kilos lifted", "weight", 0, false, false, false, 0},
    {"Working weight", "weight", 0, false, false, false, 0},
    {"When", "date", 0, false, false, false, 0},
    {"Training date", "date", 0, false, false, false, 0},
    {"Target weight", NULL, 0, false, true, false, 0},
    {"Planned reps", NULL, 0, false, true, false, 0},
    {"Total reps", NULL, 0, false, false, false, 0},
    {"Tally", NULL, 0, false, false, false, 0},
    {"RPE (1-10)", "rpe", 0, false, false, false, 0},
    {"1RM", NULL, 0, false, false, false, 0},
};

START_TEST(a_header_says)
{
    struct arena *scratch = arena_new();
    const struct column_heading heading = heading_read(scratch, gym_new(scratch), headings[_i].text, 0);
    const char *field = heading.field == FIELD_COUNT ? NULL : log_field_name(heading.field);
    ck_assert_msg(field == headings[_i].field || (field && headings[_i].field && !strcmp(field, headings[_i].field)),
                  "%s: %s", headings[_i].text, field ? field : "none");
    ck_assert_msg(heading.number == headings[_i].number && heading.is_set == headings[_i].set &&
                      heading.use.planned == headings[_i].planned && heading.is_day == headings[_i].day &&
                      heading.week == headings[_i].week,
                  "%s", headings[_i].text);
    arena_free(scratch);
}
END_TEST

static const struct
{
    const char *text, *parts; /* joined by | */
    char decimal;
} parted[] = {
    {"100x5, 110x3", "100x5|110x3", '.'},
    {"100x5 110x3", "100x5|110x3", '.'},
    {"100x5,110x3", "100x5|110x3", '.'},
    {"102,5x5; 110x3", "102,5x5|110x3", ','},
    {"102,5x5, 110x3", "102,5x5|110x3", ','},
    {"100: 5,5,4", "100: 5,5,4", '.'},
    {"100x5 + 2 chains/side @8, 110x3", "100x5 + 2 chains/side @8|110x3", '.'},
    {"100x5, 2x7 kg chain/side", "100x5, 2x7 kg chain/side", '.'},
    {"100x5, felt good", "100x5, felt good", '.'},
    {"100x5\n110x3\n", "100x5|110x3", '.'},
    {"100x5, 8ox3, 110x", "100x5|8ox3|110x", '.'},
    {"100x5 @8 110x3 @9", "100x5 @8|110x3 @9", '.'},
};

START_TEST(a_cell_is_parted)
{
    begin();
    const struct item_manner manner = {text_patterns_of(reading), reading->gym, parted[_i].decimal};
    struct items items;
    const char *parts = "";
    items_split(&manner, parted[_i].text, &items);
    for (size_t i = 0; i < items.count; i++)
        parts = arena_printf(arena, "%s%s%.*s", parts, i ? "|" : "", (int)items.spans[i].length,
                             parted[_i].text + items.spans[i].at);
    ck_assert_str_eq(parts, parted[_i].parts);
    end();
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("layouts");
    TCase *cases = tcase_create("layouts");
    tcase_add_loop_test(cases, a_table_is_read, 0, (int)(sizeof tables / sizeof *tables));
    tcase_add_test(cases, a_header_names_chains);
    tcase_add_test(cases, places_are_those_of_the_cell);
    tcase_add_test(cases, a_cell_is_refused_once);
    tcase_add_test(cases, the_year_is_that_of_the_row_above);
    tcase_add_loop_test(cases, a_header_says, 0, (int)(sizeof headings / sizeof *headings));
    tcase_add_loop_test(cases, a_cell_is_parted, 0, (int)(sizeof parted / sizeof *parted));
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
