#include "analysis/training.h"

#include "analysis/focus.h"
#include "analysis/ordering.h"
#include "analysis/weighed.h"
#include "base/text.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define SPEED_MOST_REPS 3
#define SPEED_LEAST_SETS 6
#define SPEED_MOST_SHARE 0.65
#define STRENGTH_MOST_REPS 5
#define SAME_KG 1e-6 /* loads closer than this are one load: what is left of a conversion */

#define MOST_WEIGHTS 50000 /* remembered from lifter to lifter: some 15 MB */

struct lift_state /* of one lift while its lifter's days go by */
{
    uint32_t lifter; /* whose state it is, from 1; 0: nobody's yet */
    struct one_rm tested;
    struct estimates estimates;
    day_number day; /* of the set numbered last */
    uint32_t number;
};

struct test /* of the gym file */
{
    day_number day;
    uint32_t lift;
    double kg;
};

struct training_maker
{
    struct arena *kept;    /* the names' numbers, the lifts' states */
    struct arena *scratch; /* of one training */
    struct arena *weights; /* what loads weigh, from lifter to lifter */
    struct arena *own_weights; /* of one lifter, or of the lifters of one training */
    size_t most_weights;
    struct training *training;
    struct training form; /* of each training: what is known before its sets */
    const bool *lifters_wanted, *lifts_wanted; /* by number; NULL: all */
    struct weighing *weighing;
    struct lift_state *lifts; /* by lift number */
    struct map *lift_numbers; /* by folded name: the number + 1 */
    const struct lifter *lifter; /* of the gym file; NULL: not in it */
    uint32_t lifter_number;
    LIST(struct test) tests; /* of the lifter, by day */
    size_t tests_past;
    LIST(const struct set *) without_max;
};

static const char *gym_lift_name(const struct gym *gym, const char *name)
{
    const struct lift *lift = gym_lift(gym, name);
    return lift ? lift->name : name;
}

/* Which names the options ask for; NULL: all. `lifts_of`: they are lifts, which that gym may have aliases of. */
static bool *wanted_names(struct arena *scratch, const struct names *names, const struct name_choice *wanted, const struct gym *lifts_of)
{
    if (!wanted->count)
        return NULL;
    bool *chosen = ARENA_ARRAY(scratch, bool, names_count(names));
    for (size_t k = 0; k < wanted->count; k++) {
        const char *folded = text_fold(scratch, lifts_of ? gym_lift_name(lifts_of, wanted->names[k]) : wanted->names[k]);
        for (uint32_t i = 0; i < names_count(names); i++)
            chosen[i] = chosen[i] || !strcmp(text_fold(scratch, names_text(names, i)), folded);
    }
    return chosen;
}

