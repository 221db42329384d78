/* Measurements as CSV: what is read, what each band comes to, and what is said. */
#include "reading/measurements/measurements.h"

#include "base/number.h"
#include "reading/measurements/measured_bands.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define COUNT(table) ((int)(sizeof table / sizeof *table))

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

static const struct measurement_options plain = {.flat_m = NAN, .pull_unit_kg = NAN};

static struct measured_bands read_bytes(const char *text, size_t length, const struct measurement_options *options)
{
    struct pull_readings readings = {0};
    struct input *input = input_from_memory(arena, "bands/b26.csv", text, length, diags);
    measurements_read(arena, input, options, diags, &readings);
    input_close(input);
    return measured_bands_make(arena, &readings, options, diags);
}

static struct measured_bands read_text_as(const char *text, const struct measurement_options *options)
{
    return read_bytes(text, strlen(text), options);
}

static const char *number(double value, int decimals)
{
    char text[64];
    number_fixed(text, sizeof text, value, decimals);
    return arena_copy(arena, text);
}

static const char *describe_points(const struct measured_band *band)
{
    char *out = arena_copy(arena, "");
    for (size_t k = 0; k < band->count; k++) {
        const struct measured_point *point = &band->points[k];
        out = arena_printf(arena, "%s %s %s", out, number(point->length_m, 3), number(point->pull_kg, 2));
        if (point->readings > 1)
            out = arena_printf(arena, "%s~%s", out, number(point->spread_kg, 2));
    }
    return out;
}

/* "b26 L 2026-01-03 flat 1.04: 1.2 8.5" with a spread where readings were repeated: "1.2 8.5~0.2". */
static const char *describe(const struct measured_bands *bands)
{
    static const char *const sides[] = {"", " L", " R"};
    char *out = arena_copy(arena, "");
    for (size_t i = 0; i < bands->list.count; i++) {
        const struct measured_band *band = &bands->list.items[i];
        char day[16] = "";
        if (band->day != NO_DAY)
            date_print(day, band->day);
        out = arena_printf(arena, "%s%s%s%s%s%s flat %s:%s", out, i ? " | " : "", band->label, sides[band->side],
                           *day ? " " : "", day, number(band->flat_m, 3), describe_points(band));
        if (band->down)
            out = arena_printf(arena, "%s down:%s", out, describe_points(band->down));
    }
    return out;
}

/* "4:7 wrong-unit" of each, in the order said. */
static const char *said(void)
{
    char *out = arena_copy(arena, "");
    for (const struct diag *diag = diags_first(diags); diag; diag = diag->next)
        out = arena_printf(arena, "%s%s%u:%u %s", out, *out ? ", " : "", diag->at.line, diag->at.column,
                           diag_name(diag->id));
    return out;
}

/* --- read --- */

