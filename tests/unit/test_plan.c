#include "analysis/plan/plan.h"
#include "analysis/plan/plan_ways.h"

#include "analysis/evaluated_set.h"
#include "unit/made_log.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define MAX_KG 200

static struct made *made;
static struct lifter *oda;
static struct plan_wish wish;

static void setup(void)
{
    made = made_new();
    made->options.today = day_of("2026-01-02"); /* where a plan without a log begins from */
    oda = add_lifter(made, ODA);
    add_max(made, oda, "squat", "2025-12-20", MAX_KG);
    wish = (struct plan_wish){.lifter = ODA,
                              .lift = "squat",
                              .focus = FOCUS_SPEED,
                              .step = NAN,
                              .ar_share = NAN,
                              .max_kg = NAN,
                              .start = NO_DAY};
}

static void teardown(void)
{
    made_free(made);
}

/* Speed work of a week, counted from the one of 2026-01-05, on its Thursday. */
static void speed_week(int week, const struct load *load, int sets, int reps)
{
    char iso[16];
    date_print(iso, day_of("2026-01-08") + 7 * week);
    for (int i = 0; i < sets; i++)
        add_sets(made, ODA, "squat", iso, load, 1, reps)->focus = FOCUS_SPEED;
}

static void speed_wave(void) /* 98, 108, 118 kg with 0 to 40 kg of band */
{
    for (int week = 0; week < 3; week++)
        speed_week(week, banded(made, 98 + 10 * week, 0, 40), 8, 2);
}

static const struct plan *planned(void)
{
    return plan_make(made->arena, train(made), &wish);
}

static struct plan_ways ways_planned(const struct plan_overload *over)
{
    const struct plan_past *past = plan_past_make(made->arena, train(made), wish.lifter, wish.start);
    return plan_ways_make(made->arena, past, &wish, over);
}

static bool raises(const struct plan *plan, enum finding_id id)
{
    for (size_t i = 0; i < plan->finding_count; i++)
        if (plan->findings[i]->id == id)
            return true;
    return false;
}

START_TEST(the_next_speed_wave)
{
    speed_wave();
    const struct plan *plan = planned();
    ck_assert_int_eq(plan->state, PLAN_MADE);
    ck_assert_uint_eq(plan->week_count, 3);
    ck_assert_ptr_nonnull(plan->last);
    ck_assert(plan->same_ar);
    static const double straight_kg[] = {100, 110, 120};
    for (size_t i = 0; i < 3; i++) {
        const struct plan_week *week = &plan->weeks[i];
        ck_assert_int_eq(week->day, day_of("2026-01-29") + 7 * (day_number)i); /* Thursdays go on */
        ck_assert_int_eq(week->week, week_of(week->day));
        ck_assert_double_eq_tol(week->target_kg, straight_kg[i] + 0.5,
                                1e-12); /* 98 kg and a pair of 1.25 kg, and so on */
        ck_assert_double_eq_tol(week->load_kg[LOAD_STRAIGHT], straight_kg[i], 1e-9);
        ck_assert_double_eq_tol(week->load_kg[LOAD_BOTTOM], straight_kg[i], 1e-9);
        ck_assert_double_eq_tol(week->load_kg[LOAD_TOP], straight_kg[i] + 40, 1e-9);
        ck_assert_double_eq_tol(week->load_kg[LOAD_MEAN], straight_kg[i] + 20, 1e-9);
        ck_assert_double_eq_tol(week->share, 0.2, 1e-12);
        ck_assert_int_eq(week->sets, 8);
        ck_assert_int_eq(week->reps, 2);
        ck_assert_double_eq_tol(week->volume_kg[LOAD_MEAN], 16 * (straight_kg[i] + 20), 1e-9);
        for (int measure = 0; measure < LOAD_MEASURES; measure++)
            ck_assert_double_eq_tol(week->over_kg[measure], 2, 1e-9);
        ck_assert_double_eq_tol(week->over_part[LOAD_TOP], 2 / (straight_kg[i] + 38), 1e-12);
        ck_assert(!week->above_one_rm && !week->top_too_heavy);
    }
    ck_assert(!raises(plan, FINDING_STEP_UNEVEN));
    ck_assert(!raises(plan, FINDING_SHARE_OUT_OF_RANGE));
}
END_TEST

