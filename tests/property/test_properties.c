/* What must hold for any record, over thousands that a seeded generator makes: canonical loads read back, CSV reads
 * back, straight weight adds exactly itself, more chain never lowers the top, units and days go there and back. */
#include "property/made_loads.h"

#include "base/date.h"
#include "base/number.h"
#include "base/unit.h"
#include "fuzz/target.h"
#include "model/effect.h"
#include "model/loading.h"
#include "reading/load/load_reader.h"
#include "writing/escape.h"

#include <check.h>
#include <csv.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define SEED 20260112
#define LOADS_MADE 20000
#define EFFECTS_MADE 4000
#define TEXTS_MADE 4000
#define FLOAT_SLACK_KG 1e-9

static struct arena *arena;
static struct loads *loads;
static struct load_reader *reader;
static struct dice dice;

static void begin(void)
{
    arena = arena_new();
    loads = loads_new(arena);
    reader = load_reader_new(arena, loads, target_gym());
    dice.state = SEED;
}

static void end(void)
{
    load_reader_free(reader);
    arena_free(arena);
}

START_TEST(a_canonical_load_reads_back_to_the_same_record)
{
    const struct load_style style = {UNIT_KG, '.'};
    for (int i = 0; i < LOADS_MADE; i++) {
        struct load made = made_load(arena, &dice);
        const struct load *load = load_intern(loads, &made);
        const char *printed = load_print(arena, load);
        struct load_fault fault = {0};
        const struct load *again = load_read(reader, printed, style, &fault);
        ck_assert_msg(again, "'%s' was refused: %s", printed, fault.message);
        /* All of the record but the decimals that were written: 102.50 prints as 102.5. */
        bool same = again->straight == load->straight && again->kg == load->kg && again->percent == load->percent &&
                    again->bars == load->bars && !strcmp(again->ar, load->ar);
        ck_assert_msg(same, "'%s' read back as '%s'", printed, load_print(arena, again));
    }
}
END_TEST

static struct effect weighed(const struct load *load, const char *lift)
{
    const struct gym *gym = target_gym();
    struct loading_context context = {gym, gym_lifter(gym, "Ada"), lift, 20000, 150, 70};
    return loading_effect(loading_make(arena, load, &context), gym);
}

static const char *const lifts[] = {"squat", "bench press", "deadlift"}; /* the last without heights */

START_TEST(straight_weight_adds_exactly_itself)
{
    for (int i = 0; i < EFFECTS_MADE; i++) {
        struct load made = made_load(arena, &dice);
        made.straight = STRAIGHT_MASS;
        made.kg = 400 + dice_below(&dice, 200); /* heavier than any reverse band, or the load would be clamped at 0 */
        const char *lift = lifts[dice_below(&dice, 3)];
        struct effect before = weighed(&made, lift);
        double added = 1 + dice_below(&dice, 100);
        made.kg += added;
        struct effect after = weighed(&made, lift);
        if (before.assumed & ASSUMED_UNLOADED)
            continue;
        ck_assert_double_eq(after.straight_kg - before.straight_kg, added);
        ck_assert(isnan(before.bottom_kg) == isnan(after.bottom_kg) && isnan(before.top_kg) == isnan(after.top_kg));
        if (!isnan(before.bottom_kg))
            ck_assert_double_eq_tol(after.bottom_kg - before.bottom_kg, added, FLOAT_SLACK_KG);
        if (!isnan(before.top_kg))
            ck_assert_double_eq_tol(after.top_kg - before.top_kg, added, FLOAT_SLACK_KG);
        if (!isnan(before.mean_kg))
            ck_assert_double_eq_tol(after.mean_kg - before.mean_kg, added, FLOAT_SLACK_KG);
    }
}
END_TEST

START_TEST(more_chain_never_lowers_the_top)
{
    for (int i = 0; i < EFFECTS_MADE; i++) {
        const char *const labels[] = {NULL, "long", "short"};
        const char *lift = lifts[dice_below(&dice, 3)];
        struct piece chain = {.kind = PIECE_CHAIN,
                              .per_side = 1 + (int)dice_below(&dice, 6),
                              .label = labels[dice_below(&dice, 3)],
                              .mass_kg = NAN,
                              .bottom_kg = NAN,
                              .top_kg = NAN,
                              .leader_m = NAN};
        if (dice_below(&dice, 2))
            chain.mass_kg = dice_mass(&dice, 10, 20); /* far from the gym's, whose known length would be taken */
        struct load load = {.straight = STRAIGHT_MASS, .kg = 100, .pieces = &chain, .piece_count = 1};
        struct effect before = weighed(&load, lift);
        if (dice_below(&dice, 2) || isnan(chain.mass_kg))
            chain.per_side++;
        else
            chain.mass_kg += dice_mass(&dice, 0, 5);
        struct effect after = weighed(&load, lift);
        ck_assert_double_ge(after.top_kg, before.top_kg - FLOAT_SLACK_KG);
        ck_assert_double_ge(after.top_kg, after.bottom_kg - FLOAT_SLACK_KG);
    }
}
END_TEST