static const struct
{
    const char *text, *bands;
} good[] = {
    {"length (m),pull (kg)\n1.04,0\n1.2,8.5\n1.6,19\n", "b26 flat 1.040: 1.200 8.50 1.600 19.00"},
    {"pull (kg),length (m)\n19,1.6\n8.5,1.2\n0,1.04\n", "b26 flat 1.040: 1.200 8.50 1.600 19.00"},
    /* units: in the header, in the cell, the cell winning; every one there is */
    {"length_cm,force_N\n104,0\n120,98.0665\n", "b26 flat 1.040: 1.200 10.00"},
    {"Length [mm];Tension [lb]\n1000;0\n1270;22.0462262\n", "b26 flat 1.000: 1.270 10.00"},
    {"stretch in inches,load in lbf\n40,0\n50,22.0462262\n", "b26 flat 1.016: 1.270 10.00"},
    {"end-to-end,pull\n4 ft,0\n5ft,10 kgf\n6 feet,20kp\n", "b26 flat 1.219: 1.524 10.00 1.829 20.00"},
    {"length (cm),pull (kg)\n104,0\n1.2 m,22.0462262 lb\n", "b26 flat 1.040: 1.200 10.00"},
    {"m,kg\n1.04,0\n1.2,8.5\n", "b26 flat 1.040: 1.200 8.50"},
    {"length in,pull kg\n40,0\n50,10\n", "b26 flat 1.016: 1.270 10.00"},
    /* separators and decimal signs */
    {"length (m);pull (kg)\n1,04;0\n1,2;8,5\n", "b26 flat 1.040: 1.200 8.50"},
    {"length (m)\tpull (kg)\n1,04 m\t0\n1,2\t8,5\n", "b26 flat 1.040: 1.200 8.50"},
    {"length (m);pull (kg)\n1.04;0\n1.2;8.5\n", "b26 flat 1.040: 1.200 8.50"},
    {"date;length (m);pull (kg)\n3.1.2026;1,04;0\n3.1.2026;1,2;8,5\n", "b26 2026-01-03 flat 1.040: 1.200 8.50"},
    /* titles, comments, blank lines, trailing empty cells, a mark, CR LF */
    {"\xEF\xBB\xBFour bands\r\n# scale no 2\r\nlength (m),pull (kg),,\r\n\r\n# up\r\n1.04,0,,\r\n,,,\r\n1.2,8.5,,\r\n",
     "b26 flat 1.040: 1.200 8.50"},
    /* flat: pull 0, a column, and both where they agree; extension */
    {"flat (cm),length (cm),pull (kg)\n104,120,8.5\n,160,19\n", "b26 flat 1.040: 1.200 8.50 1.600 19.00"},
    {"flat (cm),length (cm),pull (kg)\n104,120,8.5\n,104.2,0\n", "b26 flat 1.041: 1.200 8.50"},
    {"extension (cm),pull (kg),flat (m)\n16,8.5,1.04\n0,0,\n56,19,\n", "b26 flat 1.040: 1.200 8.50 1.600 19.00"},
    /* repeats: lines, columns, and in two units */
    {"length (m),pull (kg)\n1.04,0\n1.2,8.4\n1.2,8.6\n", "b26 flat 1.040: 1.200 8.50~0.20"},
    {"length (m),pull 1 (kg),pull 2 (kg),pull (kg) 3\n1.04,0,,\n1.2,8.4,8.6,8.5\n1.6,19,,19.2\n",
     "b26 flat 1.040: 1.200 8.50~0.20 1.600 19.10~0.20"},
    {"length,pull (kg)\n1.016 m,0\n1.27 m,10\n50 in,10.2\n", "b26 flat 1.016: 1.270 10.10~0.20"},
    /* bands, sides and dates in one file, named in other cases and columns */
    {"band,side,date,length (m),pull (kg),flat\nb9,L,2026-01-03,1.2,8.5,1.04 m\nB9,right,2026-01-03,1.2,8.4,1.04 m\n"
     "b9,left,2025-01-03,1.2,9,1.04 m\nb8,,2026-01-03,1.2,5,1.04 m\n",
     "b9 L 2025-01-03 flat 1.040: 1.200 9.00 | b9 L 2026-01-03 flat 1.040: 1.200 8.50 | B9 R 2026-01-03 flat 1.040: "
     "1.200 8.40 | "
     "b8 2026-01-03 flat 1.040: 1.200 5.00"},
    {"length (cm),left (kg),pull right (kg)\n104,0,0\n120,8.5,8.4\n",
     "b26 L flat 1.040: 1.200 8.50 | b26 R flat 1.040: 1.200 8.40"},
    /* both ways; let go, a band may be slack before it is as short as flat */
    {"way,length (m),pull (kg)\nup,1.04,0\nup,1.2,8.5\nUp,1.6,19\ndown,1.2,7\ndown,1.06,0\ndown,1.04,0\n,1.8,23\n",
     "b26 flat 1.040: 1.200 8.50 1.600 19.00 1.800 23.00 down: 1.060 0.00 1.200 7.00"},
    {"way,extension (m),left (kg),right (kg),flat (m)\ndown,0.16,7,6.9,1.04\nup,0.16,8.5,8.4,1.04\ndown,0.1,5,,1.04\n"
     "up,0.56,19,18.9,\n",
     "b26 L flat 1.040: 1.200 8.50 1.600 19.00 down: 1.140 5.00 1.200 7.00 | b26 R flat 1.040: 1.200 8.40 1.600 18.90 "
     "down: 1.200 6.90"},
    /* pulls that do not fall are enough */
    {"length (m),pull (kg)\n1.04,0\n1.2,8.5\n1.21,8.5\n", "b26 flat 1.040: 1.200 8.50 1.210 8.50"},
};

