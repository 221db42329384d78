/* Headers to fields: synonyms, fillers, units, the gym file's own words. */
#include "reading/csv/columns.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

static struct arena *arena;

static void set_up(void)
{
    arena = arena_new();
}

static void tear_down(void)
{
    arena_free(arena);
}

static const struct
{
    const char *header;
    enum log_field field; /* FIELD_COUNT: none */
    const char *unit;     /* NULL: not said */
} headers[] = {
    {"Date", FIELD_DATE, NULL},
    {"DAY", FIELD_DATE, NULL},
    {"performed", FIELD_DATE, NULL},
    {"Datum", FIELD_DATE, NULL},
    {"Workout Date", FIELD_DATE, NULL},
    {"Date of session", FIELD_DATE, NULL},
    {"Athlete", FIELD_LIFTER, NULL},
    {"Name", FIELD_LIFTER, NULL},
    {"Athlete Name", FIELD_LIFTER, NULL},
    {"Client", FIELD_LIFTER, NULL},
    {"Workout Name", FIELD_WORKOUT, NULL}, /* fillers only: names no lifter */
    {"Exercise", FIELD_LIFT, NULL},
    {"Exercise Name", FIELD_LIFT, NULL},
    {"exercise_name", FIELD_LIFT, NULL},
    {" Movement ", FIELD_LIFT, NULL},
    {"Weight", FIELD_WEIGHT, NULL},
    {"Load", FIELD_WEIGHT, NULL},
    {"Straight  Weight", FIELD_WEIGHT, NULL},
    {"Weight (lb)", FIELD_WEIGHT, "lb"},
    {"Weight (lbs)", FIELD_WEIGHT, "lb"},
    {"Weight [kg]", FIELD_WEIGHT, "kg"},
    {"Weight (#)", FIELD_WEIGHT, "lb"},
    {"weight_kg", FIELD_WEIGHT, "kg"},
    {"Weight in lbs", FIELD_WEIGHT, "lb"},
    {"Weight, kg", FIELD_WEIGHT, "kg"},
    {"kg", FIELD_WEIGHT, "kg"},
    {"LB", FIELD_WEIGHT, "lb"},
    {"Weight\n(kg)", FIELD_WEIGHT, "kg"},
    {"Weight (total)", FIELD_WEIGHT, NULL},
    {"Unit", FIELD_UNIT, NULL},
    {"Weight Unit", FIELD_UNIT, NULL},
    {"Distance Unit", FIELD_COUNT, NULL},
    {"Reps", FIELD_REPS, NULL},
    {"Number of reps", FIELD_REPS, NULL},
    {"Repetitions", FIELD_REPS, NULL},
    {"Sets", FIELD_SETS, NULL},
    {"Number of sets", FIELD_SETS, NULL},
    {"No. of sets", FIELD_SETS, NULL},
    {"Set", FIELD_SET_INDEX, NULL},
    {"Set no.", FIELD_SET_INDEX, NULL},
    {"Set #", FIELD_SET_INDEX, NULL},
    {"Set Number", FIELD_SET_INDEX, NULL},
    {"RPE", FIELD_RPE, NULL},
    {"rir", FIELD_RIR, NULL},
    {"Velocity", FIELD_VELOCITY, NULL},
    {"Mean Velocity (m/s)", FIELD_VELOCITY, NULL},
    {"Speed (m/s)", FIELD_VELOCITY, NULL},
    {"Speed", FIELD_COUNT, NULL},
    {"Chains", FIELD_CHAIN, NULL},
    {"Chain weight (kg)", FIELD_CHAIN, "kg"},
    {"Band tension", FIELD_BAND, NULL},
    {"AR", FIELD_AR, NULL},
    {"Accommodating", FIELD_AR, NULL},
    {"Chains?", FIELD_CHAIN, NULL},
    {"Chain side", FIELD_COUNT, NULL},
    {"Reps per side", FIELD_COUNT, NULL},
    {"Notes", FIELD_NOTE, NULL},
    {"Session notes", FIELD_NOTE, NULL},
    {"Comments", FIELD_NOTE, NULL},
    {"Focus", FIELD_FOCUS, NULL},
    {"Day type", FIELD_FOCUS, NULL},
    {"Session Type", FIELD_FOCUS, NULL}, /* as a whole, before its filler is dropped */
    {"Type", FIELD_KIND, NULL},
    {"Set Type", FIELD_KIND, NULL},
    {"is_warmup", FIELD_KIND, NULL},
    {"Warm-up?", FIELD_KIND, NULL},
    {"timestamp", FIELD_DATE, NULL},
    {"Bodyweight (kg)", FIELD_BODYWEIGHT, "kg"},
    {"Body Weight", FIELD_BODYWEIGHT, NULL},
    {"BW", FIELD_BODYWEIGHT, NULL},
    {"Duration (s)", FIELD_DURATION, NULL},
    {"Time", FIELD_DURATION, NULL},
    {"Seconds", FIELD_DURATION, NULL},
    {"Distance (km)", FIELD_DISTANCE, NULL},
    {"Side", FIELD_SIDE, NULL},
    {"Superset", FIELD_SUPERSET, NULL},
    {"", FIELD_COUNT, NULL},
    {"Rest", FIELD_COUNT, NULL},
    {"Weight per plate", FIELD_COUNT, NULL},
    {"()", FIELD_COUNT, NULL},
};

