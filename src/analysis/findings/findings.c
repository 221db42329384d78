#include "analysis/findings/findings.h"

#include "analysis/evaluated_set.h"
#include "analysis/findings/findings_doubts.h"
#include "analysis/findings/findings_gear.h"
#include "analysis/findings/findings_load.h"
#include "analysis/findings/findings_maker.h"
#include "analysis/findings/findings_measured.h"
#include "analysis/findings/findings_waves.h"
#include "base/text.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

const struct finding_kind finding_kinds[FINDING_COUNT] = {
#define FINDING(id, name, severity, unit, limit, advice, scope, why, source, remedy)                                   \
    {name, FINDING_##severity, FINDING_##unit, ADVICE_##advice, why, source},
#include "findings.def"
};

const struct limit_row limit_rows[LIMIT_COUNT] = {
#define FINDING(id, name, severity, unit, limit, ...) [FINDING_##id] = {name, FINDING_##unit, limit},
#define LIMIT(id, name, unit, limit) [LIMIT_##id] = {name, FINDING_##unit, limit},
#include "findings.def"
};

static const char *const severity_names[] = {"note", "caution", "fault"};

const char *finding_severity_name(enum finding_severity severity)
{
    return severity_names[severity];
}

bool finding_severity_read(const char *name, enum finding_severity *severity)
{
    for (int i = FINDING_NOTE; i <= FINDING_FAULT; i++) {
        if (strcmp(name, severity_names[i]))
            continue;
        *severity = (enum finding_severity)i;
        return true;
    }
    return false;
}

const char *finding_advice_words(enum finding_advice advice)
{
    static const char *const words[ADVICE_COUNT] = {
        [ADVICE_MEND_GEAR] = "Fix the set-up",
        [ADVICE_KEEP_SETUP] = "Keep one set-up through a wave",
        [ADVICE_CHOOSE_LOADS] = "Reconsider the loads",
        [ADVICE_MEASURE] = "Measure and test again",
    };
    return words[advice];
}

/* --- limits ------------------------------------------------------------------------------------------------------- */

static void set_limit(const struct finding_limit *limit, double *limits, bool *off)
{
    for (size_t i = 0; i < LIMIT_COUNT; i++) {
        if (!text_same_name(limit->id, limit_rows[i].id))
            continue;
        bool in_percent = limit_rows[i].unit == FINDING_SHARE && limit->value >= 1;
        limits[i] = limit->off ? NAN : in_percent ? limit->value / 100 : limit->value;
        if (i < FINDING_COUNT)
            off[i] = limit->off;
    }
}

void limits_of_gym(const struct gym *gym, double *limits, bool *off)
{
    for (size_t i = 0; i < LIMIT_COUNT; i++)
        limits[i] = limit_rows[i].number;
    for (size_t i = 0; i < FINDING_COUNT; i++)
        off[i] = false;
    for (size_t i = 0; i < gym->limit_count; i++)
        set_limit(&gym->limits[i], limits, off);
}

/* --- all together ------------------------------------------------------------------------------------------------- */

/* Builds the one sentence. Several days are named; a single day is the finding's own. */
static void finish(struct findings_maker *maker, struct finding *finding)
{
    const char *until = "";
    finding->what = arena_copy(maker->arena, finding->fact);
    if (finding->last->set->day != finding->first->set->day)
        until = arena_printf(maker->scratch, ", to %s", day_words(maker, finding->last->set->day));
    finding->fact = arena_printf(maker->arena, "%s (%zu %s%s)", finding->fact, finding->sets,
                                 finding->sets == 1 ? "set" : "sets", until);
    finding->message = arena_printf(maker->arena, "%s: %s", finding->fact, finding_kinds[finding->id].why);
}

static int by_place(const void *a, const void *b)
{
    const struct finding *left = *(struct finding *const *)a, *right = *(struct finding *const *)b;
    int order = strcmp(left->first->lifter, right->first->lifter);
    order = order ? order : strcmp(left->first->lift, right->first->lift);
    if (order)
        return order;
    if (comes_before(left->first, right->first) || comes_before(right->first, left->first))
        return comes_before(left->first, right->first) ? -1 : 1;
    return left->id != right->id ? (left->id > right->id) - (left->id < right->id)
                                 : strcmp(left->message, right->message);
}

static bool is_wanted(const struct findings_maker *maker, enum finding_id id)
{
    return !maker->off[id] && maker->options->ids >> id & 1 && finding_kinds[id].severity >= maker->options->least;
}

static const struct findings *collect(struct findings_maker *maker)
{
    struct findings *findings = ARENA_NEW(maker->arena, struct findings);
    struct finding **kept = ARENA_ARRAY(maker->arena, struct finding *, maker->list.count);
    size_t count = 0;
    for (size_t i = 0; i < maker->list.count; i++) {
        struct finding *finding = maker->list.items[i];
        if (!is_wanted(maker, finding->id))
            continue;
        finish(maker, finding);
        kept[count++] = finding;
    }
    if (count)
        qsort(kept, count, sizeof *kept, by_place);
    *findings = (struct findings){(const struct finding *const *)kept, count, maker->training->log};
    return findings;
}

static bool is_of(const struct lift_sets *sets, const char *lifter, const char *lift)
{
    return !strcmp(sets->lift, lift) && !strcmp(sets->lifter, lifter);
}

/* Waves and weeks are in the order of the lifts, so those of one lift are adjacent. */
struct reviewing
{
    const struct waves *waves;
    size_t wave, week; /* index of the next one */
};

static struct lift_review review_lift(struct reviewing *next, const struct gym *gym, const struct lift_sets *sets)
{
    const struct waves *waves = next->waves;
    struct lift_review review = {.sets = *sets, .lifter = gym_lifter(gym, sets->lifter)};
    for (; next->wave < waves->wave_count; next->wave++, review.wave_count++)
        if (!is_of(sets, waves->waves[next->wave].weeks->lifter, waves->waves[next->wave].weeks->lift))
            break;
    for (; next->week < waves->all_count; next->week++, review.week_count++)
        if (!is_of(sets, waves->all[next->week].lifter, waves->all[next->week].lift))
            break;
    if (review.wave_count)
        review.waves = &waves->waves[next->wave - review.wave_count];
    if (review.week_count)
        review.weeks = &waves->all[next->week - review.week_count];
    return review;
}

static void find_in_lifts(struct findings_maker *maker, struct reviewing next)
{
    size_t count;
    const struct lift_sets *lifts = training_by_lift(maker->scratch, maker->training, &count);
    for (size_t i = 0; i < count; i++) {
        struct lift_review review = review_lift(&next, maker->training->gym, &lifts[i]);
        find_in_gear(maker, &review);
        find_in_waves(maker, &review);
        find_in_load(maker, &review);
        find_doubts(maker, &review);
    }
}

const struct findings *findings_from_waves(struct arena *arena, const struct training *training,
                                           const struct waves *waves, const struct findings_options *options)
{
    struct findings_maker maker = {.arena = arena, .scratch = arena_new(), .training = training, .options = options};
    maker.first_weeks = first_weeks_with_ar(maker.scratch, training->log);
    limits_of_gym(training->gym, maker.limits, maker.off);
    maker.slips = slips_by_set(maker.scratch, training);
    find_in_lifts(&maker, (struct reviewing){.waves = waves});
    for (size_t start = 0, end; start < training->count; start = end) {
        for (end = start; end < training->count && training->sets[end].set->lifter == training->sets[start].set->lifter;
             end++)
            ;
        find_of_gear(&maker, &training->sets[start], end - start);
    }
    const struct findings *findings = collect(&maker);
    arena_free(maker.scratch);
    return findings;
}

const struct findings *findings_make(struct arena *arena, const struct training *training,
                                     const struct findings_options *options)
{
    struct arena *scratch = arena_new();
    const struct waves *waves = waves_make(scratch, training);
    const struct findings *findings = findings_from_waves(arena, training, waves, options);
    arena_free(scratch);
    return findings;
}

bool findings_have(const struct findings *findings, enum finding_severity severity)
{
    for (size_t i = 0; i < findings->count; i++)
        if (finding_kinds[findings->items[i]->id].severity >= severity)
            return true;
    return false;
}
