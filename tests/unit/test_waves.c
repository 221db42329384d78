#include "analysis/waves.h"
#include "analysis/week_work.h"

#include "unit/made_log.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define MAX_KG 200
#define MOST_WEEKS 12

static struct made *made;
static const char *const squat_only[] = {"squat"};

static void setup(void)
{
    made = made_new();
    made->options.lifts = (struct name_choice){squat_only, 1};
    add_max(made, add_lifter(made, ODA), "squat", "2025-12-20", MAX_KG);
}

static void teardown(void)
{
    made_free(made);
}

/* Sets of a week, counted from the one of 2026-01-05. */
static struct set *in_week(int week, const struct load *load, int sets, int reps, enum focus focus)
{
    char iso[16];
    date_print(iso, day_of("2026-01-05") + 7 * week);
    struct set *last = NULL;
    for (int i = 0; i < sets; i++) {
        last = add_sets(made, ODA, "squat", iso, load, 1, reps);
        last->focus = (uint8_t)focus;
    }
    return last;
}

static const struct waves *waves_of_log(void)
{
    return waves_make(made->arena, train(made));
}

/* kg 0: no training that week. Expected: wave and step of each week, as digits: "0" for none, "-" for no training. */
static const struct
{
    const char *what;
    double kg[MOST_WEEKS], top_kg[MOST_WEEKS]; /* top_kg 0: no AR */
    const char *waves, *steps;
    enum wave_end first_end;
} runs[] = {
    {"three weeks up, three weeks up", {100, 110, 120, 100, 110, 120}, {0}, "111222", "123123", WAVE_ENDED_BY_FALL},
    {"level weeks are of the wave", {100, 100, 100}, {0}, "111", "123", WAVE_OPEN},
    {"half a per cent is no fall", {200, 199.1, 199}, {0}, "111", "123", WAVE_OPEN},
    {"more is one", {200, 198.9, 199}, {0}, "011", "012", WAVE_OPEN},
    {"one week's rest is no gap", {100, 0, 110, 120}, {0}, "1-11", "1-23", WAVE_OPEN},
    {"two are", {100, 110, 0, 0, 120, 130}, {0}, "11--22", "12--12", WAVE_ENDED_BY_GAP},
    {"a run of one week is no wave", {100, 90, 80, 70}, {0}, "0000", "0000", WAVE_OPEN},
    {"a light week stands in none", {100, 110, 80, 100, 110}, {0}, "11022", "12012", WAVE_ENDED_BY_LIGHT},
    {"15 % back is a new wave's step", {100, 110, 100, 115, 120}, {0}, "11222", "12123", WAVE_ENDED_BY_FALL},
    {"a light week between two single weeks", {110, 80, 100}, {0}, "000", "000", WAVE_OPEN},
    {"a light week at the end is only a fall", {100, 110, 80}, {0}, "110", "120", WAVE_ENDED_BY_FALL},
    {"two light weeks are no lone one", {100, 110, 80, 80, 110}, {0}, "11222", "12123", WAVE_ENDED_BY_FALL},
    {"a fall at the top alone", {100, 100, 100, 100}, {130, 130, 120, 120}, "1122", "1212", WAVE_ENDED_BY_TOP},
    {"a top that falls while the weight rises", {100, 105, 110}, {140, 130, 120}, "111", "123", WAVE_OPEN},
    {"a missed first week leaves a hole",
     {100, 110, 120, 100, 110, 120, 0, 110, 120, 100, 110, 120},
     {0},
     "111222-33444",
     "123123-23123",
     WAVE_ENDED_BY_FALL},
    {"after a missed week, no step up begins a wave",
     {100, 105, 110, 100, 105, 110, 0, 110.5, 115},
     {0},
     "111222-33",
     "123123-23",
     WAVE_ENDED_BY_FALL},
    {"a slip neither begins nor ends one",
     {100, 105, 110, 100, 210, 110, 100, 105, 110},
     {0},
     "1112-2333",
     "1231-3123",
     WAVE_ENDED_BY_FALL},
    /* more than 1.12 x 110 = 123.2 kg; 3 x 1.4826 x 5 = 22.2 kg from the median of 105 kg would be a slip */
    {"nor does a week that is far off",
     {100, 105, 110, 100, 127, 110, 100, 105, 110},
     {0},
     "111222333",
     "123123123",
     WAVE_ENDED_BY_FALL},
};