/* --- CSV ----------------------------------------------------------------------------------------------------------------------- */

#define MOST_TEXT 40
#define CELLS_A_ROW 3

struct cells
{
    char texts[CELLS_A_ROW][MOST_TEXT * 4 + 2];
    size_t count, rows;
};

static void on_cell(void *text, size_t length, void *context)
{
    struct cells *cells = context;
    ck_assert_uint_lt(cells->count, CELLS_A_ROW);
    ck_assert_uint_lt(length, sizeof cells->texts[0]);
    memcpy(cells->texts[cells->count], text, length);
    cells->texts[cells->count++][length] = 0;
}

static void on_row(int last, void *context)
{
    (void)last;
    ((struct cells *)context)->rows++;
}

static char *made_text(void)
{
    static const char *const parts[] = {
        ",", "\"",       "\n",   "\r\n",         ";", "'", "=", "+", "-", "@", "\t", "a", "7",
        "é", "\x1B[31m", "\xFF", "\xE2\x80\xAE", "|"};
    char *text = arena_copy(arena, "x");
    for (unsigned i = dice_below(&dice, MOST_TEXT); i; i--)
        text = arena_printf(arena, "%s%s", text, parts[dice_below(&dice, sizeof parts / sizeof *parts)]);
    return dice_below(&dice, 2) ? text + 1 : text;
}

START_TEST(csv_that_was_written_reads_back)
{
    for (int i = 0; i < TEXTS_MADE; i++) {
        struct output *output = output_to_memory(arena);
        const char *texts[CELLS_A_ROW];
        bool safe = dice_below(&dice, 2);
        for (size_t k = 0; k < CELLS_A_ROW; k++) {
            texts[k] = made_text();
            if (k)
                output_text(output, ",");
            escape_csv(output, texts[k], safe);
        }
        output_text(output, "\n");
        struct cells cells = {.count = 0};
        struct csv_parser parser;
        size_t length;
        const char *bytes = output_memory(output, &length);
        ck_assert_int_eq(csv_init(&parser, CSV_STRICT | CSV_STRICT_FINI), 0);
        ck_assert_uint_eq(csv_parse(&parser, bytes, length, on_cell, on_row, &cells), length);
        ck_assert_int_eq(csv_fini(&parser, on_cell, on_row, &cells), 0);
        csv_free(&parser);
        bool nothing = !*texts[0] && !*texts[1] && !*texts[2];
        ck_assert_uint_eq(cells.rows, 1);
        ck_assert_uint_eq(cells.count, CELLS_A_ROW);
        for (size_t k = 0; k < CELLS_A_ROW && !nothing; k++) {
            bool formula = safe && *texts[k] && strchr("=+-@\t\r\n", *texts[k]);
            ck_assert(!formula || *cells.texts[k] == '\'');
            ck_assert_str_eq(safe ? escape_csv_undone(cells.texts[k]) : cells.texts[k], texts[k]);
        }
    }
}
END_TEST

/* --- units, numbers, days -------------------------------------------------------------------------------------------------- */

START_TEST(units_and_numbers_go_there_and_back)
{
    for (int i = 0; i < LOADS_MADE; i++) {
        double kg = dice_mass(&dice, 0.25, 2000), back;
        char text[40];
        ck_assert_double_eq_tol(kg_from(kg_to(kg, UNIT_LB), UNIT_LB), kg, kg * 1e-15);
        ck_assert_double_eq(kg_from(kg_to(kg, UNIT_KG), UNIT_KG), kg);
        number_print(text, kg);
        ck_assert(number_whole(text, '.', &back));
        ck_assert_double_eq_tol(back, kg, kg * 5e-9); /* nine digits */
        bool missing;
        strcat(text, " lb");
        ck_assert(mass_read(text, &back, &missing));
        ck_assert_double_eq_tol(kg_to(back, UNIT_LB), kg, kg * 5e-9);
    }
}
END_TEST

START_TEST(days_and_weeks_go_there_and_back)
{
    day_number first, last, back;
    ck_assert(date_make(1900, 1, 1, &first) && date_make(2199, 12, 31, &last));
    for (day_number day = first; day <= last; day++) {
        char text[16];
        int year, week;
        week_number again;
        date_print(text, day);
        ck_assert(date_read_iso(text, &back));
        ck_assert_int_eq(back, day);
        week_split(week_of(day), &year, &week);
        ck_assert(week_make(year, week, &again));
        ck_assert_int_eq(week_monday(again) + day_of_week(day) - 1, day);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("properties");
    TCase *tests = tcase_create("made records");
    tcase_set_timeout(tests, 120);
    tcase_add_checked_fixture(tests, begin, end);
    tcase_add_test(tests, a_canonical_load_reads_back_to_the_same_record);
    tcase_add_test(tests, straight_weight_adds_exactly_itself);
    tcase_add_test(tests, more_chain_never_lowers_the_top);
    tcase_add_test(tests, csv_that_was_written_reads_back);
    tcase_add_test(tests, units_and_numbers_go_there_and_back);
    tcase_add_test(tests, days_and_weeks_go_there_and_back);
    suite_add_tcase(suite, tests);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