/* 1RM and percentages that no plate makes: 187 kg is 93.5, 102.85, 112.2 kg, made of pairs down to 1.25 kg. */
/* From the Saturday of the week whose Thursday was lifted heavier: what was logged is neither weighed nor counted with
 * it. */
START_TEST(a_plan_that_begins_within_a_logged_week)
{
    speed_wave();
    const struct plan *usual = planned();
    wish.start = day_of("2026-01-24");
    const struct plan *plan = planned();
    ck_assert_uint_eq(plan->week_count, 3);
    ck_assert_int_eq(plan->weeks[0].week, week_of(day_of("2026-01-22")));
    ck_assert(plan->same_ar);
    for (size_t i = 0; i < 3; i++)
        for (int measure = 0; measure < LOAD_MEASURES; measure++) {
            ck_assert_double_eq(plan->weeks[i].load_kg[measure], usual->weeks[i].load_kg[measure]);
            ck_assert_double_eq(plan->weeks[i].volume_kg[measure], usual->weeks[i].volume_kg[measure]);
        }
}
END_TEST

START_TEST(rounded_to_the_plates)
{
    static const double made_kg[] = {92.5, 102.5, 112.5}, off_kg[] = {-1, -0.35, 0.3};
    wish.max_kg = 187;
    const struct plan *plan = planned();
    ck_assert(plan->rack.assumed);
    ck_assert(plan->one_rm_said);
    for (size_t i = 0; i < 3; i++) {
        ck_assert_double_eq_tol(plan->weeks[i].load_kg[LOAD_STRAIGHT], made_kg[i], 1e-9);
        ck_assert_double_eq_tol(plan->weeks[i].rounding_kg, off_kg[i], 1e-9);
        ck_assert_double_eq_tol(plan->weeks[i].straight_share, made_kg[i] / 187, 1e-12);
    }
    ck_assert_str_eq(plates_print(made->arena, &plan->rack, &plan->weeks[0].plates), "25 + 10 + 1.25");
}
END_TEST

static const struct
{
    const char *what;
    double shares[4];
    double step; /* 0: not said */
    size_t weeks, planned;
    double expected[5];
} waves_of_shares[] = {
    {"three weeks of speed", {0}, 0, 0, 3, {0.50, 0.55, 0.60}},
    {"a fourth goes on", {0}, 0, 4, 4, {0.50, 0.55, 0.60, 0.65}},
    {"two are enough", {0}, 0, 2, 2, {0.50, 0.55}},
    {"shares that are said", {0.45, 0.52}, 0, 0, 2, {0.45, 0.52}},
    {"as the last two differ", {0.45, 0.52}, 0, 3, 3, {0.45, 0.52, 0.59}},
    {"one share, five points a week", {0.48}, 0, 3, 3, {0.48, 0.53, 0.58}},
    {"a step that is said", {0.48}, 0.02, 0, 3, {0.48, 0.50, 0.52}},
    {"a step and no share", {0}, 0.03, 0, 3, {0.50, 0.53, 0.56}},
    {"a step after several", {0.40, 0.50}, 0.04, 4, 4, {0.40, 0.50, 0.54, 0.58}},
};

START_TEST(shares_of_the_weeks)
{
    while (wish.share_count < 4 && waves_of_shares[_i].shares[wish.share_count] > 0)
        wish.share_count++;
    wish.shares = wish.share_count ? waves_of_shares[_i].shares : NULL;
    wish.step = waves_of_shares[_i].step > 0 ? waves_of_shares[_i].step : NAN;
    wish.weeks = waves_of_shares[_i].weeks;
    const struct plan *plan = planned();
    ck_assert_msg(plan->week_count == waves_of_shares[_i].planned, "%s: %zu weeks", waves_of_shares[_i].what,
                  plan->week_count);
    for (size_t i = 0; i < plan->week_count; i++)
        ck_assert_msg(fabs(plan->weeks[i].target_share - waves_of_shares[_i].expected[i]) < 1e-12, "%s: %g in week %zu",
                      waves_of_shares[_i].what, plan->weeks[i].target_share, i + 1);
}
END_TEST

static void strength_wave(void) /* 150 and 160 kg */
{
    for (int week = 0; week < 2; week++)
        add_sets(made, ODA, "squat", week ? "2026-01-12" : "2026-01-05", mass(made, 150 + 10 * week), 3, 5);
    wish.focus = FOCUS_STRENGTH;
}

