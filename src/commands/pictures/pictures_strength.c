#include "commands/pictures/pictures_strength.h"

#include "commands/pictures/pictures_parts.h"

#include "analysis/load_velocity.h"
#include "base/number.h"
#include "commands/pictures/pictures.h"

#include <math.h>
#include <string.h>

/* --- 1RM ---------------------------------------------------------------------------------------------------------- */

struct dated
{
    day_number day;
    double kg;
};

struct day_estimates
{
    day_number day;
    double straight_kg, low_kg, high_kg; /* NAN: none */
};

struct strength
{
    LIST(struct day_estimates) days;
    LIST(struct dated) tests;
    struct dated best; /* the best of the estimates from straight weight */
};

static void take_estimate(struct strength *strength, struct day_estimates *day, const struct evaluated_set *evaluated)
{
    if (evaluated->has_ar) {
        if (!isnan(evaluated->e1rm_high_kg) && !(day->low_kg >= evaluated->e1rm_low_kg)) {
            day->low_kg = evaluated->e1rm_low_kg;
            day->high_kg = evaluated->e1rm_high_kg;
        }
        return;
    }
    if (!(day->straight_kg >= evaluated->e1rm_low_kg))
        day->straight_kg = evaluated->e1rm_low_kg;
    if (!(strength->best.kg >= evaluated->e1rm_low_kg))
        strength->best = (struct dated){evaluated->set->day, evaluated->e1rm_low_kg};
}

/* Light sets and speed work say nothing about a lifter's maximum. */
static bool may_estimate(const struct evaluated_set *evaluated)
{
    const struct one_rm *one_rm = &evaluated->one_rm;
    bool light = one_rm->from == ONE_RM_TESTED && evaluated->effect->bottom_kg < RATED_LEAST_SHARE * one_rm->kg;
    return is_work(evaluated) && is_believed(evaluated) && evaluated->focus != FOCUS_SPEED &&
           evaluated->focus != FOCUS_SKILL && !light && !isnan(evaluated->e1rm_low_kg);
}

static void take_set(struct arena *arena, struct strength *strength, const struct evaluated_set *evaluated)
{
    day_number today = evaluated->set->day;
    const struct one_rm *max = &evaluated->one_rm;
    struct dated *test = strength->tests.count ? &strength->tests.items[strength->tests.count - 1] : NULL;
    if (max->from == ONE_RM_TESTED && (!test || test->day != max->day))
        *LIST_ADD(arena, &strength->tests) = (struct dated){max->day, max->kg};
    if (!may_estimate(evaluated))
        return;
    struct day_estimates *day = strength->days.count ? &strength->days.items[strength->days.count - 1] : NULL;
    if (!day || day->day != today) {
        day = LIST_ADD(arena, &strength->days);
        *day = (struct day_estimates){today, NAN, NAN, NAN};
    }
    take_estimate(strength, day, evaluated);
}

static const char *strength_sentence(const struct pictures *pictures, const struct strength *strength)
{
    struct arena *arena = pictures->session->arena;
    const char *tested = "Never tested.", *best = "";
    if (strength->tests.count) {
        const struct dated *first = &strength->tests.items[0], *last = first + strength->tests.count - 1;
        tested = arena_printf(arena, "Tested %s on %s", picture_load_words(pictures, last->kg),
                              picture_day_words(pictures, last->day));
        if (first != last)
            tested = arena_printf(arena, "%s (%s on %s)", tested, picture_load_words(pictures, first->kg),
                                  picture_day_words(pictures, first->day));
        tested = arena_printf(arena, "%s.", tested);
    }
    if (!isnan(strength->best.kg))
        best = arena_printf(arena, " Best estimate from straight weight: %s on %s.",
                            picture_load_words(pictures, strength->best.kg),
                            picture_day_words(pictures, strength->best.day));
    return arena_printf(arena, "%s%s", tested, best);
}

static void draw_day(struct drawn *drawn, const struct day_estimates *day)
{
    both_day(drawn, day->day);
    both_load(drawn, day->straight_kg, 1);
    both_load(drawn, day->low_kg, 1);
    both_load(drawn, day->high_kg, 1);
    both_end(drawn);
}

static void draw_dated(struct drawn *drawn, const struct dated *dated)
{
    gp_cell_day(drawn->script, dated->day);
    gp_cell_number(drawn->script, picture_load(drawn->pictures, dated->kg));
    gp_row_end(drawn->script);
}