START_TEST(weeks_make_waves)
{
    size_t weeks = strlen(runs[_i].waves);
    for (size_t week = 0; week < weeks; week++) {
        double kg = runs[_i].kg[week], top_kg = runs[_i].top_kg[week];
        if (kg > 0)
            in_week((int)week, top_kg > 0 ? banded(made, kg, 0, top_kg - kg) : mass(made, kg), 3, 5, FOCUS_STRENGTH);
    }
    const struct waves *waves = waves_of_log();
    size_t printed = 0, trained = 0;
    for (size_t week = 0; week < weeks; week++) {
        if (runs[_i].waves[week] == '-')
            continue;
        const struct wave_week *found = &waves->all[trained++];
        ck_assert_int_eq(found->week, week_of(day_of("2026-01-05")) + (week_number)week);
        ck_assert_msg(found->wave == (unsigned)(runs[_i].waves[week] - '0'), "%s: week %zu in wave %u", runs[_i].what,
                      week, found->wave);
        ck_assert_msg(found->step == (unsigned)(runs[_i].steps[week] - '0'), "%s: week %zu step %u", runs[_i].what,
                      week, found->step);
        if (found->wave) {
            ck_assert_int_eq(waves->weeks[printed].week, found->week);
            ck_assert_uint_eq(waves->weeks[printed++].step, found->step);
        }
    }
    ck_assert_uint_eq(waves->all_count, trained);
    ck_assert_uint_eq(waves->count, printed);
    if (waves->wave_count) {
        ck_assert_int_eq(waves->waves[0].end, runs[_i].first_end);
        ck_assert_int_eq(waves->waves[0].ended_by_top, runs[_i].first_end == WAVE_ENDED_BY_TOP);
        ck_assert_int_eq(waves->waves[0].next == NULL, runs[_i].first_end == WAVE_OPEN);
    }
}
END_TEST

static const struct
{
    const char *what;
    enum focus focus;
    struct
    {
        double kg;
        int sets, reps;
    } sets[4];
    double working_kg;
} weeks[] = {
    {"the heaviest in strength work", FOCUS_STRENGTH, {{60, 2, 5}, {100, 3, 5}, {110, 1, 3}}, 110},
    {"most repetitions", FOCUS_VOLUME, {{100, 3, 8}, {110, 1, 6}}, 100},
    {"the heavier of two alike", FOCUS_VOLUME, {{100, 1, 12}, {110, 2, 6}}, 110},
    {"warm-ups that are not marked", FOCUS_VOLUME, {{60, 2, 20}, {79, 1, 18}, {100, 3, 8}}, 100},
    {"80 % still counts", FOCUS_VOLUME, {{80, 2, 20}, {100, 3, 8}}, 80},
    {"but not in speed work", FOCUS_SPEED, {{60, 10, 2}, {100, 3, 3}}, 60},
};

START_TEST(working_load)
{
    for (int i = 0; i < 4 && weeks[_i].sets[i].sets; i++)
        in_week(0, mass(made, weeks[_i].sets[i].kg), weeks[_i].sets[i].sets, weeks[_i].sets[i].reps, weeks[_i].focus);
    const struct waves *waves = waves_of_log();
    ck_assert_uint_eq(waves->all_count, 1);
    ck_assert_msg(waves->all[0].load_kg[LOAD_STRAIGHT] == weeks[_i].working_kg, "%s: %g kg", weeks[_i].what,
                  waves->all[0].load_kg[LOAD_STRAIGHT]);
}
END_TEST

/* Those at the working load alone, of as many repetitions as most had; of more where as many sets had each. */
START_TEST(the_work_of_a_week)
{
    in_week(0, mass(made, 100), 3, 5, FOCUS_STRENGTH);
    in_week(0, mass(made, 120), 1, 2, FOCUS_STRENGTH);
    in_week(0, mass(made, 120), 2, 3, FOCUS_STRENGTH);
    in_week(0, mass(made, 120), 1, 2, FOCUS_STRENGTH);
    in_week(1, mass(made, 125), 2, 2, FOCUS_STRENGTH);
    in_week(1, mass(made, 125), 1, 3, FOCUS_STRENGTH);
    in_week(2, mass(made, 130), 2, 3, FOCUS_STRENGTH);
    in_week(2, mass(made, 130), 2, 2, FOCUS_STRENGTH);
    static const struct week_work wanted[] = {{.sets = 4, .reps = 3}, {.sets = 3, .reps = 2}, {.sets = 4, .reps = 3}};
    const struct training *training = train(made);
    const struct waves *waves = waves_make(made->arena, training);
    for (size_t i = 0; i < 3; i++) {
        struct week_work work = week_work(made->arena, training, &waves->all[i]);
        ck_assert_int_eq((int)work.sets, (int)wanted[i].sets);
        ck_assert_int_eq(work.reps, wanted[i].reps);
    }
}
END_TEST