START_TEST(test_headers)
{
    struct column_use use;
    enum log_field field = column_field(headers[_i].header, NULL, &use);
    ck_assert_msg(field == headers[_i].field, "'%s' is %s", headers[_i].header,
                  field < FIELD_COUNT ? log_field_name(field) : "none");
    ck_assert_msg(use.unit_said == (headers[_i].unit != NULL), "'%s'", headers[_i].header);
    if (headers[_i].unit)
        ck_assert_str_eq(mass_unit_name(use.unit), headers[_i].unit);
}
END_TEST

/* Only chains and bands have a "per side". `unit` NULL: none is said. */
static const struct
{
    const char *header;
    enum log_field field;
    const char *unit;
    bool plural;
} sides[] = {
    {"Chain (kg per side)", FIELD_CHAIN, "kg", false},
    {"Chain (kg/side)", FIELD_CHAIN, "kg", false},
    {"Chain (per side)", FIELD_CHAIN, NULL, false},
    {"Chains per side", FIELD_CHAIN, NULL, true},
    {"Chain/side", FIELD_CHAIN, NULL, false},
    {"Chain lb per side", FIELD_CHAIN, "lb", false},
    {"Chains (lb, each side)", FIELD_CHAIN, "lb", true},
    {"Chains (kg) / side", FIELD_CHAIN, "kg", true},
    {"Bands on each side", FIELD_BAND, NULL, true},
    {"Chain weight per side", FIELD_CHAIN, NULL, false},
    {"AR per side", FIELD_AR, NULL, false},
};

START_TEST(test_sides)
{
    struct column_use use;
    ck_assert_msg(column_field(sides[_i].header, NULL, &use) == sides[_i].field, "'%s'", sides[_i].header);
    ck_assert_msg(use.per_side && use.plural == sides[_i].plural, "'%s'", sides[_i].header);
    ck_assert_msg(use.unit_said == (sides[_i].unit != NULL), "'%s'", sides[_i].header);
    if (sides[_i].unit)
        ck_assert_str_eq(mass_unit_name(use.unit), sides[_i].unit);
    ck_assert(column_field("Weight per side", NULL, &use) == FIELD_WEIGHT && use.per_side);
}
END_TEST

START_TEST(test_unread)
{
    static const char *const cells[] = {"Date", "Planned chains", "Chain side", "Rest", "Chains", "Headband"};
    struct column_map map;
    columns_map(arena, &map, cells, 6, NULL);
    ck_assert_uint_eq(map.ignored.count, 4);
    ck_assert_uint_eq(map.unread.count, 1);
    ck_assert_uint_eq(map.unread.items[0], 2);
}
END_TEST

