#include "analysis/findings/causes.h"

#include "base/names.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum scope /* what findings of one cause have in common, in addition to lifter and id */
{
    BY_WAVES, /* lift and focus */
    BY_GEAR,  /* lift and chain or band */
    BY_LIFT,
    BY_THING, /* the chain or band, whichever lift it is used in */
    BY_LIFTER
};

struct cause_rule
{
    enum scope scope;
    const char *remedy; /* NULL: use the heading of the kind's advice */
};

static const struct cause_rule rules[FINDING_COUNT] = {
#define FINDING(id, name, severity, unit, limit, advice, scope, why, source, remedy) {BY_##scope, remedy},
#include "findings.def"
};

/* When an effect may occur, relative to its root. */
enum when
{
    BEGINS_TOGETHER, /* their first sets are less than a week apart */
    OVERLAPS
};

struct effect_rule
{
    enum finding_id effect, root;
    enum when when;
};

/* The first rule that applies counts; a root may itself be the effect of another. */
static const struct effect_rule effect_rules[] = {
    {FINDING_BAND_UNPAIRED, FINDING_BAND_MISMATCH, OVERLAPS},
    {FINDING_SETUP_CHANGED, FINDING_BAND_OVER_RANGE, BEGINS_TOGETHER},
    {FINDING_SETUP_CHANGED, FINDING_CHAIN_SWINGS, BEGINS_TOGETHER},
    {FINDING_SETUP_CHANGED, FINDING_BAND_MISMATCH, BEGINS_TOGETHER},
    {FINDING_SHARE_JUMP, FINDING_BAND_OVER_RANGE, OVERLAPS},
    {FINDING_SHARE_JUMP, FINDING_SETUP_CHANGED, OVERLAPS},
    {FINDING_SHARE_OUT_OF_RANGE, FINDING_BAND_OVER_RANGE, OVERLAPS},
    {FINDING_SHARE_OUT_OF_RANGE, FINDING_SHARE_JUMP, OVERLAPS},
    {FINDING_SHARE_OUT_OF_RANGE, FINDING_SETUP_CHANGED, OVERLAPS},
    {FINDING_VOLUME_JUMP, FINDING_BAND_OVER_RANGE, BEGINS_TOGETHER},
    {FINDING_VOLUME_JUMP, FINDING_SLIP, BEGINS_TOGETHER},
    {FINDING_VOLUME_JUMP, FINDING_SHARE_JUMP, BEGINS_TOGETHER},
};

struct causes_maker
{
    struct arena *arena, *scratch;
    const struct findings *findings;
    size_t *roots;     /* by finding: the index of its root; its own index if it has none */
    struct cause **of; /* by finding */
    struct map *known; /* causes by lifter and name */
    struct map *ends;  /* the last day of each lifter */
    LIST(struct cause *) list;
};

/* --- effects ------------------------------------------------------------------------------------------------------ */

static bool is_low(const struct finding *finding)
{
    return finding->value < finding->limit;
}

static bool lies_with(const struct finding *effect, const struct finding *root, enum when when)
{
    day_number begins = effect->first->set->day, root_begins = root->first->set->day;
    if (when == BEGINS_TOGETHER)
        return begins - root_begins < 7 && root_begins - begins < 7;
    return begins <= root->last->set->day && root_begins <= effect->last->set->day;
}

static bool same_lift(const struct finding *a, const struct finding *b)
{
    return !strcmp(a->first->lifter, b->first->lifter) && !strcmp(a->first->lift, b->first->lift);
}

/* A share that is too small is not the effect of too much pull. */
static bool is_raised_by(const struct finding *finding, const struct finding *root, const struct effect_rule *rule)
{
    bool small = finding->id == FINDING_SHARE_OUT_OF_RANGE && is_low(finding);
    return finding->id == rule->effect && root->id == rule->root && lies_with(finding, root, rule->when) &&
           !(small && rule->root != FINDING_SETUP_CHANGED);
}

/* Findings of one lift are adjacent: the root is looked for in [begin, end). */
static size_t root_of(const struct causes_maker *maker, size_t at, size_t begin, size_t end)
{
    const struct finding *const *items = maker->findings->items;
    for (size_t rule = 0; rule < sizeof effect_rules / sizeof *effect_rules; rule++)
        for (size_t i = begin; effect_rules[rule].effect == items[at]->id && i < end; i++)
            if (i != at && is_raised_by(items[at], items[i], &effect_rules[rule]))
                return i;
    return at;
}