START_TEST(a_set_far_above_the_usual_top_is_no_working_load)
{
    static const double tops[] = {100, 105, 110, 100, 105, 110};
    for (int week = 0; week < 6; week++)
        in_week(week, mass(made, tops[week]), 3, 5, FOCUS_STRENGTH);
    in_week(2, mass(made, 180), 1, 1, FOCUS_STRENGTH);
    ck_assert_double_eq(waves_of_log()->all[2].load_kg[LOAD_STRAIGHT], 110);
}
END_TEST

/* By its load it would begin a wave. */
START_TEST(a_week_that_the_log_calls_a_deload_is_light)
{
    static const double kg[] = {100, 105, 110, 100, 105, 110, 95, 100};
    for (int week = 0; week < 8; week++)
        in_week(week, mass(made, kg[week]), 3, 5, FOCUS_STRENGTH);
    ck_assert_uint_eq(waves_of_log()->wave_count, 3);
    for (size_t i = 0; i < made->log->sets.count; i++)
        made->log->sets.items[i].light = made->log->sets.items[i].weight->kg < 97;
    const struct waves *waves = waves_of_log();
    ck_assert_uint_eq(waves->wave_count, 2);
    ck_assert(waves->all[6].light);
    ck_assert_uint_eq(waves->all[6].wave, 0);
}
END_TEST

START_TEST(a_week_of_half_the_repetitions_is_light)
{
    static const double tops[] = {100, 110, 120, 100, 100, 110, 120, 100};
    for (int week = 0; week < 8; week++)
        in_week(week, mass(made, tops[week]), week % 4 == 3 ? 1 : 3, 5, FOCUS_STRENGTH);
    const struct waves *waves = waves_of_log();
    ck_assert_uint_eq(waves->wave_count, 2);
    ck_assert(waves->all[3].light);
    ck_assert_uint_eq(waves->all[3].wave, 0);
    ck_assert(!waves->all[7].light); /* what follows it is not known */
    ck_assert_uint_eq(waves->waves[1].count, 3);
}
END_TEST

static void on_day(int day, double kg)
{
    char iso[16];
    date_print(iso, day_of("2026-01-05") + day);
    for (int i = 0; i < 3; i++)
        add_sets(made, ODA, "squat", iso, mass(made, kg), 1, 5)->focus = FOCUS_STRENGTH;
}

START_TEST(a_session_at_the_edge_goes_to_the_week_that_lacks_one)
{
    on_day(0, 100);
    on_day(6, 105); /* a Sunday: the week after has no session */
    on_day(14, 110);
    on_day(21, 100);
    on_day(29, 105); /* a Tuesday with a week of its own */
    const struct waves *waves = waves_of_log();
    ck_assert_uint_eq(waves->all_count, 5);
    ck_assert_int_eq(waves->all[1].week, waves->all[0].week + 1);
    ck_assert_int_eq(waves->all[1].first_day, day_of("2026-01-11"));
    ck_assert_uint_eq(waves->waves[0].count, 3);
}
END_TEST

START_TEST(a_week_off_its_place_is_set_aside)
{
    static const double loads[] = {100, 110, 120, 101, 111, 121, 102, 122, 122, 103, 113, 123}; /* 122 for 112 */
    for (int week = 0; week < 12; week++)
        in_week(week, mass(made, loads[week]), 3, 5, FOCUS_STRENGTH);
    const struct waves *waves = waves_of_log();
    for (size_t i = 0; i < waves->count; i++)
        ck_assert_int_eq(waves->weeks[i].aside, i == 7);
    ck_assert(isnan(waves->weeks[7].over_kg[LOAD_TOP]) && isnan(waves->weeks[10].over_kg[LOAD_TOP]));
}
END_TEST