/* Numbers of the sets asked for, by lifter, day and place in the files. */
static uint32_t *reading_order(struct training_maker *maker, size_t *count)
{
    const struct log *log = maker->training->log;
    struct arena *scratch = maker->scratch;
    const bool *lifters = maker->lifters_wanted, *lifts = maker->lifts_wanted;
    uint32_t *order = arena_room(scratch, log->sets.count * sizeof *order), *keys;
    const struct set *before = NULL;
    day_number first = INT32_MAX, last = INT32_MIN;
    bool in_order = true; /* most logs are */
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

static struct lift_state *state_of(struct training_maker *maker, uint32_t lift)
{
    struct lift_state *state = &maker->lifts[lift];
    if (state->lifter != maker->lifter_number + 1) {
        state->lifter = maker->lifter_number + 1;
        state->tested = NO_ONE_RM;
        estimates_clear(&state->estimates);
        state->day = NO_DAY;
        state->number = 0;
    }
    return state;
}

static int by_test_day(const void *a, const void *b)
{
    const struct test *left = a, *right = b;
    return (left->day > right->day) - (left->day < right->day);
}

static void begin_lifter(struct training_maker *maker, uint32_t number)
{
    const struct training *training = maker->training;
    maker->lifter_number = number;
    weighing_next_lifter(maker->weighing);
    maker->lifter = gym_lifter(training->gym, names_text(training->log->lifters, number));
    maker->tests.count = maker->tests_past = 0;
    for (size_t i = 0; maker->lifter && i < maker->lifter->max_count; i++) {
        const struct tested_max *max = &maker->lifter->maxes[i];
        const char *name = text_fold(maker->kept, gym_lift_name(training->gym, max->lift));
        const uint32_t *lift = map_get(maker->lift_numbers, name, strlen(name));
        if (lift)
            *LIST_ADD(maker->kept, &maker->tests) = (struct test){max->day, *lift, max->kg};
    }
    if (maker->tests.count)
        qsort(maker->tests.items, maker->tests.count, sizeof *maker->tests.items, by_test_day);
}

static void weigh_set(struct training_maker *maker, struct lifted *lifted, double tested_kg)
{
    const struct set *set = lifted->set;
    const struct weighed *weighed = weigh(maker->weighing, set, maker->lifter, tested_kg);
    enum e1rm_formula formula = maker->training->options.formula;
    lifted->effect = &weighed->effect;
    lifted->loading = weighed->loading;
    lifted->ar_key = weighed->ar_key;
    lifted->e1rm_low_kg = lifted->e1rm_high_kg = NAN;
    if (is_work(lifted) && !set->drop) {
        double rir = set->to_failure ? 0 : set->rir;
        lifted->e1rm_low_kg = e1rm_of_set(formula, weighed->effect.bottom_kg, set->reps, set->rpe, rir);
        lifted->e1rm_high_kg = lifted->has_ar ? e1rm_of_set(formula, weighed->effect.top_kg, set->reps, set->rpe, rir)
                                              : lifted->e1rm_low_kg;
    }
}

static void offer_gym_tests(struct training_maker *maker, day_number day)
{
    for (; maker->tests_past < maker->tests.count; maker->tests_past++) {
        const struct test *test = &maker->tests.items[maker->tests_past];
        if (test->day > day)
            break;
        one_rm_offer(&state_of(maker, test->lift)->tested, test->day, test->kg);
    }
}

/* The sets whose load is written as a mass: they, and the gym file's tests, say what the 1RM in force is. */
static void weigh_masses(struct training_maker *maker, struct lifted *day, size_t count)
{
    offer_gym_tests(maker, day->set->day);
    for (size_t i = 0; i < count; i++) {
        const struct set *set = day[i].set;
        if (set->load->straight == STRAIGHT_PERCENT)
            continue;
        weigh_set(maker, &day[i], NAN);
        struct lift_state *state = state_of(maker, set->lift);
        estimates_add(maker->kept, &state->estimates, set->day, day[i].e1rm_low_kg);
        if (set->focus == FOCUS_TEST && set->reps == 1 && is_work(&day[i]) && !day[i].has_ar &&
            day[i].effect->straight_kg > 0)
            one_rm_offer(&state->tested, set->day, day[i].effect->straight_kg);
    }
}

/* The sets whose load is in percent need a tested 1RM; those that have none leave the day. A single in percent is no
 * test itself: it rests on one. Returns how many sets stay. */
static size_t weigh_percents(struct training_maker *maker, struct lifted *day, size_t count, bool in_range)
{
    size_t kept = 0;
    for (size_t i = 0; i < count; i++) {
        const struct set *set = day[i].set;
        if (set->load->straight == STRAIGHT_PERCENT) {
            const struct one_rm *tested = &state_of(maker, set->lift)->tested;
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

static void number_and_measure(struct training_maker *maker, struct lifted *day, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        struct lifted *lifted = &day[i];
        struct lift_state *state = state_of(maker, lifted->set->lift);
        state->number = state->day == lifted->set->day ? state->number + 1 : 1;
        state->day = lifted->set->day;
        lifted->number = state->number;
        lifted->one_rm =
            state->tested.from != ONE_RM_NONE ? state->tested : estimates_best(&state->estimates, state->day);
        lifted->assumed = lifted->set->assumed | lifted->effect->assumed;
        if (lifted->one_rm.from == ONE_RM_ESTIMATED && !isnan(lifted->effect->straight_kg))
            lifted->assumed |= ASSUMED_ONE_REP_MAX;
    }
}

static bool could_be_speed(const struct lifted *lifted)
{
    return lifted->set->focus == FOCUS_UNSAID && lifted->set->reps <= SPEED_MOST_REPS &&
           lifted->effect->straight_kg <= lifted->one_rm.kg * SPEED_MOST_SHARE + SAME_KG;
}

static bool same_lift_and_load(const struct lifted *a, const struct lifted *b)
{
    double left = a->effect->straight_kg, right = b->effect->straight_kg;
    return a->set->lift == b->set->lift && (fabs(left - right) <= SAME_KG || (isnan(left) && isnan(right)));
}

static int by_lift_and_load(const void *a, const void *b)
{
    const struct lifted *left = *(struct lifted *const *)a, *right = *(struct lifted *const *)b;
    if (left->set->lift != right->set->lift)
        return left->set->lift < right->set->lift ? -1 : 1;
    double l = left->effect->straight_kg, r = right->effect->straight_kg;
    return isnan(l) || isnan(r) ? !isnan(l) - !isnan(r) : (l > r) - (l < r);
}

/* The day's number of sets of the lift is the state's by now; most lifts have too few to ask further. */
static bool of_many_sets(struct training_maker *maker, const struct lifted *lifted)
{
    return state_of(maker, lifted->set->lift)->number >= SPEED_LEAST_SETS;
}

/* All that could stand in one group with a set that could be speed work: a lift has one 1RM in force on a day. */
static size_t find_light(struct training_maker *maker, struct lifted *day, size_t count, struct lifted **light)
{
    size_t found = 0;
    for (size_t i = 0; i < count; i++)
        if (of_many_sets(maker, &day[i]) && day[i].effect->straight_kg <= day[i].one_rm.kg * SPEED_MOST_SHARE + 2 * SAME_KG)
            light[found++] = &day[i];
    return found;
}

/* Speed work is many short sets at one light weight: work sets of that lift, day and straight weight are counted. */
static void find_speed_work(struct training_maker *maker, struct lifted *day, size_t count)
{
    struct lifted **sorted = ARENA_ARRAY(maker->scratch, struct lifted *, count);
    count = find_light(maker, day, count, sorted);
    if (count < SPEED_LEAST_SETS)
        return;
    qsort(sorted, count, sizeof *sorted, by_lift_and_load);
    for (size_t start = 0, end; start < count; start = end) {
        size_t sets = 0;
        for (end = start; end < count && same_lift_and_load(sorted[end], sorted[start]); end++)
            sets += is_work(sorted[end]);
        for (size_t i = start; sets >= SPEED_LEAST_SETS && i < end; i++)
            if (could_be_speed(sorted[i]))
                sorted[i]->focus = FOCUS_SPEED;
    }
}

static void find_focus(struct training_maker *maker, struct lifted *day, size_t count)
{
    size_t candidates = 0;
    for (size_t i = 0; i < count; i++) {
        const struct set *set = day[i].set;
        day[i].focus = set->focus != FOCUS_UNSAID ? (enum focus)set->focus
                       : set->reps <= STRENGTH_MOST_REPS ? FOCUS_STRENGTH
                                                         : FOCUS_VOLUME;
        candidates += of_many_sets(maker, &day[i]) && is_work(&day[i]) && could_be_speed(&day[i]);
    }
    if (candidates)
        find_speed_work(maker, day, count);
}

/* One lifter's day, at the end of training->sets; it stays there only if it is asked for. */
static void make_day(struct training_maker *maker, const uint32_t *order, size_t count)
{
    struct training *training = maker->training;
    const struct log *log = training->log;
    struct lifted *day = &training->sets[training->count];
    const struct set *first = &log->sets.items[*order];
    const char *lifter = names_text(log->lifters, first->lifter);
    week_number week = week_of(first->day);
    for (size_t i = 0; i < count; i++) { /* the other members are filled in one after the other */
        const struct set *set = &log->sets.items[order[i]];
        day[i].set = set;
        day[i].lifter = lifter;
        day[i].lift = names_text(log->lifts, set->lift);
        day[i].week = week;
        day[i].has_ar = set->load->piece_count;
    }
    day_number date = first->day, from = training->options.from, to = training->options.to;
    bool in_range = (from == NO_DAY || date >= from) && (to == NO_DAY || date <= to);
    weigh_masses(maker, day, count);
    count = weigh_percents(maker, day, count, in_range);
    number_and_measure(maker, day, count);
    find_focus(maker, day, count);
    if (in_range)
        training->count += count;
}

static void make_days(struct training_maker *maker, const uint32_t *order, size_t count)
{
    const struct set *sets = maker->training->log->sets.items;
    for (size_t start = 0, end; start < count; start = end) {
        const struct set *first = &sets[order[start]];
        end = start + 1;
        while (end < count && sets[order[end]].lifter == first->lifter && sets[order[end]].day == first->day)
            end++;
        if (!start || sets[order[start - 1]].lifter != first->lifter)
            begin_lifter(maker, first->lifter);
        make_day(maker, order + start, end - start);
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

struct training_maker *training_maker_new(struct arena *arena, const struct log *log, const struct gym *gym,
                                          const struct training_options *options)
{
    struct training_maker *maker = ARENA_NEW(arena, struct training_maker);
    maker->kept = arena;
    maker->scratch = arena_new();
    maker->weights = arena_new();
    maker->own_weights = arena_new();
    maker->most_weights = MOST_WEIGHTS;
    maker->form = (struct training){.gym = gym, .log = log, .options = *options};
    maker->form.lifter_ranks = name_ranks(arena, log->lifters);
    maker->form.lift_ranks = name_ranks(arena, log->lifts);
    maker->lifters_wanted = wanted_names(arena, log->lifters, &options->lifters, NULL);
    maker->lifts_wanted = wanted_names(arena, log->lifts, &options->lifts, gym);
    maker->lifts = ARENA_ARRAY(arena, struct lift_state, names_count(log->lifts));
    number_lifts(maker);
    return maker;
}

static const struct training *make(struct training_maker *maker, struct arena *arena)
{
    struct training *training = maker->training = ARENA_NEW(arena, struct training);
    size_t count, late;
    *training = maker->form;
    maker->without_max.items = NULL;
    maker->without_max.count = maker->without_max.capacity = 0;
    uint32_t *order = reading_order(maker, &count);
    training->sets = arena_room(arena, count * sizeof *training->sets); /* make_day() and what it calls fill in all of each */
    make_days(maker, order, count);
    focus_by_pattern(training);
    late = training->without_max_count = maker->without_max.count;
    training->without_max = ARENA_ARRAY(arena, const struct set *, late);
    if (late)
        memcpy(training->without_max, maker->without_max.items, late * sizeof *training->without_max);
    arena_reset(maker->scratch);
    return training;
}

const struct training *training_of_sets(struct training_maker *maker, struct arena *arena)
{
    if (maker->weighing && weighing_count(maker->weighing) > maker->most_weights) {
        arena_reset(maker->weights);
        maker->weighing = NULL;
    }
    if (!maker->weighing)
        maker->weighing = weighing_new(maker->weights, maker->own_weights, maker->form.log, maker->form.gym);
    arena_reset(maker->own_weights);
    return make(maker, arena);
}

void training_maker_share(struct training_maker *maker, unsigned makers)
{
    maker->most_weights = MOST_WEIGHTS / makers;
}

void training_maker_free(struct training_maker *maker)
{
    arena_free(maker->scratch);
    arena_free(maker->weights);
    arena_free(maker->own_weights);
}

const struct training *training_make(struct arena *arena, const struct log *log, const struct gym *gym,
                                     const struct training_options *options)
{
    struct training_maker *maker = training_maker_new(arena, log, gym, options);
    maker->weighing = weighing_new(arena, arena, log, gym);
    const struct training *training = make(maker, arena);
    training_maker_free(maker);
    return training;
}
