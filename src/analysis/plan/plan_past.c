#include "analysis/plan/plan_past.h"

#include "analysis/plan/plan_maker.h"

#include "analysis/judging/judging.h"
#include "base/text.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static uint32_t number_of(struct names *names, const char *name)
{
    return names_add(names, name, strlen(name));
}

/* The Monday after the last logged week, whatever was trained in it; a lifter without a log begins after today. */
static day_number usual_start(const struct plan_maker *maker)
{
    const struct log *log = maker->source->log;
    const struct training_options *options = &maker->source->options;
    day_number last = NO_DAY;
    for (size_t i = 0; i < log->sets.count; i++) {
        const struct set *set = &log->sets.items[i];
        bool counts = set->lifter == maker->lifter_number && (options->to == NO_DAY || set->day <= options->to);
        if (counts && (last == NO_DAY || set->day > last))
            last = set->day;
    }
    if (last == NO_DAY)
        last = options->today != NO_DAY ? options->today : 0;
    return week_monday(week_of(last) + 1);
}

static void begin_log(struct plan_maker *maker)
{
    const struct log *log = maker->source->log;
    struct log_file *files = ARENA_ARRAY(maker->arena, struct log_file, log->files.count + 1);
    if (log->files.count)
        memcpy(files, log->files.items, log->files.count * sizeof *files);
    maker->log = *log;
    maker->file = (uint32_t)log->files.count;
    files[maker->file] = (struct log_file){.path = "plan", .encoding = "UTF-8", .first = NO_DAY, .last = NO_DAY};
    maker->log.files.items = files;
    maker->log.files.count = maker->log.files.capacity = log->files.count + 1;
    maker->log.sets.items = NULL;
    maker->log.sets.count = maker->log.sets.capacity = 0;
    for (size_t i = 0; i < log->sets.count; i++) {
        const struct set *set = &log->sets.items[i];
        if (set->lifter != maker->lifter_number || set->day >= maker->start)
            continue;
        *LIST_ADD(maker->arena, &maker->log.sets) = *set;
    }
}

const struct training *plan_train(struct plan_maker *maker)
{
    struct training_options options = maker->source->options;
    options.lifters.count = options.lifts.count =
        0; /* no one else is here; other lifts tell how new chains and bands are */
    options.to = NO_DAY;
    options.today = NO_DAY; /* every planned week is over when it is looked at */
    return training_make(maker->arena, &maker->log, &maker->gym, &options);
}

bool is_planned_work(const struct plan_maker *maker, const struct wave_week *week)
{
    return week->focus == maker->wish->focus && week->working->set->lift == maker->lift_number;
}

static int by_number(const void *a, const void *b)
{
    size_t left = *(const size_t *)a, right = *(const size_t *)b;
    return (left > right) - (left < right);
}

/* The median; 0: none. */
static size_t usual_weeks(struct plan_maker *maker, const struct wave *const *waves, size_t count)
{
    size_t *weeks = ARENA_ARRAY(maker->arena, size_t, count);
    for (size_t i = 0; i < count; i++)
        weeks[i] = waves[i]->count;
    if (count)
        qsort(weeks, count, sizeof *weeks, by_number);
    return count ? weeks[(count - 1) / 2] : 0;
}

/* The newest of them with that set-up; else the newest. */
static const struct wave *finished_like(const struct wave *const *waves, size_t count, const struct wave_week *week)
{
    for (size_t i = count; i-- > 0;)
        if (same_ar(waves[i]->weeks[waves[i]->count - 1].working, week->working))
            return waves[i];
    return count ? waves[count - 1] : NULL;
}

#define FRESH_DAYS 21 /* from the last week to the start of the plan: a longer gap has ended the wave */

static bool is_fresh(const struct plan_maker *maker, const struct wave_week *week)
{
    return maker->start - week->working->set->day <= FRESH_DAYS;
}

/* A wave has begun where the newest week came after the last whole wave, or where the newest wave has fewer weeks than
 * the others; not where shares say that a new one is wanted. */
static void find_unfinished(struct plan_maker *maker, const struct wave *const *waves, size_t count)
{
    struct plan *plan = maker->plan;
    const struct wave *newest = waves[count - 1];
    const struct wave_week *after = plan->after;
    bool wants_new = maker->wish->shares || !isnan(maker->wish->step);
    maker->newest = &newest->weeks[newest->count - 1];
    maker->usual_weeks = usual_weeks(maker, waves, count);
    plan->last = newest;
    if (wants_new)
        return;
    if (after && !after->light && is_fresh(maker, after) && maker->usual_weeks > 1) {
        plan->done = 1;
        plan->last = finished_like(waves, count, after);
        maker->newest = after;
    } else if (!after && count > 1 && newest->end == WAVE_OPEN && is_fresh(maker, maker->newest) &&
               newest->count < usual_weeks(maker, waves, count - 1)) {
        maker->usual_weeks = usual_weeks(maker, waves, count - 1);
        plan->done = newest->count;
        plan->last = finished_like(waves, count - 1, maker->newest);
    }
}

/* The waves, and the newest week after them: light, or begun again. */
static void find_last_wave(struct plan_maker *maker)
{
    struct plan *plan = maker->plan;
    const struct waves *waves = maker->past_waves = waves_make(maker->arena, maker->past);
    const struct wave **own = ARENA_ARRAY(maker->arena, const struct wave *, waves->wave_count);
    size_t count = 0;
    for (size_t i = 0; i < waves->wave_count; i++)
        if (is_planned_work(maker, waves->waves[i].weeks))
            own[count++] = &waves->waves[i];
    if (!count)
        return;
    week_number last = own[count - 1]->weeks[own[count - 1]->count - 1].week;
    for (size_t i = 0; i < waves->all_count; i++)
        if (is_planned_work(maker, &waves->all[i]) && waves->all[i].week > last)
            plan->after = &waves->all[i];
    find_unfinished(maker, own, count);
}

