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

/* The Monday after the last logged week, whatever was trained in it; for a lifter without a log, the Monday after
 * today. */
static day_number usual_start(const struct training *source, uint32_t lifter)
{
    const struct log *log = source->log;
    const struct training_options *options = &source->options;
    day_number last = NO_DAY;
    for (size_t i = 0; i < log->sets.count; i++) {
        const struct set *set = &log->sets.items[i];
        bool counts = set->lifter == lifter && (options->to == NO_DAY || set->day <= options->to);
        if (counts && (last == NO_DAY || set->day > last))
            last = set->day;
    }
    if (last == NO_DAY)
        last = options->today != NO_DAY ? options->today : 0;
    return week_monday(week_of(last) + 1);
}

/* The log without its sets. */
static struct log without_sets(const struct log *source)
{
    struct log log = *source;
    log.sets.items = NULL;
    log.sets.count = log.sets.capacity = 0;
    return log;
}

static const struct training *train(struct arena *arena, const struct training *source, const struct log *log,
                                    const struct gym *gym)
{
    struct training_options options = source->options;
    options.lifters.count = options.lifts.count =
        0; /* the log has no other lifters; the other lifts show how new chains and bands are */
    options.to = NO_DAY;
    options.today = NO_DAY; /* every planned week counts as over */
    return training_make(arena, log, gym, &options);
}