/* Invariant: no rule leads back to where it came from, because the ids in effect_rules[] are ordered. */
static void find_roots(struct causes_maker *maker)
{
    const struct findings *findings = maker->findings;
    for (size_t begin = 0, end; begin < findings->count; begin = end) {
        for (end = begin; end < findings->count && same_lift(findings->items[begin], findings->items[end]); end++)
            ;
        for (size_t i = begin; i < end; i++)
            maker->roots[i] = root_of(maker, i, begin, end);
    }
    for (size_t i = 0; i < findings->count; i++)
        while (maker->roots[maker->roots[i]] != maker->roots[i])
            maker->roots[i] = maker->roots[maker->roots[i]];
}

/* --- causes ------------------------------------------------------------------------------------------------------- */

static const char *share_words(const struct finding *finding)
{
    return finding->id != FINDING_SHARE_OUT_OF_RANGE ? "" : is_low(finding) ? ": low" : ": high";
}

static const char *name_of(struct arena *arena, const struct finding *finding)
{
    const char *id = finding_kinds[finding->id].id, *lift = finding->first->lift;
    const char *thing = finding->subject;
    switch (rules[finding->id].scope) {
    case BY_WAVES:
        return arena_printf(arena, "%s, %s: %s%s", lift, focus_name(finding->first->focus), id, share_words(finding));
    case BY_GEAR:
        return arena_printf(arena, "%s: %s%s%s", lift, id, *thing ? ": " : "", thing);
    case BY_LIFT:
        return arena_printf(arena, "%s: %s", lift, id);
    case BY_THING:
        return arena_printf(arena, "%s%s%s", id, *thing ? ": " : "", thing);
    case BY_LIFTER:
        break;
    }
    return id;
}

static day_number end_of(const struct causes_maker *maker, const char *lifter)
{
    const day_number *end = map_get(maker->ends, lifter, strlen(lifter));
    return end ? *end : NO_DAY;
}

static struct cause *cause_at(struct causes_maker *maker, const struct finding *root)
{
    const char *name = name_of(maker->arena, root), *lifter = root->first->lifter;
    const char *key = arena_printf(maker->scratch, "%s\n%s", lifter, name);
    struct cause *cause = map_get(maker->known, key, strlen(key));
    if (cause)
        return cause;
    cause = ARENA_NEW(maker->arena, struct cause);
    *cause = (struct cause){
        .name = name, .id = root->id, .first = INT32_MAX, .last = NO_DAY, .log_end = end_of(maker, lifter)};
    map_put(maker->known, key, strlen(key), cause);
    *LIST_ADD(maker->scratch, &maker->list) = cause;
    return cause;
}

static double stake_kg(const struct finding *finding)
{
    double kg = finding->unit == FINDING_KG      ? fabs(finding->value)
                : finding->unit == FINDING_SHARE ? fabs(finding->value - finding->limit) * finding->first->one_rm.kg
                                                 : 0;
    return isfinite(kg) ? kg : 0;
}

static int newest_first(const void *a, const void *b)
{
    const struct finding *left = *(const struct finding *const *)a, *right = *(const struct finding *const *)b;
    day_number days[] = {left->last->set->day, right->last->set->day};
    if (days[0] != days[1])
        return days[0] < days[1] ? 1 : -1;
    int order = strcmp(left->first->lift, right->first->lift);
    order = order ? order : (left->id > right->id) - (left->id < right->id);
    return order ? order : strcmp(left->message, right->message);
}