START_TEST(working_load_s_ar_has_most_repetitions_then_the_heavier_top)
{
    in_week(0, mass(made, 100), 2, 2, FOCUS_SPEED);
    in_week(0, banded(made, 100, 0, 20), 1, 3, FOCUS_SPEED);
    in_week(0, banded(made, 100, 0, 30), 1, 2, FOCUS_SPEED);
    in_week(1, banded(made, 100, 0, 20), 2, 2, FOCUS_SPEED);
    in_week(1, banded(made, 100, 0, 30), 2, 2, FOCUS_SPEED);
    const struct waves *waves = waves_of_log();
    ck_assert_double_eq(waves->weeks[0].load_kg[LOAD_TOP], 100);
    ck_assert_str_eq(waves->weeks[0].ar, "");
    ck_assert_double_eq(waves->weeks[1].load_kg[LOAD_TOP], 130);
    ck_assert(!same_ar(waves->weeks[0].working, waves->weeks[1].working));
}
END_TEST

START_TEST(a_wave_week_has_all_its_columns)
{
    in_week(0, banded(made, 100, 10, 40), 8, 2, FOCUS_SPEED);
    in_week(0, mass(made, 60), 1, 3, FOCUS_SPEED);
    in_week(1, banded(made, 110, 10, 40), 8, 2, FOCUS_SPEED);
    in_week(1, mass(made, 180), 3, 1, FOCUS_STRENGTH);
    const struct waves *waves = waves_of_log();
    ck_assert_uint_eq(waves->count, 2);
    const struct wave_week *first = &waves->weeks[0], *second = &waves->weeks[1];
    ck_assert_int_eq(first->focus, FOCUS_SPEED);
    ck_assert_uint_eq(first->sets, 9);
    ck_assert_uint_eq(first->lifts, 19);
    static const double loads[LOAD_MEASURES] = {100, 110, 140, 125};
    for (int measure = 0; measure < LOAD_MEASURES; measure++) {
        ck_assert_double_eq(first->load_kg[measure], loads[measure]);
        ck_assert_double_eq(first->volume_kg[measure], 16 * loads[measure] + 180);
        ck_assert(isnan(first->over_kg[measure]));
    }
    ck_assert_double_eq(first->straight_share, 0.5);
    ck_assert_double_eq(first->share, 0.15);
    ck_assert(isnan(first->step_points) && isnan(first->over_volume_kg) && isnan(first->over_ar_kg) &&
              isnan(first->over_weight_kg));
    ck_assert_ptr_null(first->before);
    ck_assert_str_ne(first->ar, "");
    ck_assert_double_eq_tol(second->step_points, 0.05, 1e-12);
    ck_assert_uint_eq(second->sets, 8); /* the heavy day is another focus */
}
END_TEST

START_TEST(overload_is_against_the_same_step_and_split)
{
    in_week(0, banded(made, 100, 0, 40), 8, 2, FOCUS_SPEED);
    in_week(1, banded(made, 110, 0, 40), 8, 2, FOCUS_SPEED);
    in_week(2, banded(made, 105, 0, 40), 8, 2, FOCUS_SPEED);
    in_week(3, banded(made, 115, 10, 60), 8, 2, FOCUS_SPEED);
    in_week(4, banded(made, 120, 10, 60), 8, 2, FOCUS_SPEED); /* a third step: the wave before has none */
    const struct waves *waves = waves_of_log();
    ck_assert_uint_eq(waves->wave_count, 2);
    const struct wave_week *clean = &waves->waves[1].weeks[0], *changed = &waves->waves[1].weeks[1];
    ck_assert_ptr_eq(clean->before, &waves->waves[0].weeks[0]);
    ck_assert(clean->same_ar);
    ck_assert_double_eq(clean->over_kg[LOAD_STRAIGHT], 5);
    ck_assert_double_eq(clean->over_kg[LOAD_TOP], 5);
    ck_assert_double_eq(clean->over_weight_kg, 5);
    ck_assert_double_eq(clean->over_ar_kg, 0);
    ck_assert_double_eq(clean->over_volume_kg, 80);
    ck_assert(!changed->same_ar);
    ck_assert_double_eq(changed->over_kg[LOAD_BOTTOM], 15);
    ck_assert_double_eq(changed->over_kg[LOAD_TOP], 25);
    ck_assert_double_eq(changed->over_kg[LOAD_MEAN], 20);
    ck_assert_double_eq(changed->over_weight_kg, 5);
    ck_assert_double_eq(changed->over_ar_kg, 15);
    ck_assert_ptr_null(waves->waves[1].weeks[2].before);
    ck_assert(isnan(waves->waves[1].weeks[2].over_kg[LOAD_MEAN]));
}
END_TEST