START_TEST(reads)
{
    struct measured_bands bands = read_text_as(good[_i].text, &plain);
    ck_assert_str_eq(describe(&bands), good[_i].bands);
    for (const struct diag *diag = diags_first(diags); diag; diag = diag->next)
        ck_assert_msg(diag->id == DIAG_ONE_POINT, "%s: %s", diag_name(diag->id), diag->message);
}
END_TEST

/* --- refused --- */

#define HEAD "length (m),pull (kg),flat (m)\n1.2,8.5,1.04\n1.6,19,\n"
#define KEPT "b26 flat 1.040: 1.200 8.50 1.600 19.00"

static const struct
{
    const char *text, *bands, *said;
} bad[] = {
    {HEAD "heavy,9,\n", KEPT, "4:1 bad-measurement"},
    {HEAD "1.3,heavy,\n", KEPT, "4:5 bad-measurement"},
    {HEAD "1.3,-3,\n", KEPT, "4:5 bad-measurement"},
    {HEAD "1.3,,\n", KEPT, "4:0 bad-measurement"},
    {HEAD ",9,\n", KEPT, "4:0 bad-measurement"},
    {HEAD "\"1,3\",9,\n", KEPT, "4:2 bad-measurement"},
    {HEAD "1.3 furlongs,9,\n", KEPT, "4:1 bad-measurement"},
    {HEAD "1.3 kg,9,\n", KEPT, "4:1 wrong-unit"},
    {HEAD "1.3,9 cm,\n", KEPT, "4:5 wrong-unit"},
    {HEAD "130,9,\n", KEPT, "4:1 absurd-number"},
    {HEAD "1.3,9e9,\n", KEPT, "4:5 bad-measurement"},
    {HEAD "1.3,9,,x\n", KEPT, "4:8 extra-cells"},
    {HEAD "\"1.3,9\n", KEPT, "4:0 open-quote"},
    {HEAD "# an \"open\" quote\n1.3\n", KEPT, "5:0 bad-measurement"},
    {HEAD "#,\"open\n1.7,20,\n", KEPT, "4:0 open-quote"},
    /* the way down */
    {"way,length (m),pull (kg),flat (m)\nup,1.2,8.5,1.04\nup,1.6,19,\ndwon,1.2,7,\n", KEPT, "4:1 bad-measurement"},
    {"way,length (m),pull (kg),flat (m)\ndown,1.2,8.5,1.04\ndown,1.6,19,\n", "", "2:6 no-points"},
    {"way,length (m),pull (kg),flat (m)\nup,1.2,8.5,1.04\nup,1.6,19,\ndown,1.2,9.3,\n", KEPT, "4:6 contradiction"},
    {"way,length (m),pull (kg),flat (m)\nup,1.2,8.5,1.04\nup,1.6,19,\ndown,1.2,9.2,\n", KEPT " down: 1.200 9.20", ""},
    {"way,length (m),pull (kg),flat (m)\nup,1.2,8.5,1.04\nup,1.6,19,\ndown,1.2,7,1.1\n", KEPT, "4:6 contradiction"},
    {"way,length (m),pull (kg),flat (m)\nup,1.2,8.5,1.04\nup,1.6,19,\ndown,1.3,7,\ndown,1.4,6.5,\n",
     KEPT " down: 1.300 7.00", "5:6 pull-falls"},
    /* shorter than flat, or as long, with a pull */
    {HEAD "0.9,1,\n", KEPT, "4:1 below-flat"},
    {HEAD "1.04,1,\n", KEPT, "4:1 below-flat"},
    /* the fewest points go that the pull never falls without: the one too low, the one too high */
    {HEAD "1.4,5,\n1.8,23,\n", "b26 flat 1.040: 1.200 8.50 1.600 19.00 1.800 23.00", "4:1 pull-falls"},
    {HEAD "1.4,90,\n1.8,23,\n", "b26 flat 1.040: 1.200 8.50 1.600 19.00 1.800 23.00", "4:1 pull-falls"},
    /* equal lengths, different pulls: neither can be believed */
    {HEAD "1.4,14,\n1.4,17,\n", KEPT, "5:1 repeats-differ"},
    {HEAD "1.6,20.6,\n", "b26 flat 1.040: 1.200 8.50 1.600 19.80~1.60", ""},
    {HEAD "1.6,20.8,\n", "b26 flat 1.040: 1.200 8.50", "4:1 repeats-differ, 2:1 one-point"},
    /* flat length */
    {"length (m),pull (kg)\n1.2,8.5\n", "", "2:1 no-flat-length"},
    {"length (m),pull (kg)\n1.04,0\n1.1,0\n1.2,8.5\n", "", "3:1 contradiction"},
    {"length (m),pull (kg),flat (m)\n1.2,8.5,1.04\n1.1,0,\n", "", "3:1 contradiction"},
    /* one point, no point */
    {"length (m),pull (kg)\n1.04,0\n1.2,8.5\n", "b26 flat 1.040: 1.200 8.50", "2:1 one-point"},
    {"length (m),pull (kg)\n1.04,0\n", "", "2:1 no-points"},
    {"length (m),pull (kg)\n", "", "0:0 no-points"},
    /* units that nobody says */
    {"length (m),pull\n1.04,0\n1.2,8.5 kg\n1.3,9\n1.4,10 kg\n", "b26 flat 1.040: 1.200 8.50 1.400 10.00",
     "4:5 missing-unit"},
    {"length,pull (kg)\n1.2,8\n", "", "2:1 missing-unit, 0:0 no-points"},
    /* cells that do not name what their column is for */
    {"band,length (m),pull (kg)\n,1.2,8\n", "", "2:0 bad-measurement, 0:0 no-points"},
    {"side,length (m),pull (kg)\nmiddle,1.2,8\n", "", "2:1 bad-measurement, 0:0 no-points"},
    {"date,length (m),pull (kg)\n,1.2,8\n2026-02-30,1.2,8\n", "", "2:0 missing-date, 3:1 bad-date, 0:0 no-points"},
    /* the file as a whole */
    {"", "", "0:0 not-measurements"},
    {"just,text\n", "", "0:0 not-measurements"},
    {"length (m),note\n1.2,x\n", "", "1:0 not-measurements"},
    {"pull (kg)\n1.2\n", "", "1:0 not-measurements"},
    {"length (kg),pull (kg)\n1.2,8\n", "", "1:1 not-measurements"},
    {"length (m),pull (cm)\n1.2,8\n", "", "1:12 not-measurements"},
    {"length (m),pull (kg),flat (lb)\n1.2,8,1\n", "", "1:22 not-measurements"},
    {"date,length (m),pull (kg)\n03/04/2026,1.04,0\n03/04/2026,1.2,8\n", "", "2:0 unsettled-dates"},
    {"length (m),pull (kg),wall\n1.04,0,grey\n1.2,8.5,\n1.3,9,\n", "b26 flat 1.040: 1.200 8.50 1.300 9.00",
     "1:22 ignored-column"},
};