START_TEST(strength_work_raises_the_last_wave)
{
    strength_wave();
    const struct plan *plan = planned();
    ck_assert_int_eq(plan->state, PLAN_MADE);
    ck_assert_int_eq(plan->basis, PLAN_FROM_WAVE);
    ck_assert_int_eq(plan->raised_by, PLAN_RAISED_BY_PLATES);
    ck_assert_uint_eq(plan->week_count, 2);
    ck_assert_double_eq_tol(plan->weeks[0].target_kg, 152.5, 1e-12);
    ck_assert_double_eq_tol(plan->weeks[1].load_kg[LOAD_STRAIGHT], 162.5, 1e-9);
    ck_assert_double_eq(plan->lighter_kg, 0);
    ck_assert_ptr_null(plan->ar);
    ck_assert_double_eq(plan->weeks[0].share, 0);
    ck_assert_int_eq(plan->weeks[1].reps, 5);
}
END_TEST

/* Percentages of the wave's own 1RM, 200 kg, of what was tested since. */
START_TEST(a_newer_test_asks_for_percentages)
{
    strength_wave();
    add_max(made, oda, "squat", "2026-01-15", 220);
    const struct plan *plan = planned();
    ck_assert_int_eq(plan->basis, PLAN_FROM_TEST);
    ck_assert_double_eq_tol(plan->weeks[0].target_kg, 165, 1e-9);
    ck_assert_double_eq_tol(plan->weeks[1].target_kg, 176, 1e-9);
}
END_TEST

START_TEST(lighter_than_the_last_wave_is_told)
{
    strength_wave();
    add_max(made, oda, "squat", "2026-01-15", 180);
    const struct plan *plan = planned();
    ck_assert_double_eq_tol(plan->weeks[0].load_kg[LOAD_STRAIGHT], 135, 1e-9);
    ck_assert_double_eq_tol(plan->lighter_kg, 15, 1.5);
    ck_assert_int_eq(plan->lighter_at, LOAD_STRAIGHT);
}
END_TEST

/* The waves rise by 5 kg: so does the next. */
START_TEST(the_own_step_is_kept)
{
    for (int wave = 0; wave < 5; wave++)
        for (int week = 0; week < 3; week++)
            speed_week(3 * wave + week, banded(made, 90 + 10 * week + 5 * wave, 0, 40), 8, 2);
    const struct plan *plan = planned();
    ck_assert_int_eq(plan->raised_by, PLAN_RAISED_BY_SLOPE);
    ck_assert_double_eq_tol(plan->raise_kg, 5, 1e-9);
    ck_assert_double_eq_tol(plan->weeks[0].load_kg[LOAD_STRAIGHT], 115, 1e-9);
}
END_TEST

START_TEST(straight_weight_is_the_plain_way)
{
    strength_wave();
    struct plan_overload over = {.kg = 5, .share = NAN, .at = PLAN_AT_BOTH};
    struct plan_ways ways = ways_planned(&over);
    ck_assert_uint_eq(ways.count, 1);
    ck_assert_double_eq_tol(ways.items->top_kg, 5, 1e-9);
    ck_assert_double_eq_tol(ways.items->miss_kg, 0, 1e-9);
    ck_assert_double_eq_tol(ways.items->plan->weeks[1].load_kg[LOAD_STRAIGHT], 165, 1e-9);
    over = (struct plan_overload){.kg = NAN, .share = 0.05, .at = PLAN_AT_TOP};
    ck_assert_double_eq_tol(ways_planned(&over).over_kg, 7.5, 1e-9);
    wish.focus = FOCUS_SPEED; /* no wave of it */
    ck_assert_uint_eq(ways_planned(&over).count, 0);
}
END_TEST

/* Speed work of 90, 100, 110 kg with a piece on each side, in a gym with one chain of 5 kg, "red", of unknown length.
 */
static struct chain red = {
    .label = "red", .is_default = true, .mass_kg = 5, .length_m = NAN, .link_m = 0.05, .size_m = NAN};

