#include "analysis/training.h"

#include "analysis/focus.h"
#include "analysis/judging/impossible.h"
#include "analysis/judging/judging.h"
#include "analysis/judging/lift_states.h"
#include "analysis/ordering.h"
#include "analysis/weighed.h"
#include "base/text.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const char *gym_lift_name(const struct gym *gym, const char *name)
{
    const struct lift *lift = gym_lift(gym, name);
    return lift ? lift->name : name;
}

/* Marks the names that the options ask for; NULL: all. `lifts_of`: the names are lifts, for which that gym may have
 * aliases. */
static bool *wanted_names(struct arena *scratch, const struct names *names, const struct name_choice *wanted,
                          const struct gym *lifts_of)
{
    if (!wanted->count)
        return NULL;
    bool *chosen = ARENA_ARRAY(scratch, bool, names_count(names));
    for (size_t k = 0; k < wanted->count; k++) {
        const char *folded = text_fold(scratch,
                                       lifts_of ? gym_lift_name(lifts_of, wanted->names[k]) : wanted->names[k]);
        for (uint32_t i = 0; i < names_count(names); i++)
            chosen[i] = chosen[i] || !strcmp(text_fold(scratch, names_text(names, i)), folded);
    }
    return chosen;
}

/* Indexes of the sets asked for, by lifter, day and place in the files. */
static uint32_t *reading_order(struct training_maker *maker, size_t *count)
{
    const struct log *log = maker->training->log;
    struct arena *scratch = maker->scratch;
    const bool *lifters = maker->lifters_wanted, *lifts = maker->lifts_wanted;
    uint32_t *order = arena_room(scratch, log->sets.count * sizeof *order), *keys;
    const struct set *before = NULL;
    day_number first = INT32_MAX, last = INT32_MIN;
    bool in_order = true; /* true of most logs */
    *count = 0;
    for (size_t i = 0; i < log->sets.count; i++) {
        const struct set *set = &log->sets.items[i];
        if ((lifters && !lifters[set->lifter]) || (lifts && !lifts[set->lift]))
            continue;
        first = set->day < first ? set->day : first;
        last = set->day > last ? set->day : last;
        in_order &= !before || (set->lifter == before->lifter && set->day >= before->day);
        before = set;
        order[(*count)++] = (uint32_t)i;
    }
    if (in_order)
        return order;
    keys = ARENA_ARRAY(scratch, uint32_t, log->sets.count);
    for (size_t i = 0; i < *count; i++)
        keys[order[i]] = (uint32_t)(log->sets.items[order[i]].day - first);
    counting_sort(scratch, order, *count, keys, (size_t)(last - first) + 1);
    for (size_t i = 0; i < *count; i++)
        keys[order[i]] = maker->form.lifter_ranks[log->sets.items[order[i]].lifter];
    counting_sort(scratch, order, *count, keys, names_count(log->lifters));
    return order;
}

static void weigh_set(struct training_maker *maker, struct evaluated_set *evaluated, double tested_kg)
{
    const struct set *set = evaluated->set;
    const struct weighed *weighed = weigh(maker->weighing, set, maker->lifter, tested_kg);
    enum e1rm_formula formula = maker->training->options.formula;
    evaluated->effect = &weighed->effect;
    evaluated->loading = &weighed->loading;
    evaluated->ar_key = weighed->ar_key;
    evaluated->e1rm_low_kg = evaluated->e1rm_high_kg = NAN;
    if (is_work(evaluated) && !set->drop) {
        double rir = set->to_failure ? 0 : set->rir;
        evaluated->e1rm_low_kg = e1rm_of_set(formula, weighed->effect.bottom_kg, set->reps, set->rpe, rir);
        evaluated->e1rm_high_kg = evaluated->has_ar
                                      ? e1rm_of_set(formula, weighed->effect.top_kg, set->reps, set->rpe, rir)
                                      : evaluated->e1rm_low_kg;
    }
}

static void weigh_masses(struct training_maker *maker, struct evaluated_set *day, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (day[i].set->weight->straight != STRAIGHT_PERCENT)
            weigh_set(maker, &day[i], NAN);
}

/* Sets whose load is in percent need a tested 1RM; those without one are dropped from the day. A single in percent
 * does not count as a test, because it depends on one. Returns how many sets remain. */
static size_t weigh_percents(struct training_maker *maker, struct evaluated_set *day, size_t count, bool in_range)
{
    size_t kept = 0;
    for (size_t i = 0; i < count; i++) {
        const struct set *set = day[i].set;
        if (set->weight->straight == STRAIGHT_PERCENT) {
            const struct one_rm *tested = &lift_state_of(maker, set->lift)->tested;
            if (tested->from == ONE_RM_NONE) {
                if (in_range)
                    *LIST_ADD(maker->scratch, &maker->without_max) = set;
                continue;
            }
            weigh_set(maker, &day[i], tested->kg);
        }
        if (kept != i)
            day[kept] = day[i];
        kept++;
    }
    return kept;
}

