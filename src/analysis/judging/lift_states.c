#include "analysis/judging/lift_states.h"

#include "base/text.h"

#include <stdlib.h>
#include <string.h>

bool training_day_is_wanted(const struct training_maker *maker, day_number day)
{
    const struct training_options *options = &maker->training->options;
    return (options->from == NO_DAY || day >= options->from) && (options->to == NO_DAY || day <= options->to);
}

struct lift_state *lift_state_of(struct training_maker *maker, uint32_t lift)
{
    struct lift_state *state = &maker->lifts[lift];
    if (state->turn != maker->turn) {
        state->turn = maker->turn;
        state->tested = NO_ONE_RM;
        rated_clear(&state->rated);
        state->day = NO_DAY;
        state->number = 0;
        state->count = 0;
    }
    return state;
}

static int by_test_day(const void *a, const void *b)
{
    const struct test *left = a, *right = b;
    return (left->day > right->day) - (left->day < right->day);
}

void training_begin_lifter(struct training_maker *maker, uint32_t number)
{
    const struct training *training = maker->training;
    maker->lifter_number = number;
    maker->turn++;
    maker->lifter = gym_lifter(training->gym, names_text(training->log->lifters, number));
    maker->tests.count = maker->tests_past = 0;
    for (size_t i = 0; maker->lifter && i < maker->lifter->max_count; i++) {
        const struct tested_max *max = &maker->lifter->maxes[i];
        const struct lift *of_gym = gym_lift(training->gym, max->lift);
        const char *name = text_fold(maker->kept, of_gym ? of_gym->name : max->lift);
        const uint32_t *lift = map_get(maker->lift_numbers, name, strlen(name));
        if (lift)
            *LIST_ADD(maker->kept, &maker->tests) = (struct test){max->day, *lift, max->kg};
    }
    if (maker->tests.count)
        qsort(maker->tests.items, maker->tests.count, sizeof *maker->tests.items, by_test_day);
}

static void offer_gym_tests(struct training_maker *maker, day_number day)
{
    for (; maker->tests_past < maker->tests.count; maker->tests_past++) {
        const struct test *test = &maker->tests.items[maker->tests_past];
        if (test->day > day)
            break;
        one_rm_offer(&lift_state_of(maker, test->lift)->tested, test->day, test->kg);
    }
}

void training_offer_tests(struct training_maker *maker, const struct evaluated_set *day, size_t count)
{
    offer_gym_tests(maker, day->set->day);
    for (size_t i = 0; i < count; i++) {
        const struct set *set = day[i].set;
        if (set->focus == FOCUS_TEST && set->reps == 1 && is_work(&day[i]) && !day[i].has_ar &&
            set->weight->straight != STRAIGHT_PERCENT && day[i].effect->straight_kg > 0)
            one_rm_offer(&lift_state_of(maker, set->lift)->tested, set->day, day[i].effect->straight_kg);
    }
}