static void wave_with(struct piece piece)
{
    piece.bottom_kg = piece.top_kg = piece.leader_m = NAN;
    made->gym->chains = &red;
    made->gym->chain_count = 1;
    for (int week = 0; week < 3; week++) {
        struct load load = {
            .straight = STRAIGHT_MASS, .kg = 90 + 10 * week, .percent = NAN, .pieces = &piece, .piece_count = 1};
        speed_week(week, load_intern(made->log->loads, &load), 8, 2);
    }
}

static const struct plan_way *way_of(const struct plan_ways *ways, const char *what)
{
    for (size_t i = 0; i < ways->count; i++)
        if (!strcmp(ways->items[i].what, what))
            return &ways->items[i];
    return NULL;
}

/* One more of the chain that hangs already is counted with it; beside anything else it is a piece of its own. */
static const struct
{
    const char *what;
    struct piece piece;
    size_t pieces;
    int per_side; /* of the last piece */
} beside[] = {
    {"one of it", {.kind = PIECE_CHAIN, .per_side = 1, .label = "red", .mass_kg = NAN}, 1, 2},
    {"two of it", {.kind = PIECE_CHAIN, .per_side = 2, .label = "red", .mass_kg = NAN}, 1, 3},
    {"one of no name", {.kind = PIECE_CHAIN, .per_side = 1, .mass_kg = NAN}, 1, 2},
    {"one of another mass", {.kind = PIECE_CHAIN, .per_side = 1, .mass_kg = 8}, 2, 1},
    {"16 kg in all", {.kind = PIECE_CHAIN, .mass_kg = 16}, 2, 1},
    {"a releaser of no name", {.kind = PIECE_RELEASER, .per_side = 1, .mass_kg = NAN}, 2, 1},
};

START_TEST(one_more_chain)
{
    wave_with(beside[_i].piece);
    struct plan_ways ways = ways_planned(&(struct plan_overload){.kg = 5, .share = NAN, .at = PLAN_AT_TOP});
    const struct plan_way *way = way_of(&ways, "one more chain red on each side");
    ck_assert_msg(way != NULL, "%s: no way", beside[_i].what);
    const struct load *ar = way->plan->ar;
    ck_assert_msg(ar->piece_count == beside[_i].pieces, "%s: %zu pieces", beside[_i].what, ar->piece_count);
    ck_assert_int_eq(ar->pieces[ar->piece_count - 1].per_side, beside[_i].per_side);
}
END_TEST

/* Of chains that are not counted, one more is not known either. */
START_TEST(one_more_chain_than_is_known)
{
    speed_wave();
    made->gym->chains = &red;
    made->gym->chain_count = 1;
    struct piece uncounted = {
        .kind = PIECE_CHAIN, .label = "red", .mass_kg = NAN, .bottom_kg = NAN, .top_kg = NAN, .leader_m = NAN};
    struct load load = {.straight = STRAIGHT_MASS, .percent = NAN, .pieces = &uncounted, .piece_count = 1};
    wish.ar = load_intern(made->log->loads, &load);
    ck_assert_uint_eq(ways_planned(&(struct plan_overload){.kg = 5, .share = NAN, .at = PLAN_AT_TOP}).count, 0);
}
END_TEST

/* More at the top, by plates or by a pair of chains, of 5 or of 7.5 kg, that lie on the floor at the bottom. What takes
 * load off the bottom comes last, and what takes more off after what takes less.
 * 5 kg more: plates make 115 and 125 kg, but no more than 130 kg, 65 % of 200 kg: 10 / 3 kg on average, less than a
 * pair of 1.25 kg off, with an uneven step. The chains raise nothing. 10 kg more: the chains of 5 kg change nothing at
 * the bottom; it is noted that their mass is an estimate. Those of 7.5 kg raise nothing. */
static const struct
{
    double kg, ar_kg, over_kg, other_kg[3];
} merits[] = {{110, 30, 5, {10.0 / 3, -5, -10}}, {100, 30, 10, {10, 0, -5}}};