/* Adds one lifter's day at the end of training->sets. */
static void weigh_day(struct training_maker *maker, const uint32_t *order, size_t count)
{
    struct training *training = maker->training;
    const struct log *log = training->log;
    struct evaluated_set *day = &training->sets[training->count];
    const struct set *first = &log->sets.items[*order];
    const char *lifter = names_text(log->lifters, first->lifter);
    week_number week = week_of(first->day);
    for (size_t i = 0; i < count; i++) { /* the other members are filled in later */
        const struct set *set = &log->sets.items[order[i]];
        day[i].set = set;
        day[i].lifter = lifter;
        day[i].lift = names_text(log->lifts, set->lift);
        day[i].week = week;
        day[i].has_ar = set->ar->piece_count;
        day[i].doubts = 0;
    }
    weigh_masses(maker, day, count);
    training_offer_tests(maker, day, count);
    training->count += weigh_percents(maker, day, count, training_day_is_wanted(maker, first->day));
}

static void weigh_days(struct training_maker *maker, struct arena *arena, const uint32_t *order, size_t count)
{
    const struct set *sets = maker->training->log->sets.items;
    for (size_t start = 0, end; start < count; start = end) {
        const struct set *first = &sets[order[start]];
        end = start + 1;
        while (end < count && sets[order[end]].lifter == first->lifter && sets[order[end]].day == first->day)
            end++;
        if (!start || sets[order[start - 1]].lifter != first->lifter) {
            training_begin_lifter(maker, first->lifter);
            weighing_next_lifter(maker->weighing, arena);
        }
        weigh_day(maker, order + start, end - start);
    }
}

static void number_lifts(struct training_maker *maker)
{
    const struct names *names = maker->form.log->lifts;
    maker->lift_numbers = map_new(maker->kept);
    uint32_t *numbers = ARENA_ARRAY(maker->kept, uint32_t, names_count(names));
    for (uint32_t i = 0; i < names_count(names); i++) {
        const char *name = text_fold(maker->kept, names_text(names, i));
        numbers[i] = i;
        map_put(maker->lift_numbers, name, strlen(name), &numbers[i]);
    }
}

/* A finding switched off in [limits] does not exclude sets, either. */
static void read_limits(struct training_maker *maker)
{
    const struct gym *gym = maker->form.gym;
    maker->above = IMPOSSIBLE_ABOVE;
    for (size_t i = 0; i < gym->limit_count; i++) {
        const struct finding_limit *limit = &gym->limits[i];
        if (!strcmp(limit->id, "slip"))
            maker->slips_off = limit->off;
        if (strcmp(limit->id, "load-impossible") != 0)
            continue;
        maker->impossible_off = limit->off;
        maker->above = limit->value >= 1 ? limit->value / 100 : limit->value;
    }
}

struct training_maker *training_maker_new(struct arena *arena, const struct log *log, const struct gym *gym,
                                          const struct training_options *options)
{
    struct training_maker *maker = ARENA_NEW(arena, struct training_maker);
    maker->kept = arena;
    maker->scratch = arena_new();
    maker->form = (struct training){.gym = gym, .log = log, .options = *options};
    maker->form.lifter_ranks = name_ranks(arena, log->lifters);
    maker->form.lift_ranks = name_ranks(arena, log->lifts);
    maker->lifters_wanted = wanted_names(arena, log->lifters, &options->lifters, NULL);
    maker->lifts_wanted = wanted_names(arena, log->lifts, &options->lifts, gym);
    maker->lifts = ARENA_ARRAY(arena, struct lift_state, names_count(log->lifts));
    maker->weighing = weighing_new(arena, log, gym);
    number_lifts(maker);
    read_limits(maker);
    return maker;
}

const struct training *training_of_sets(struct training_maker *maker, struct arena *arena)
{
    struct training *training = maker->training = ARENA_NEW(arena, struct training);
    size_t count, late;
    *training = maker->form;
    maker->without_max.items = NULL;
    maker->without_max.count = maker->without_max.capacity = 0;
    uint32_t *order = reading_order(maker, &count);
    training->sets = arena_room(arena,
                                count * sizeof *training->sets); /* make_day() and what it calls set all members */
    maker->slips = (struct slips){.arena = arena};
    weigh_days(maker, arena, order, count);
    judge_training(maker);
    if (!training->options.without_focus)
        focus_by_pattern(training);
    late = training->without_max_count = maker->without_max.count;
    training->without_max = ARENA_ARRAY(arena, const struct set *, late);
    if (late)
        memcpy(training->without_max, maker->without_max.items, late * sizeof *training->without_max);
    arena_reset(maker->scratch);
    return training;
}

void training_maker_free(struct training_maker *maker)
{
    arena_free(maker->scratch);
}

const struct training *training_make(struct arena *arena, const struct log *log, const struct gym *gym,
                                     const struct training_options *options)
{
    struct training_maker *maker = training_maker_new(arena, log, gym, options);
    const struct training *training = training_of_sets(maker, arena);
    training_maker_free(maker);
    return training;
}