/* Mondays from 2026-01-05: two waves of three weeks. */
static const struct
{
    const char *from, *to; /* NULL: open */
    size_t waves, weeks, first_step;
} windows[] = {
    {NULL, NULL, 2, 6, 1},
    {"2026-01-12", NULL, 2, 5, 2},
    {"2026-01-13", NULL, 2, 4, 3},
    {"2026-01-26", NULL, 1, 3, 1},
    {NULL, "2026-01-19", 1, 3, 1},
    {NULL, "2026-01-18", 1, 2, 1},
    {"2026-01-12", "2026-02-02", 2, 4, 2},
    {"2026-02-10", NULL, 0, 0, 0},
};

START_TEST(weeks_of_a_window)
{
    for (int week = 0; week < 6; week++)
        in_week(week, mass(made, 100 + 5 * (week % 3)), 3, 5, FOCUS_STRENGTH);
    const struct waves *shown = waves_window(made->arena, waves_of_log(),
                                             windows[_i].from ? day_of(windows[_i].from) : NO_DAY,
                                             windows[_i].to ? day_of(windows[_i].to) : NO_DAY);
    ck_assert_uint_eq(shown->wave_count, windows[_i].waves);
    ck_assert_uint_eq(shown->count, windows[_i].weeks);
    ck_assert_uint_eq(shown->all_count, windows[_i].weeks);
    if (shown->count)
        ck_assert_uint_eq(shown->weeks[0].step, windows[_i].first_step);
}
END_TEST

START_TEST(unknown_gear_leaves_all_but_the_straight_weight_empty)
{
    in_week(0, labelled(made, 100, "b99"), 3, 5, FOCUS_STRENGTH);
    in_week(1, labelled(made, 100, "b99"), 3, 5, FOCUS_STRENGTH);
    in_week(2, labelled(made, 90, "b99"), 3, 5, FOCUS_STRENGTH);
    in_week(3, labelled(made, 100, "b99"), 3, 5, FOCUS_STRENGTH);
    const struct waves *waves = waves_of_log();
    ck_assert_uint_eq(waves->count, 4);
    const struct wave_week *week = &waves->weeks[2];
    ck_assert_double_eq(week->load_kg[LOAD_STRAIGHT], 90);
    ck_assert(isnan(week->load_kg[LOAD_BOTTOM]) && isnan(week->load_kg[LOAD_TOP]) && isnan(week->load_kg[LOAD_MEAN]));
    ck_assert(isnan(week->share));
    ck_assert_double_eq(week->over_kg[LOAD_STRAIGHT], -10);
    ck_assert(isnan(week->over_kg[LOAD_TOP]) && isnan(week->over_ar_kg) && isnan(week->over_weight_kg));
    ck_assert_double_eq(week->volume_kg[LOAD_TOP], 1350);
}
END_TEST

static const struct load *with_releasers(double kg) /* of unknown mass */
{
    struct piece piece = {
        .kind = PIECE_RELEASER, .per_side = 1, .mass_kg = NAN, .bottom_kg = NAN, .top_kg = NAN, .leader_m = NAN};
    struct load like = {.straight = STRAIGHT_MASS, .kg = kg, .percent = NAN, .pieces = &piece, .piece_count = 1};
    return load_intern(made->log->loads, &like);
}

START_TEST(releasers_of_unknown_mass_leave_the_loads_known)
{
    in_week(0, with_releasers(90), 3, 2, FOCUS_STRENGTH);
    in_week(1, with_releasers(95), 3, 2, FOCUS_STRENGTH);
    const struct waves *waves = waves_of_log();
    ck_assert_uint_eq(waves->count, 2);
    for (int measure = 0; measure < LOAD_MEASURES; measure++)
        ck_assert_double_eq(waves->weeks[1].load_kg[measure], 95);
    ck_assert(waves->weeks[1].working->effect->assumed & ASSUMED_UNKNOWN_GEAR);
}
END_TEST

START_TEST(sets_without_weight_count_and_make_no_week)
{
    in_week(0, no_load(made), 3, 5, FOCUS_STRENGTH);
    in_week(1, no_load(made), 1, 5, FOCUS_STRENGTH);
    in_week(1, mass(made, 100), 3, 5, FOCUS_STRENGTH);
    const struct waves *waves = waves_of_log();
    ck_assert_uint_eq(waves->all_count, 1);
    ck_assert_uint_eq(waves->all[0].sets, 4);
    ck_assert_double_eq(waves->all[0].volume_kg[LOAD_STRAIGHT], 1500);
}
END_TEST