START_TEST(a_way_that_lightens_the_other_end_comes_last)
{
    static const char *const ways_in_order[] = {"straight weight alone", "one more chain red on each side",
                                                "one more chain blue on each side"};
    struct chain chains[] = {red, red};
    chains[!(_i % 2)].mass_estimated = _i / 2;
    chains[_i % 2].label = "blue";
    chains[_i % 2].mass_kg = 7.5;
    chains[1].is_default = false;
    made->gym->chains = chains;
    made->gym->chain_count = 2;
    for (int week = 0; week < 3; week++)
        speed_week(week, banded(made, merits[_i / 2].kg + 10 * week, 0, merits[_i / 2].ar_kg), 8, 2);
    struct plan_ways ways = ways_planned(
        &(struct plan_overload){.kg = merits[_i / 2].over_kg, .share = NAN, .at = PLAN_AT_TOP});
    ck_assert_uint_eq(ways.count, 3);
    for (size_t i = 0; i < ways.count; i++) {
        ck_assert_double_eq(ways.items[i].pairs_off, 0);
        ck_assert_str_eq(ways.items[i].what, ways_in_order[i]);
        ck_assert_double_eq_tol(ways.items[i].other_kg, merits[_i / 2].other_kg[i], 1e-9);
    }
    ck_assert_int_gt(ways.items[_i / 2].gravity, ways.items[_i / 2 + 1].gravity);
}
END_TEST

START_TEST(without_a_wave)
{
    wish.ar = banded(made, 0, 10, 45);
    wish.sets = 6;
    wish.reps = 3;
    wish.start = day_of("2026-02-03");
    const struct plan *plan = planned();
    ck_assert_int_eq(plan->state, PLAN_MADE);
    ck_assert_ptr_null(plan->last);
    ck_assert_int_eq(plan->weeks[0].day, day_of("2026-02-03"));
    ck_assert_double_eq_tol(plan->weeks[0].load_kg[LOAD_BOTTOM], 110, 1e-9);
    ck_assert_double_eq_tol(plan->weeks[0].load_kg[LOAD_TOP], 145, 1e-9);
    ck_assert_double_nan(plan->weeks[0].over_kg[LOAD_TOP]);
    ck_assert_int_eq(plan->weeks[2].sets, 6);
}
END_TEST

START_TEST(a_first_wave_follows_common_practice)
{
    const struct plan *plan = planned();
    ck_assert_int_eq(plan->basis, PLAN_FROM_PRACTICE);
    ck_assert(plan->sets_by_practice && !plan->ar_by_practice);
    ck_assert_int_eq(plan->weeks[0].sets, 6);
    ck_assert_int_eq(plan->weeks[0].reps, 2);
    ck_assert_ptr_null(plan->ar); /* the gym has no chains */
    struct chain chain = {
        .label = "long", .is_default = true, .mass_kg = 9, .length_m = NAN, .link_m = 0.05, .size_m = NAN};
    made->gym->chains = &chain;
    made->gym->chain_count = 1;
    plan = planned();
    ck_assert_int_eq(plan->ar->pieces->per_side, 1); /* 100 kg: one pair of large discs */
    made->gym->chain_count = 0;
    ck_assert_double_eq_tol(plan->weeks[0].load_kg[LOAD_MEAN], 109, 1e-9); /* a pair of 9 kg at the top */
}
END_TEST

START_TEST(what_makes_no_plan)
{
    wish.focus = FOCUS_STRENGTH;
    ck_assert_int_eq(planned()->state, PLAN_NO_SHARES);
    wish.focus = FOCUS_SPEED;
    wish.ar_share = 0.2; /* no heights, no gear */
    ck_assert_int_eq(planned()->state, PLAN_NO_SETUP);
    wish.ar_share = NAN;
    wish.lifter = IVO;
    ck_assert_int_eq(planned()->state, PLAN_NO_ONE_RM);
    wish.max_kg = 150;
    ck_assert_int_eq(planned()->state, PLAN_MADE);
}
END_TEST

START_TEST(the_1rm_in_force_at_the_start)
{
    speed_wave();
    oda->max_count = 0;
    add_max(made, oda, "squat", "2025-06-01", 180);
    add_max(made, oda, "squat", "2026-01-27", 210); /* after the log, before the plan */
    add_max(made, oda, "squat", "2026-03-01", 250); /* after its start */
    wish.start = day_of("2026-02-02");
    const struct plan *plan = planned();
    ck_assert_double_eq(plan->one_rm.kg, 210);
    ck_assert_int_eq(plan->one_rm_days, 6);
    wish.start = day_of("2026-01-26");
    plan = planned();
    ck_assert_double_eq(plan->one_rm.kg, 180);
    ck_assert_int_gt(plan->one_rm_days, PLAN_STALE_DAYS);
    ck_assert(raises(plan, FINDING_ONE_REP_MAX_STALE));
    wish.start = day_of("2026-03-01"); /* the very day of a test */
    plan = planned();
    ck_assert_double_eq(plan->one_rm.kg, 250);
    ck_assert_int_eq(plan->one_rm_days, 0);
}
END_TEST