void add_e1rm(struct pictures *pictures, const struct lift_sets *lift)
{
    struct strength strength = {.best = {NO_DAY, NAN}};
    for (size_t i = 0; i < lift->count; i++)
        take_set(pictures->session->arena, &strength, lift->sets[i]);
    if (strength.days.count < 2)
        return;
    struct drawn drawn = picture_begin(
        pictures, &(struct picture_of){PICTURE_E1RM, lift->lifter, lift->lift, FOCUS_UNSAID, "e1rm", "e1rm",
                                       "estimated and tested 1RM", strength_sentence(pictures, &strength)});
    DATA_TITLES(&drawn, "day", "best estimate, straight weight, kg", "with chain and band, by the bottom, kg",
                "by the top, kg");
    gp_block(drawn.script, "$DAYS");
    for (size_t i = 0; i < strength.days.count; i++)
        draw_day(&drawn, &strength.days.items[i]);
    if (strength.tests.count)
        gp_block(drawn.script, "$TESTS");
    for (size_t i = 0; i < strength.tests.count; i++)
        draw_dated(&drawn, &strength.tests.items[i]);
    if (!strength.tests.count)
        return;
    gp_block(drawn.script, "$CURRENT");
    for (size_t i = 0; i < strength.tests.count; i++)
        draw_dated(&drawn, &strength.tests.items[i]);
    draw_dated(&drawn, &(struct dated){lift->sets[lift->count - 1]->set->day,
                                       strength.tests.items[strength.tests.count - 1].kg});
}

/* --- load and velocity
 * ------------------------------------------------------------------------------------------------ */

#define LINE_POINTS 21

static const char *velocity_sentence(const struct pictures *pictures, const struct velocity_profile *profile)
{
    struct arena *arena = pictures->session->arena;
    const char *over = "";
    if (!isnan(profile->ar_over_kg))
        over = arena_printf(arena, " Sets with chain or band lie %s %s the line on average.",
                            picture_load_words(pictures, fabs(profile->ar_over_kg)),
                            profile->ar_over_kg < 0 ? "below" : "above");
    return arena_printf(arena, "Each 0.1 m/s slower is %s %s (from %zu measurements).%s",
                        picture_load_words(pictures, fabs(profile->fit.slope / 10)),
                        profile->fit.slope < 0 ? "more" : "less", profile->lines, over);
}

/* A line of the log is one measurement, however many sets it has. */
static bool is_same_line(const struct evaluated_set *a, const struct evaluated_set *b)
{
    return a->set->file == b->set->file && a->set->line == b->set->line && a->set->weight == b->set->weight &&
           a->set->ar == b->set->ar && a->set->velocity_ms == b->set->velocity_ms;
}

static void draw_measured(struct drawn *drawn, const struct lift_sets *lift)
{
    gp_block(drawn->script, "$SETS");
    for (size_t i = 0; i < lift->count; i++) {
        const struct evaluated_set *evaluated = lift->sets[i];
        double load = evaluated->has_ar ? evaluated->effect->mean_kg : evaluated->effect->straight_kg;
        if (!is_work(evaluated) || isnan(evaluated->set->velocity_ms) || isnan(load) ||
            (i && is_same_line(evaluated, lift->sets[i - 1])))
            continue;
        gp_cell_number(drawn->script, evaluated->set->velocity_ms);
        gp_cell_number(drawn->script, picture_load(drawn->pictures, load));
        gp_cell_number(drawn->script, evaluated->has_ar);
        gp_row_end(drawn->script);
    }
}

static void draw_line(struct drawn *drawn, const struct velocity_profile *profile)
{
    DATA_TITLES(drawn, "mean velocity, m/s", "load on the line, kg", "may be from kg", "to kg");
    gp_block(drawn->script, "$LINE");
    for (int i = 0; i < LINE_POINTS; i++) {
        double velocity = profile->low_ms + (profile->high_ms - profile->low_ms) * i / (LINE_POINTS - 1);
        struct interval interval = line_at(&profile->fit, velocity, VELOCITY_CONFIDENCE);
        both_number(drawn, velocity, 2);
        both_load(drawn, interval.at, 1);
        both_load(drawn, interval.low, 1);
        both_load(drawn, interval.high, 1);
        both_end(drawn);
    }
}

void add_velocities(struct pictures *pictures, const struct lift_sets *lifts, size_t count)
{
    size_t profile_count;
    const struct velocity_profile *profiles = velocity_profiles(pictures->session->arena, pictures->session->training,
                                                                &profile_count);
    for (size_t i = 0, p = 0; i < count && p < profile_count; i++) {
        const struct velocity_profile *profile = &profiles[p];
        if (strcmp(profile->lifter, lifts[i].lifter) || strcmp(profile->lift, lifts[i].lift))
            continue;
        p++;
        if (profile->state != VELOCITY_FITTED)
            continue;
        struct drawn drawn = picture_begin(
            pictures, &(struct picture_of){PICTURE_VELOCITY, profile->lifter, profile->lift, FOCUS_UNSAID, "velocity",
                                           "velocity", "load and velocity", velocity_sentence(pictures, profile)});
        draw_measured(&drawn, &lifts[i]);
        draw_line(&drawn, profile);
    }
}