START_TEST(same_ar_is_the_same_in_any_order)
{
    struct piece bands[2] = {
        {.kind = PIECE_BAND, .mass_kg = NAN, .bottom_kg = 5, .top_kg = 20, .leader_m = NAN, .other_end_said = true},
        {.kind = PIECE_CHAIN, .per_side = 2, .mass_kg = 7, .bottom_kg = NAN, .top_kg = NAN, .leader_m = NAN},
    };
    struct piece turned[2] = {bands[1], bands[0]};
    struct load load = {.straight = STRAIGHT_MASS, .kg = 100, .pieces = bands, .piece_count = 2}, other = load;
    other.pieces = turned;
    other.kg = 120;
    in_week(0, load_intern(made->log->loads, &load), 1, 5, FOCUS_STRENGTH);
    in_week(1, load_intern(made->log->loads, &other), 1, 5, FOCUS_STRENGTH);
    in_week(2, chained(made, 120, 2, 7), 1, 5, FOCUS_STRENGTH);
    in_week(3, chained(made, 120, 1, 14), 1, 5, FOCUS_STRENGTH);
    in_week(4, mass(made, 120), 1, 5, FOCUS_STRENGTH);
    const struct training *training = train(made);
    ck_assert(same_ar(&training->sets[0], &training->sets[1]));
    for (size_t i = 2; i < training->count; i++)
        ck_assert(!same_ar(&training->sets[i - 1], &training->sets[i]));
}
END_TEST

START_TEST(a_set_up_is_part_of_the_ar)
{
    struct setup setups[] = {{.name = "pegs"}, {.name = "posts", .height_m = 0.2}};
    struct lift squat = {.name = "squat", .setup = "pegs"};
    made->gym->setups = setups;
    made->gym->setup_count = 2;
    made->gym->lifts = &squat;
    made->gym->lift_count = 1;
    static const char *const days[] = {"2026-01-01"};
    static const double per_m[] = {20};
    add_band(made, "b26", 1, days, per_m);
    for (int heights = 0; heights < 2; heights++) {
        if (heights)
            add_heights(made, &made->gym->lifters[0], "squat", 1, 1.5);
        made->log->sets.count = 0;
        static const char *const written[] = {NULL, "pegs", "posts"};
        for (int i = 0; i < 3; i++) {
            struct piece band = {.kind = PIECE_BAND,
                                 .per_side = 1,
                                 .label = "b26",
                                 .setup = written[i],
                                 .mass_kg = NAN,
                                 .bottom_kg = NAN,
                                 .top_kg = NAN,
                                 .leader_m = NAN};
            struct load load = {.straight = STRAIGHT_MASS, .kg = 100, .pieces = &band, .piece_count = 1};
            in_week(i, load_intern(made->log->loads, &load), 1, 5, FOCUS_STRENGTH);
        }
        const struct training *training = train(made);
        ck_assert(same_ar(&training->sets[0], &training->sets[1])); /* the lift's own set-up, said and unsaid */
        ck_assert(!same_ar(&training->sets[1], &training->sets[2]));
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("waves");
    TCase *cases = tcase_create("waves");
    tcase_add_checked_fixture(cases, setup, teardown);
    tcase_add_loop_test(cases, weeks_make_waves, 0, sizeof runs / sizeof *runs);
    tcase_add_loop_test(cases, working_load, 0, sizeof weeks / sizeof *weeks);
    tcase_add_test(cases, a_set_far_above_the_usual_top_is_no_working_load);
    tcase_add_test(cases, a_week_that_the_log_calls_a_deload_is_light);
    tcase_add_test(cases, a_week_of_half_the_repetitions_is_light);
    tcase_add_test(cases, a_session_at_the_edge_goes_to_the_week_that_lacks_one);
    tcase_add_test(cases, a_week_off_its_place_is_set_aside);
    tcase_add_test(cases, the_work_of_a_week);
    tcase_add_test(cases, working_load_s_ar_has_most_repetitions_then_the_heavier_top);
    tcase_add_test(cases, a_wave_week_has_all_its_columns);
    tcase_add_test(cases, overload_is_against_the_same_step_and_split);
    tcase_add_loop_test(cases, weeks_of_a_window, 0, sizeof windows / sizeof *windows);
    tcase_add_test(cases, unknown_gear_leaves_all_but_the_straight_weight_empty);
    tcase_add_test(cases, releasers_of_unknown_mass_leave_the_loads_known);
    tcase_add_test(cases, sets_without_weight_count_and_make_no_week);
    tcase_add_test(cases, same_ar_is_the_same_in_any_order);
    tcase_add_test(cases, a_set_up_is_part_of_the_ar);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