START_TEST(an_estimate_is_told)
{
    oda->max_count = 0;
    add_sets(made, ODA, "squat", "2026-01-02", mass(made, 155), 3, 5); /* the best of two days is not vouched for */
    add_sets(made, ODA, "squat", "2026-01-05", mass(made, 150), 3, 5); /* Epley: 175 kg */
    const struct plan *plan = planned();
    ck_assert_int_eq(plan->one_rm.from, ONE_RM_ESTIMATED);
    ck_assert_double_eq_tol(plan->one_rm.kg, 175, 1e-9);
    ck_assert_double_eq_tol(plan->weeks[0].target_kg, 87.5, 1e-9);
}
END_TEST

START_TEST(loads_that_hurt_are_marked)
{
    static const double shares[] = {0.95, 1.02};
    speed_wave(); /* 40 kg more at the top: 115 % and 122 % of 200 kg */
    wish.shares = shares;
    wish.share_count = 2;
    const struct plan *plan = planned();
    ck_assert(!plan->weeks[0].above_one_rm && plan->weeks[0].top_too_heavy);
    ck_assert(plan->weeks[1].above_one_rm && plan->weeks[1].top_too_heavy);
    ck_assert(raises(plan, FINDING_SPEED_TOO_HEAVY));
}
END_TEST

START_TEST(findings_that_the_plan_raises)
{
    static const double light[] = {0.30, 0.35};
    speed_wave();
    wish.ar = banded(made, 0, 0, 80); /* 40 % of 1RM where it was 20 % */
    ck_assert(raises(planned(), FINDING_SHARE_OUT_OF_RANGE));
    ck_assert(raises(planned(), FINDING_SHARE_JUMP));
    wish.ar = NULL;
    wish.shares = light;
    wish.share_count = 2;
    ck_assert(raises(planned(), FINDING_SPEED_TOO_LIGHT));
    ck_assert(!raises(planned(), FINDING_SHARE_JUMP));
}
END_TEST

/* What the log itself did wrong is not the plan's. */
START_TEST(findings_of_the_past_are_left)
{
    speed_week(-6, banded(made, 160, 0, 40), 8, 2);
    speed_week(-5, banded(made, 170, 0, 40), 8, 2);
    speed_wave();
    ck_assert(!raises(planned(), FINDING_SPEED_TOO_HEAVY));
}
END_TEST

START_TEST(a_wave_that_has_begun_is_finished)
{
    speed_wave();
    speed_week(3, banded(made, 99, 0, 40), 8, 2);
    const struct plan *plan = planned();
    ck_assert_ptr_nonnull(plan->after);
    ck_assert_double_eq(plan->after->load_kg[LOAD_STRAIGHT], 99);
    ck_assert_int_eq(plan->weeks[0].day, day_of("2026-02-05"));
    ck_assert_uint_eq(plan->done, 1); /* of a wave that has begun */
    ck_assert_uint_eq(plan->week_count, 2);
    ck_assert_double_eq_tol(plan->weeks[0].load_kg[LOAD_STRAIGHT], 110, 1e-9);
    ck_assert_double_eq_tol(plan->weeks[0].over_kg[LOAD_STRAIGHT], 2, 1e-9);
    ck_assert(!raises(plan, FINDING_STEP_UNEVEN));
    add_sets(made, IVO, "squat", "2026-01-26", banded(made, 99, 0, 40), 8, 2)->focus = FOCUS_SPEED;
    wish.start = day_of("2026-01-29"); /* what was done on the day of the start is not of the past */
    plan = planned();
    ck_assert_ptr_null(plan->after);
    ck_assert_ptr_nonnull(plan->last);
    wish.start = day_of("2026-02-19"); /* three weeks after the last session the wave goes on, */
    ck_assert_uint_eq(planned()->done, 1);
    wish.start = day_of("2026-02-20"); /* a day later it has ended */
    ck_assert_uint_eq(planned()->done, 0);
    speed_week(4, banded(made, 105, 0, 40), 1, 2);
    wish.start = day_of("2026-02-05"); /* the day of that one set */
    ck_assert_double_eq(planned()->after->load_kg[LOAD_STRAIGHT], 99);
}
END_TEST