START_TEST(refuses)
{
    struct measured_bands bands = read_text_as(bad[_i].text, &plain);
    ck_assert_str_eq(describe(&bands), bad[_i].bands);
    ck_assert_str_eq(said(), bad[_i].said);
}
END_TEST

/* --- what the user adds --- */

static const struct
{
    const char *text, *bands;
    struct measurement_options options;
} told[] = {
    {"length (m),pull (kg)\n1.2,8.5\n", "b26 flat 1.040: 1.200 8.50", {.flat_m = 1.04, .pull_unit_kg = NAN}},
    {"length (m),pull (kg)\n1.05,0\n1.2,8.5\n", "b26 flat 1.050: 1.200 8.50", {.flat_m = 1.04, .pull_unit_kg = NAN}},
    {"length (m),pull (kg)\n1.2,8.5\n",
     "left one flat 1.040: 1.200 8.50",
     {.flat_m = 1.04, .pull_unit_kg = NAN, .label = "left one"}},
    {"length (m),pull\n1.2,8.5\n1.3,9 lb\n", "b26 flat 1.040: 1.200 8.50", {.flat_m = 1.04, .pull_unit_kg = 1}},
    {"date,length (m),pull (kg)\n03/04/2026,1.2,8.5\n",
     "b26 2026-04-03 flat 1.040: 1.200 8.50",
     {.flat_m = 1.04, .pull_unit_kg = NAN, .dates = DATES_DMY}},
    {"date,length (m),pull (kg)\n03/04/2026,1.2,8.5\n",
     "b26 2026-03-04 flat 1.040: 1.200 8.50",
     {.flat_m = 1.04, .pull_unit_kg = NAN, .dates = DATES_MDY}},
    {"date,length (m),pull (kg)\n03/25/2026,1.2,8.5\n03/26/2026,1.2,8.4\n",
     "",
     {.flat_m = 1.04, .pull_unit_kg = NAN, .dates = DATES_DMY}},
};