/* Sets for the plan to follow; the past keeps its own. What is in no wave after the last one would grow into one
 * with the plan, and its steps be taken for the plan's: it is left out. */
static void copy_log(struct plan_maker *maker)
{
    const struct plan *plan = maker->plan;
    struct log *log = &maker->log;
    bool *out = ARENA_ARRAY(maker->arena, bool, log->sets.count);
    for (size_t i = 0; i < maker->past->count && plan->after && !plan->done; i++) {
        const struct evaluated_set *set = &maker->past->sets[i];
        out[set->set - log->sets.items] = set->set->lift == maker->lift_number && set->focus == plan->focus &&
                                          set->week > plan->last->weeks[plan->last->count - 1].week;
    }
    const struct set *sets = log->sets.items;
    size_t count = log->sets.count;
    log->sets.items = NULL;
    log->sets.count = log->sets.capacity = 0;
    for (size_t i = 0; i < count; i++)
        if (!out[i])
            *LIST_ADD(maker->arena, &log->sets) = sets[i];
}

static struct lifter *own_lifter(struct plan_maker *maker)
{
    struct gym *gym = &maker->gym;
    const struct lifter *known = gym_lifter(gym, maker->plan->lifter);
    struct lifter *lifters = ARENA_ARRAY(maker->arena, struct lifter, gym->lifter_count + 1);
    if (gym->lifter_count)
        memcpy(lifters, gym->lifters, gym->lifter_count * sizeof *lifters);
    size_t number = known ? (size_t)(known - gym->lifters) : gym->lifter_count++;
    if (!known)
        lifters[number] = (struct lifter){
            .name = maker->plan->lifter, .stature_m = NAN, .bodyweight_kg = NAN, .dates = DATES_UNSAID};
    gym->lifters = lifters;
    return &lifters[number];
}

static bool is_of_lift(const struct plan_maker *maker, const char *name)
{
    const struct lift *lift = gym_lift(&maker->gym, maker->plan->lift);
    return text_same_name(name, maker->plan->lift) || (lift && lift == gym_lift(&maker->gym, name));
}

/* The current 1RM at the start: as of the last set before it, and what was tested since. */
static struct one_rm one_rm_in_force(const struct plan_maker *maker)
{
    struct one_rm one_rm = NO_ONE_RM;
    for (size_t i = 0; i < maker->past->count; i++)
        if (maker->past->sets[i].set->lift == maker->lift_number)
            one_rm = maker->past->sets[i].one_rm;
    if (one_rm.from != ONE_RM_TESTED)
        one_rm = one_rm_estimated_on(maker->past, maker->lifter_number, maker->lift_number, maker->start);
    for (size_t i = 0; i < maker->lifter->max_count; i++) {
        const struct tested_max *max = &maker->lifter->maxes[i];
        if (max->day > maker->start || !is_of_lift(maker, max->lift))
            continue;
        if (one_rm.from != ONE_RM_TESTED)
            one_rm = NO_ONE_RM;
        one_rm_offer(&one_rm, max->day, max->kg);
    }
    return one_rm;
}

/* What the wish says is in the gym file of the plan, as if tested on its first day. */
static void settle_one_rm(struct plan_maker *maker)
{
    struct plan *plan = maker->plan;
    plan->one_rm_said = !isnan(maker->wish->max_kg);
    plan->one_rm = plan->one_rm_said ? (struct one_rm){maker->wish->max_kg, maker->start, ONE_RM_TESTED}
                                     : one_rm_in_force(maker);
    if (plan->one_rm.from != ONE_RM_NONE)
        plan->one_rm_days = maker->start - plan->one_rm.day;
    if (!plan->one_rm_said)
        return;
    struct lifter *lifter = maker->lifter;
    struct tested_max *maxes = ARENA_ARRAY(maker->arena, struct tested_max, lifter->max_count + 1);
    if (lifter->max_count)
        memcpy(maxes, lifter->maxes, lifter->max_count * sizeof *maxes);
    maxes[lifter->max_count++] = (struct tested_max){plan->lift, plan->one_rm.kg, maker->start};
    lifter->maxes = maxes;
}

static double last_bodyweight(const struct plan_maker *maker)
{
    for (size_t i = maker->past->count; i-- > 0;)
        if (!isnan(maker->past->sets[i].set->bodyweight_kg))
            return maker->past->sets[i].set->bodyweight_kg;
    return maker->lifter->bodyweight_kg;
}

void plan_look_back(struct plan_maker *maker)
{
    const struct training *source = maker->source;
    struct plan *plan = maker->plan;
    maker->lifter_number = number_of(source->log->lifters, plan->lifter);
    maker->lift_number = number_of(source->log->lifts, plan->lift);
    maker->start = maker->wish->start != NO_DAY ? maker->wish->start : usual_start(maker);
    maker->gym = *source->gym;
    maker->lifter = own_lifter(maker);
    begin_log(maker);
    maker->past = plan_train(maker);
    find_last_wave(maker);
    copy_log(maker);
    plan->rack = rack_of_gym(&maker->gym);
    maker->bodyweight_kg = last_bodyweight(maker);
    settle_one_rm(maker);
    maker->first_day = maker->start;
    if (maker->wish->start == NO_DAY && plan->last) /* on the weekday of the last wave */
        maker->first_day += day_of_week(plan->last->weeks[plan->last->count - 1].working->set->day) - 1;
}
