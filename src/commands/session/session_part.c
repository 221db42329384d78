#include "commands/session/session_part.h"

#include <string.h>

#define GETTER(name, type, member)                                                                                     \
    const char *lifter_of_##name(const void *item)                                                                     \
    {                                                                                                                  \
        return ((const type *)item)->member;                                                                           \
    }
GETTER(verdict, struct verdict, lifter)
GETTER(week, struct trend_week, lifter)
GETTER(slope, struct trend_slope, lifter)

const char *lifter_of_finding(const void *item)
{
    return (*(const struct finding *const *)item)->first->lifter;
}

const char *lifter_of_set(const void *item)
{
    return ((const struct evaluated_set *)item)->lifter;
}

static const char *lifter_of_cause(const void *item)
{
    return ((const struct cause *)item)->newest->first->lifter;
}

/* The first item whose lifter is not before this one, or, `behind`, is after. */
static size_t bound(const void *items, size_t count, size_t size, lifter_getter *lifter_of, const char *lifter,
                    bool behind)
{
    size_t low = 0, high = count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        int order = strcmp(lifter_of((const char *)items + middle * size), lifter);
        if (order < 0 || (behind && !order))
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

struct lifter_span lifter_span(const void *items, size_t count, size_t size, lifter_getter *lifter_of,
                               const char *lifter)
{
    size_t first = bound(items, count, size, lifter_of, lifter, false);
    return (struct lifter_span){first, bound(items, count, size, lifter_of, lifter, true) - first};
}

#define SPAN(items, count, name) lifter_span((items), (count), sizeof *(items), lifter_of_##name, lifter)

static const struct training *training_part(struct arena *arena, const struct training *all, const char *lifter)
{
    struct training *part = ARENA_NEW(arena, struct training);
    struct lifter_span sets = SPAN(all->sets, all->count, set);
    *part = *all;
    part->sets = all->sets + sets.first;
    part->count = sets.count;
    return part;
}

static const struct findings *findings_part(struct arena *arena, const struct findings *all, const char *lifter)
{
    struct findings *part = ARENA_NEW(arena, struct findings);
    struct lifter_span found = SPAN(all->items, all->count, finding);
    *part = (struct findings){all->items + found.first, found.count, all->log};
    return part;
}

static const struct causes *causes_part(struct arena *arena, const struct causes *all, const char *lifter)
{
    struct causes *part = ARENA_NEW(arena, struct causes);
    struct lifter_span found = SPAN(all->items, all->count, cause);
    *part = (struct causes){all->items + found.first, found.count, all->of_finding};
    return part;
}

struct session *session_part(struct arena *arena, struct session *session, const char *lifter)
{
    struct session *part = ARENA_NEW(arena, struct session);
    size_t count;
    const struct verdict *verdicts = session_verdicts(session, &count);
    struct lifter_span own = SPAN(verdicts, count, verdict);
    const struct findings *findings = session_findings(session);
    const struct causes *causes = session_causes(session);
    *part = *session;
    part->arena = arena;
    part->part_of = session;
    part->training = training_part(arena, session->training, lifter);
    part->verdicts = verdicts + own.first;
    part->verdict_count = own.count;
    part->findings = findings_part(arena, findings, lifter);
    part->causes = causes_part(arena, causes, lifter);
    if (session->has_weeks) {
        own = SPAN(session->weeks, session->week_count, week);
        part->weeks = session->weeks + own.first;
        part->week_count = own.count;
    }
    if (session->has_slopes) {
        own = SPAN(session->slopes, session->slope_count, slope);
        part->slopes = session->slopes + own.first;
        part->slope_count = own.count;
    }
    return part;
}