const struct training *plan_train(struct plan_maker *maker, const struct log *log)
{
    return train(maker->arena, maker->source, log, &maker->gym);
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

/* The newest wave with that set-up; else the newest. */
static const struct wave *finished_like(const struct wave *const *waves, size_t count, const struct wave_week *week)
{
    for (size_t i = count; i-- > 0;)
        if (same_ar(waves[i]->weeks[waves[i]->count - 1].working, week->working))
            return waves[i];
    return count ? waves[count - 1] : NULL;
}

#define FRESH_DAYS 21 /* from the last week to the start of the plan: after a longer gap the wave is over */

static bool is_fresh(const struct plan_maker *maker, const struct wave_week *week)
{
    return maker->start - week->working->set->day <= FRESH_DAYS;
}

/* A wave is unfinished if the newest week came after the last whole wave, or if the newest wave has fewer weeks than
 * the others; unless shares are given, which ask for a new wave. */
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

/* The waves, and the newest week after them: a light week, or the start of a new wave. */
static void find_last_wave(struct plan_maker *maker)
{
    struct plan *plan = maker->plan;
    const struct waves *waves = maker->shared->waves;
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

static void add_plan_file(struct plan_maker *maker, struct log *log)
{
    struct log_file *files = ARENA_ARRAY(maker->arena, struct log_file, log->files.count + 1);
    if (log->files.count)
        memcpy(files, log->files.items, log->files.count * sizeof *files);
    files[maker->file] = (struct log_file){.path = "plan", .encoding = "UTF-8", .first = NO_DAY, .last = NO_DAY};
    log->files.items = files;
    log->files.count = log->files.capacity = log->files.count + 1;
}

/* Weeks after the last wave are left out: they would form one wave with the plan, and shift the plan's steps. */
struct log plan_log_after_past(struct plan_maker *maker)
{
    const struct plan *plan = maker->plan;
    const struct log *source = maker->past->log;
    struct log log = without_sets(source);
    bool *out = ARENA_ARRAY(maker->arena, bool, source->sets.count);
    for (size_t i = 0; i < maker->past->count && plan->after && !plan->done; i++) {
        const struct evaluated_set *set = &maker->past->sets[i];
        out[set->set - source->sets.items] = set->set->lift == maker->lift_number && set->focus == plan->focus &&
                                             set->week > plan->last->weeks[plan->last->count - 1].week;
    }
    add_plan_file(maker, &log);
    for (size_t i = 0; i < source->sets.count; i++)
        if (!out[i] && source->sets.items[i].lifter == maker->lifter_number)
            *LIST_ADD(maker->arena, &log.sets) = source->sets.items[i];
    return log;
}

/* Copies the lifters into a gym of its own, so that they can be changed. */
static struct lifter *copy_lifters(struct arena *arena, struct gym *gym, size_t room)
{
    struct lifter *lifters = ARENA_ARRAY(arena, struct lifter, gym->lifter_count + room);
    if (gym->lifter_count)
        memcpy(lifters, gym->lifters, gym->lifter_count * sizeof *lifters);
    gym->lifters = lifters;
    return lifters;
}

static const struct lifter *own_lifter(struct arena *arena, struct gym *gym, const char *name)
{
    const struct lifter *known = gym_lifter(gym, name);
    if (known)
        return known;
    struct lifter *own = copy_lifters(arena, gym, 1) + gym->lifter_count++;
    *own = (struct lifter){.name = name, .stature_m = NAN, .bodyweight_kg = NAN, .dates = DATES_UNSAID};
    return own;
}

static bool is_of_lift(const struct plan_maker *maker, const char *name)
{
    const struct lift *lift = gym_lift(&maker->gym, maker->plan->lift);
    return text_same_name(name, maker->plan->lift) || (lift && lift == gym_lift(&maker->gym, name));
}

/* The current 1RM at the start: as of the last set before it, or a test since then. */
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

/* Puts the wish's 1RM into the plan's gym file, as if tested on its first day. */
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
    size_t number = (size_t)(maker->lifter - maker->gym.lifters);
    struct lifter *lifter = copy_lifters(maker->arena, &maker->gym, 0) + number;
    maker->lifter = lifter;
    struct tested_max *maxes = ARENA_ARRAY(maker->arena, struct tested_max, lifter->max_count + 1);
    if (lifter->max_count)
        memcpy(maxes, lifter->maxes, lifter->max_count * sizeof *maxes);
    maxes[lifter->max_count++] = (struct tested_max){plan->lift, plan->one_rm.kg, maker->start};
    lifter->maxes = maxes;
}

void plan_look_back(struct plan_maker *maker)
{
    const struct plan_past *shared = maker->shared;
    struct plan *plan = maker->plan;
    maker->source = shared->source;
    maker->lifter_number = shared->lifter_number;
    maker->lift_number = number_of(maker->source->log->lifts, plan->lift);
    maker->file = (uint32_t)maker->source->log->files.count;
    maker->start = shared->start;
    maker->gym = shared->gym;
    maker->lifter = shared->lifter;
    maker->past = shared->training;
    maker->bodyweight_kg = shared->bodyweight_kg;
    find_last_wave(maker);
    plan->rack = rack_of_gym(&maker->gym);
    settle_one_rm(maker);
    maker->first_day = maker->start;
    if (maker->wish->start == NO_DAY && plan->last) /* on the weekday of the last wave */
        maker->first_day += day_of_week(plan->last->weeks[plan->last->count - 1].working->set->day) - 1;
}

/* --- the past that plans share -------------------------------------------------------------------------------------- */

/* Index of a lifter's first set in training->sets, which are sorted by lifter; count: there are none. */
static size_t first_set_of(const struct training *training, const char *lifter)
{
    size_t low = 0, high = training->count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (strcmp(training->sets[middle].lifter, lifter) < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

/* A lifter's part of the source. It may be used if the source has the whole log: the sets are weighed and judged
 * there. */
static struct training *part_of_source(struct arena *arena, const struct training *source, const char *lifter)
{
    struct training *part = ARENA_NEW(arena, struct training);
    size_t first = first_set_of(source, lifter), end = first;
    while (end < source->count && !strcmp(source->sets[end].lifter, lifter))
        end++;
    *part = *source;
    part->sets = source->sets + first;
    part->count = end - first;
    return part;
}

/* True if no set was left out, neither by options nor for lack of a 1RM. */
static bool is_whole(const struct training *source)
{
    const struct training_options *options = &source->options;
    return options->from == NO_DAY && options->to == NO_DAY && !options->lifts.count && !options->lifters.count &&
           !source->without_max_count && source->log->sets.count == source->count;
}

static const struct training *train_past(struct arena *arena, const struct plan_past *past)
{
    const struct log *all = past->source->log;
    struct log *log = ARENA_NEW(arena, struct log);
    *log = without_sets(all);
    for (size_t i = 0; i < all->sets.count; i++) {
        const struct set *set = &all->sets.items[i];
        if (set->lifter == past->lifter_number && set->day < past->start)
            *LIST_ADD(arena, &log->sets) = *set;
    }
    return train(arena, past->source, log, &past->gym);
}

static double last_bodyweight(const struct plan_past *past)
{
    for (size_t i = past->training->count; i-- > 0;)
        if (!isnan(past->training->sets[i].set->bodyweight_kg))
            return past->training->sets[i].set->bodyweight_kg;
    return past->lifter->bodyweight_kg;
}

/* Made again only if the source does not have everything up to the start. */
static void look_at_training(struct arena *arena, struct plan_past *past, const char *lifter, day_number start)
{
    bool whole = is_whole(past->source);
    const struct training *part = whole ? part_of_source(arena, past->source, lifter) : NULL;
    bool ends_before = part && part->count && (start == NO_DAY || part->sets[part->count - 1].set->day < start);
    past->start = start;
    if (start == NO_DAY)
        past->start = ends_before ? week_monday(week_of(part->sets[part->count - 1].set->day) + 1)
                                  : usual_start(past->source, past->lifter_number);
    past->training = ends_before ? part : train_past(arena, past);
}

const struct plan_past *plan_past_make(struct arena *arena, const struct training *training, const char *lifter,
                                       day_number start)
{
    struct plan_past *past = ARENA_NEW(arena, struct plan_past);
    *past = (struct plan_past){.source = training, .gym = *training->gym};
    past->lifter_number = number_of(training->log->lifters, lifter);
    past->lifter = own_lifter(arena, &past->gym, lifter);
    look_at_training(arena, past, names_text(training->log->lifters, past->lifter_number), start);
    past->waves = waves_make(arena, past->training);
    past->verdicts = verdicts_make(arena, past->training, past->waves, NO_DAY, &past->verdict_count);
    past->bodyweight_kg = last_bodyweight(past);
    return past;
}