START_TEST(told_by_the_user)
{
    struct measured_bands bands = read_text_as(told[_i].text, &told[_i].options);
    ck_assert_str_eq(describe(&bands), told[_i].bands);
}
END_TEST

/* Rows in order under one reading only settle the dates; a date that is one way only settles them for all. */
START_TEST(dates_settled_by_the_file)
{
    struct measurement_options options = {.flat_m = 1.04, .pull_unit_kg = NAN};
    struct measured_bands bands = read_text_as("date,length (m),pull (kg)\n03/04/2026,1.2,8.5\n25/04/2026,1.2,8.4\n",
                                               &options);
    ck_assert_str_eq(describe(&bands), "b26 2026-04-03 flat 1.040: 1.200 8.50 | b26 2026-04-25 flat 1.040: 1.200 8.40");
}
END_TEST

START_TEST(too_many_lengths)
{
    char *text = arena_copy(arena, "length (mm),pull (kg)\n1000,0\n");
    for (int i = 0; i <= MOST_LENGTHS; i++)
        text = arena_printf(arena, "%s%d,%d\n", text, 1010 + 2 * i, 1 + i / 10);
    struct measured_bands bands = read_text_as(text, &plain);
    ck_assert_uint_eq(bands.list.count, 0);
    ck_assert_str_eq(said(), "2:1 limit-reached");
}
END_TEST

static const char awkward[] = {'\0', '\n', '\r', '"', ',', ';', '.',        '#',
                               '-',  '\t', ' ',  '0', '9', 'Z', (char)0xC3, (char)0xFF};

/* A file that is cut anywhere, or has a byte changed, is read or refused; points always rise. */
START_TEST(cut_and_changed)
{
    static const char whole[] = "band;side;date;length (cm);pull 1 (kg);flat\n"
                                "b9;left;2026-01-03;120,5;8,5;1,04 m\nb9;left;2026-01-03;160;19 kg;\n";
    char text[sizeof whole];
    for (size_t i = 0; i + 1 < sizeof whole; i++) {
        memcpy(text, whole, sizeof whole);
        text[i] = awkward[_i];
        struct measured_bands bands = read_bytes(text, _i ? sizeof whole - 1 : i, &plain);
        for (size_t b = 0; b < bands.list.count; b++) {
            const struct measured_band *band = &bands.list.items[b];
            ck_assert_uint_gt(band->count, 0);
            ck_assert(band->points[0].length_m > band->flat_m);
            for (size_t k = 1; k < band->count; k++)
                ck_assert(band->points[k].length_m > band->points[k - 1].length_m &&
                          band->points[k].pull_kg >= band->points[k - 1].pull_kg);
        }
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("measurements");
    TCase *cases = tcase_create("measurements");
    tcase_add_checked_fixture(cases, set_up, tear_down);
    tcase_add_loop_test(cases, reads, 0, COUNT(good));
    tcase_add_loop_test(cases, refuses, 0, COUNT(bad));
    tcase_add_loop_test(cases, told_by_the_user, 0, COUNT(told));
    tcase_add_test(cases, dates_settled_by_the_file);
    tcase_add_test(cases, too_many_lengths);
    tcase_add_loop_test(cases, cut_and_changed, 0, COUNT(awkward));
    tcase_set_timeout(cases, 30);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_ENV);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