/* The gym file's words win over the built-in ones. */
START_TEST(test_gym_words)
{
    const char *dates[] = {"Trained on"}, *notes[] = {"Time", "what happened"};
    struct column_synonyms synonyms[] = {{.field = "date", .headers = dates, .header_count = 1},
                                         {.field = "note", .headers = notes, .header_count = 2}};
    struct gym gym = {.columns = synonyms, .column_count = 2};
    struct column_use use;
    ck_assert_int_eq(column_field("trained  ON", &gym, &use), FIELD_DATE);
    ck_assert_int_eq(column_field("Time", &gym, &use), FIELD_NOTE);
    ck_assert_int_eq(column_field("What happened", &gym, &use), FIELD_NOTE);
    ck_assert_int_eq(column_field("Date", &gym, &use), FIELD_DATE);
}
END_TEST

START_TEST(test_map)
{
    static const char *const cells[] = {"Date", "Exercise", "Weight (kg)", "Weight (lb)", "Rest", "Reps", "", ""};
    struct column_map map;
    columns_map(arena, &map, cells, 8, NULL);
    ck_assert_uint_eq(map.header_cells, 6); /* trailing empty columns are none */
    ck_assert_uint_eq(map.of[FIELD_WEIGHT].count, 2);
    ck_assert_uint_eq(map.of[FIELD_WEIGHT].items[1].index, 3);
    ck_assert_int_eq(map.of[FIELD_WEIGHT].items[1].unit, UNIT_LB);
    ck_assert_uint_eq(map.ignored.count, 1);
    ck_assert_str_eq(map.ignored.items[0], "Rest");
    ck_assert(columns_look_like_log(&map));
    ck_assert_ptr_null(columns_missing(arena, &map));
    ck_assert_uint_eq(columns_needed_cells(&map), 6);
    ck_assert_str_eq(
        columns_describe(arena, &map, cells, 8),
        "Date = date; Exercise = lift; Weight (kg) = weight; Weight (lb) = weight; Rest = ignored; Reps = reps");
}
END_TEST

static const struct
{
    const char *cells[5];
    const char *missing; /* NULL: none */
    bool log, nearly;
} maps[] = {
    {{"Date", "Lift", "Weight", "Reps"}, NULL, true, true},
    {{"Date", "Lift", "Notes"}, "weight, reps", true, false},
    {{"Date", "Weight", "Reps"}, "lift", false, true},
    {{"Lift", "Weight", "Reps"}, "date", false, true},
    {{"squat 100: 5x5"}, "date, lift, weight, reps", false, false},
};

START_TEST(test_missing)
{
    struct column_map map;
    size_t count = 0;
    while (count < 5 && maps[_i].cells[count])
        count++;
    columns_map(arena, &map, maps[_i].cells, count, NULL);
    const char *missing = columns_missing(arena, &map);
    ck_assert_str_eq(missing ? missing : "none", maps[_i].missing ? maps[_i].missing : "none");
    ck_assert_int_eq(columns_look_like_log(&map), maps[_i].log);
    ck_assert_int_eq(columns_nearly_log(&map), maps[_i].nearly);
}
END_TEST

#define COUNT(list) ((int)(sizeof list / sizeof *list))

int main(void)
{
    Suite *suite = suite_create("columns");
    TCase *cases = tcase_create("columns");
    tcase_add_checked_fixture(cases, set_up, tear_down);
    tcase_add_loop_test(cases, test_headers, 0, COUNT(headers));
    tcase_add_loop_test(cases, test_sides, 0, COUNT(sides));
    tcase_add_test(cases, test_unread);
    tcase_add_test(cases, test_gym_words);
    tcase_add_test(cases, test_map);
    tcase_add_loop_test(cases, test_missing, 0, COUNT(maps));
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