START_TEST(a_lift_of_the_body)
{
    made->gym->lifts = ARENA_NEW(made->arena, struct lift);
    *made->gym->lifts = (struct lift){.name = "pull-up", .bodyweight = true};
    made->gym->lift_count = 1;
    add_max(made, oda, "pull-up", "2025-12-20", 120);
    wish.lift = "pull-up";
    ck_assert_int_eq(planned()->state, PLAN_NO_BODYWEIGHT);
    oda->bodyweight_kg = 80;
    static const double shares[] = {0.75, 0.60};
    wish.shares = shares;
    wish.share_count = 2;
    const struct plan *plan = planned();
    ck_assert(!plan->weeks[0].has_plates);
    ck_assert_double_eq_tol(plan->weeks[0].written_kg, 10, 1e-9); /* 90 kg in all */
    ck_assert_double_eq_tol(plan->weeks[0].load_kg[LOAD_STRAIGHT], 90, 1e-9);
    ck_assert_double_eq_tol(plan->weeks[1].written_kg, -7.5, 1e-9); /* helped up: -8 by plates of 1.25 */
}
END_TEST

static const struct hanging
{
    double mass_kg, length_m, leader_m;
} hanging = {10, 0.6, 0.75};

/* Chains for a fifth of 200 kg: the wish is met by whole chains of the gym to within a few points. */
START_TEST(chains_for_a_share)
{
    struct chain *chain = ARENA_NEW(made->arena, struct chain);
    *chain = (struct chain){.label = "long",
                            .is_default = true,
                            .mass_kg = hanging.mass_kg,
                            .length_m = hanging.length_m,
                            .link_m = 0.05,
                            .leader_m = hanging.leader_m,
                            .size_m = NAN};
    made->gym->chains = chain;
    made->gym->chain_count = 1;
    add_heights(made, oda, "squat", 0.8, 1.3);
    wish.ar_share = 0.2;
    const struct plan *plan = planned();
    ck_assert_int_eq(plan->state, PLAN_MADE);
    ck_assert(plan->ar_chosen);
    ck_assert(load_has(plan->ar, PIECE_CHAIN));
    ck_assert_double_eq_tol(plan->weeks[0].share, 0.2 + plan->ar_miss, 1e-6);
    ck_assert_double_lt(fabs(plan->ar_miss), 0.05);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("plan");
    TCase *cases = tcase_create("plan");
    tcase_add_checked_fixture(cases, setup, teardown);
    tcase_add_test(cases, the_next_speed_wave);
    tcase_add_test(cases, a_plan_that_begins_within_a_logged_week);
    tcase_add_test(cases, rounded_to_the_plates);
    tcase_add_loop_test(cases, shares_of_the_weeks, 0, (int)(sizeof waves_of_shares / sizeof *waves_of_shares));
    tcase_add_test(cases, strength_work_raises_the_last_wave);
    tcase_add_test(cases, a_newer_test_asks_for_percentages);
    tcase_add_test(cases, lighter_than_the_last_wave_is_told);
    tcase_add_test(cases, the_own_step_is_kept);
    tcase_add_test(cases, straight_weight_is_the_plain_way);
    tcase_add_loop_test(cases, one_more_chain, 0, sizeof beside / sizeof *beside);
    tcase_add_test(cases, one_more_chain_than_is_known);
    tcase_add_loop_test(cases, a_way_that_lightens_the_other_end_comes_last, 0, 4);
    tcase_add_test(cases, without_a_wave);
    tcase_add_test(cases, a_first_wave_follows_common_practice);
    tcase_add_test(cases, what_makes_no_plan);
    tcase_add_test(cases, the_1rm_in_force_at_the_start);
    tcase_add_test(cases, an_estimate_is_told);
    tcase_add_test(cases, loads_that_hurt_are_marked);
    tcase_add_test(cases, findings_that_the_plan_raises);
    tcase_add_test(cases, findings_of_the_past_are_left);
    tcase_add_test(cases, a_wave_that_has_begun_is_finished);
    tcase_add_test(cases, a_lift_of_the_body);
    tcase_add_test(cases, chains_for_a_share);
    suite_add_tcase(suite, cases);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