static int by_text(const void *a, const void *b)
{
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

static void gather_lifts(struct causes_maker *maker, struct cause *cause)
{
    const char **lifts = ARENA_ARRAY(maker->arena, const char *, cause->count);
    for (size_t i = 0; i < cause->count; i++)
        lifts[i] = cause->findings[i]->first->lift;
    qsort(lifts, cause->count, sizeof *lifts, by_text);
    for (size_t i = 0; i < cause->count; i++)
        if (!i || strcmp(lifts[i], lifts[i - 1]))
            lifts[cause->lift_count++] = lifts[i];
    cause->lifts = lifts;
}

static void complete(struct causes_maker *maker, struct cause *cause)
{
    qsort((void *)cause->findings, cause->count, sizeof *cause->findings, newest_first);
    for (size_t i = 0; i < cause->count; i++) {
        const struct finding *finding = cause->findings[i];
        enum finding_severity severity = finding_kinds[finding->id].severity;
        if (finding->id == cause->id && !cause->newest)
            cause->newest = finding;
        cause->episodes += finding->id == cause->id;
        cause->severity = severity > cause->severity ? severity : cause->severity;
        cause->first = finding->first->set->day < cause->first ? finding->first->set->day : cause->first;
        cause->last = finding->last->set->day > cause->last ? finding->last->set->day : cause->last;
        cause->kg = fmax(cause->kg, stake_kg(finding));
    }
    cause->history = cause->log_end != NO_DAY && cause->log_end - cause->last >= CAUSE_HISTORY_DAYS;
    gather_lifts(maker, cause);
}

/* Two passes: first the number of findings of each cause, then the findings. */
static void gather(struct causes_maker *maker)
{
    const struct findings *findings = maker->findings;
    for (size_t i = 0; i < findings->count; i++) {
        maker->of[i] = cause_at(maker, findings->items[maker->roots[i]]);
        maker->of[i]->count++;
    }
    for (size_t i = 0; i < maker->list.count; i++) {
        struct cause *cause = maker->list.items[i];
        cause->findings = ARENA_ARRAY(maker->arena, const struct finding *, cause->count);
        cause->count = 0;
    }
    for (size_t i = 0; i < findings->count; i++)
        ((const struct finding **)maker->of[i]->findings)[maker->of[i]->count++] = findings->items[i];
    for (size_t i = 0; i < maker->list.count; i++)
        complete(maker, maker->list.items[i]);
}

/* What to change first comes first. */
static int by_rank(const void *a, const void *b)
{
    const struct cause *left = *(const struct cause *const *)a, *right = *(const struct cause *const *)b;
    int order = strcmp(left->newest->first->lifter, right->newest->first->lifter);
    week_number weeks[] = {week_of(left->last), week_of(right->last)};
    if (order)
        return order;
    if (left->history != right->history)
        return left->history ? 1 : -1;
    if (left->severity != right->severity)
        return left->severity < right->severity ? 1 : -1;
    if (weeks[0] != weeks[1])
        return weeks[0] < weeks[1] ? 1 : -1;
    if (left->kg < right->kg || left->kg > right->kg)
        return left->kg < right->kg ? 1 : -1;
    return strcmp(left->name, right->name);
}

static void find_ends(struct causes_maker *maker, const struct training *training)
{
    day_number *end = NULL;
    for (size_t i = 0; i < training->count; i++) { /* sorted by lifter, then day */
        const struct evaluated_set *set = &training->sets[i];
        if (!i || set->lifter != set[-1].lifter) {
            end = ARENA_NEW(maker->scratch, day_number);
            map_put(maker->ends, set->lifter, strlen(set->lifter), end);
        }
        *end = set->set->day;
    }
}

/* The ranked causes in one array, with the lookup table from findings to causes. */
static const struct causes *rank(struct causes_maker *maker)
{
    size_t count = maker->list.count;
    struct cause *ranked = ARENA_ARRAY(maker->arena, struct cause, count);
    struct causes *causes = ARENA_NEW(maker->arena, struct causes);
    struct map *of_finding = map_new(maker->arena);
    if (count)
        qsort(maker->list.items, count, sizeof *maker->list.items, by_rank);
    for (size_t i = 0; i < count; i++) {
        ranked[i] = *maker->list.items[i];
        for (size_t j = 0; j < ranked[i].count; j++)
            map_put(of_finding, (const char *)&ranked[i].findings[j], sizeof ranked[i].findings[j], &ranked[i]);
    }
    *causes = (struct causes){ranked, count, of_finding};
    return causes;
}

const struct cause *cause_of(const struct causes *causes, const struct finding *finding)
{
    return map_get(causes->of_finding, (const char *)&finding, sizeof finding);
}

const struct causes *causes_make(struct arena *arena, const struct findings *findings, const struct training *training)
{
    struct arena *scratch = arena_new();
    struct causes_maker maker = {.arena = arena,
                                 .scratch = scratch,
                                 .findings = findings,
                                 .roots = ARENA_ARRAY(scratch, size_t, findings->count),
                                 .of = ARENA_ARRAY(scratch, struct cause *, findings->count),
                                 .known = map_new(scratch),
                                 .ends = map_new(scratch)};
    find_ends(&maker, training);
    find_roots(&maker);
    gather(&maker);
    const struct causes *causes = rank(&maker);
    arena_free(scratch);
    return causes;
}

const char *cause_remedy(const struct cause *cause)
{
    const char *remedy = rules[cause->id].remedy;
    if (cause->id == FINDING_SHARE_OUT_OF_RANGE)
        return is_low(cause->newest) ? "Hang more chain or band on the bar" : "Take chain or band off the bar";
    return remedy ? remedy : finding_advice_words(finding_kinds[cause->id].advice);
}

size_t causes_count(const struct causes *causes, const char *lifter, enum finding_severity severity)
{
    size_t count = 0;
    for (size_t i = 0; i < causes->count; i++)
        count += causes->items[i].severity == severity &&
                 (!lifter || !strcmp(causes->items[i].newest->first->lifter, lifter));
    return count;
}
