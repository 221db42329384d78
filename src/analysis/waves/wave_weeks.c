#include "analysis/waves/wave_weeks.h"

#include "analysis/evaluated_set.h"
#include "analysis/statistics/statistics.h"
#include "base/names.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define WORKING_LEAST 0.80 /* of the week's heaviest, outside speed work: most logs do not mark warm-ups */
#define USUAL_MOST 1.15    /* of the usual top: above this it is a slip or an odd day */
#define NEAR_WEEKS 4       /* training weeks on each side that define what is usual */
#define LEAST_NEAR 3
#define SAME_KG 1e-6 /* rounding left over from unit conversion */

struct session /* of a lift and focus: the work sets of one day */
{
    const struct evaluated_set **sets;
    size_t count;
    week_number week; /* after sessions at the week's edge were moved */
};

struct sessions
{
    struct arena *scratch;
    LIST(struct session) list;
};

struct week_sets /* the week's sets that have a weight, heaviest first */
{
    const struct evaluated_set **sets;
    size_t count;
};

struct load_run /* a run of sets with one straight weight, among sets sorted by it */
{
    const struct evaluated_set **sets;
    size_t count, reps;
};

bool counts_in_waves(const struct evaluated_set *set)
{
    return is_work(set) && is_believed(set);
}

/* --- sessions and their weeks ----------------------------------------------------------------------------------------------- */

static struct sessions sessions_of(struct arena *scratch, const struct lift_sets *lift, enum focus focus)
{
    struct sessions sessions = {.scratch = scratch};
    const struct evaluated_set **sets = ARENA_ARRAY(scratch, const struct evaluated_set *, lift->count);
    size_t count = 0;
    for (size_t i = 0; i < lift->count; i++)
        if (lift->sets[i]->focus == focus && counts_in_waves(lift->sets[i]))
            sets[count++] = lift->sets[i];
    for (size_t start = 0, end; start < count; start = end) {
        for (end = start; end < count && sets[end]->set->day == sets[start]->set->day; end++)
            ;
        *LIST_ADD(scratch, &sessions.list) = (struct session){sets + start, end - start, sets[start]->week};
    }
    return sessions;
}

/* Sessions are sorted by week, so those of adjacent weeks are near: the search never goes further than the sessions
 * of a week. */
static size_t sessions_in(const struct sessions *sessions, size_t near, week_number week)
{
    size_t count = 0;
    for (size_t i = near; i-- > 0 && sessions->list.items[i].week >= week - 1;)
        count += sessions->list.items[i].week == week;
    for (size_t i = near; i < sessions->list.count && sessions->list.items[i].week <= week + 1; i++)
        count += sessions->list.items[i].week == week;
    return count;
}

#define MOST_A_WEEK 8

/* The number of sessions that most weeks have; the first if tied. */
static size_t usual_sessions(const struct sessions *sessions)
{
    size_t weeks_with[MOST_A_WEEK] = {0}, first_seen[MOST_A_WEEK] = {0}, usual = 1;
    for (size_t start = 0, end; start < sessions->list.count; start = end) {
        for (end = start;
             end < sessions->list.count && sessions->list.items[end].week == sessions->list.items[start].week; end++)
            ;
        size_t count = end - start < MOST_A_WEEK ? end - start : MOST_A_WEEK - 1;
        if (!weeks_with[count]++)
            first_seen[count] = start;
    }
    for (size_t count = 1; count < MOST_A_WEEK; count++)
        if (weeks_with[count] > weeks_with[usual] ||
            (weeks_with[count] && weeks_with[count] == weeks_with[usual] && first_seen[count] < first_seen[usual]))
            usual = count;
    return usual;
}

/* The adjacent week if the session's weekday is next to it, else its own week. Before the first session and after the
 * last there is no adjacent week: a session there would only be moved away from the others. */
static week_number next_door(const struct sessions *sessions, size_t i)
{
    const struct session *session = &sessions->list.items[i], *all = sessions->list.items;
    int weekday = day_of_week((*session->sets)->set->day);
    bool is_first = i && all[i - 1].week != session->week;
    bool is_last = i + 1 < sessions->list.count && all[i + 1].week != session->week;
    if (weekday <= 2 && is_first)
        return session->week - 1;
    return weekday >= 6 && is_last ? session->week + 1 : session->week;
}

static void settle_edges(struct sessions *sessions)
{
    size_t usual = usual_sessions(sessions);
    for (size_t i = 0; i < sessions->list.count; i++) {
        struct session *session = &sessions->list.items[i];
        week_number to = next_door(sessions, i);
        if (to != session->week && sessions_in(sessions, i, session->week) > usual &&
            sessions_in(sessions, i, to) < usual)
            session->week = to;
    }
}

/* --- the working load ----------------------------------------------------------------------------------------------------------- */

/* Heaviest straight weight first; equal ones keep their order. */
static int heaviest_first(const void *a, const void *b)
{
    const struct evaluated_set *left = *(const struct evaluated_set *const *)a,
                               *right = *(const struct evaluated_set *const *)b;
    double l = left->effect->straight_kg, r = right->effect->straight_kg;
    return l != r ? (l < r) - (l > r) : (left > right) - (left < right);
}

/* The run of one weight that begins at `start`. */
static struct load_run run_at(const struct week_sets *week, size_t start)
{
    struct load_run run = {&week->sets[start], 0, 0};
    double kg = week->sets[start]->effect->straight_kg;
    for (size_t i = start; i < week->count && kg - week->sets[i]->effect->straight_kg <= SAME_KG; i++) {
        run.count++;
        run.reps += week->sets[i]->set->reps;
    }
    return run;
}

/* The first set within what is usual; the heaviest if there is none. NAN: what is usual is not known. */
static size_t first_usual(const struct week_sets *week, double usual_kg)
{
    size_t i = 0;
    while (i < week->count && week->sets[i]->effect->straight_kg > usual_kg * USUAL_MOST + SAME_KG)
        i++;
    return i < week->count ? i : 0;
}

static bool is_top_work(enum focus focus)
{
    return focus == FOCUS_STRENGTH || focus == FOCUS_TEST;
}

static struct load_run working_run(const struct week_sets *week, enum focus focus, double usual_kg)
{
    size_t start = focus == FOCUS_SPEED ? 0 : first_usual(week, usual_kg);
    struct load_run best = run_at(week, start);
    double least_kg = focus == FOCUS_SPEED ? -INFINITY
                                           : week->sets[start]->effect->straight_kg * WORKING_LEAST - SAME_KG;
    if (is_top_work(focus))
        return best;
    for (size_t i = start + best.count; i < week->count && week->sets[i]->effect->straight_kg >= least_kg;) {
        struct load_run run = run_at(week, i);
        if (run.reps > best.reps)
            best = run;
        i += run.count;
    }
    return best;
}

struct ar_tally
{
    const struct evaluated_set *first;
    size_t reps;
};

static bool one_ar(const struct load_run *run)
{
    for (size_t i = 1; i < run->count; i++)
        if (!same_ar(run->sets[0], run->sets[i]))
            return false;
    return true;
}

static bool outdoes(const struct ar_tally *tally, const struct ar_tally *best)
{
    return tally->reps > best->reps ||
           (tally->reps == best->reps && counted_load(tally->first, LOAD_TOP) > counted_load(best->first, LOAD_TOP));
}

/* The first set with the AR that has most repetitions at that load, then the heavier top. */
static const struct evaluated_set *working_set(struct arena *scratch, const struct load_run *run)
{
    if (one_ar(run)) /* nearly always the case */
        return run->sets[0];
    struct map *by_ar = map_new(scratch);
    LIST(struct ar_tally *) tallies = {0};
    for (size_t i = 0; i < run->count; i++) {
        const char *key = run->sets[i]->ar_key;
        struct ar_tally *tally = map_get(by_ar, key, strlen(key));
        if (!tally) {
            tally = ARENA_NEW(scratch, struct ar_tally);
            tally->first = run->sets[i];
            map_put(by_ar, key, strlen(key), tally);
            *LIST_ADD(scratch, &tallies) = tally;
        }
        tally->reps += run->sets[i]->set->reps;
    }
    const struct ar_tally *best = tallies.items[0];
    for (size_t i = 1; i < tallies.count; i++)
        if (outdoes(tallies.items[i], best))
            best = tallies.items[i];
    return best->first;
}

static void set_working(struct wave_week *week, const struct evaluated_set *working)
{
    /* Releasers of unknown mass do not make loads unknown: they are off before the bar is lifted. */
    bool unknown = working->effect->assumed & ASSUMED_UNKNOWN_GEAR && isnan(working->effect->mean_kg);
    week->working = working;
    week->ar = working->set->ar->ar;
    for (int measure = 0; measure < LOAD_MEASURES; measure++)
        week->load_kg[measure] = unknown && measure != LOAD_STRAIGHT ? NAN
                                                                     : known_load(working, (enum load_measure)measure);
    week->straight_share = working->one_rm.kg > 0 ? week->load_kg[LOAD_STRAIGHT] / working->one_rm.kg : NAN;
    week->share = unknown ? NAN : ar_share(working);
}

static int rising(const void *a, const void *b)
{
    const double *left = a, *right = b;
    return (*left > *right) - (*left < *right);
}

/* The median of the upper half of the heaviest sets of the weeks nearby; NAN if there are too few. */
static double usual_top_kg(const struct week_sets *weeks, size_t count, size_t at)
{
    double tops[2 * NEAR_WEEKS + 1];
    size_t found = 0, first = at > NEAR_WEEKS ? at - NEAR_WEEKS : 0;
    for (size_t i = first; i < count && i <= at + NEAR_WEEKS; i++)
        if (i != at)
            tops[found++] = weeks[i].sets[0]->effect->straight_kg;
    if (found < LEAST_NEAR)
        return NAN;
    qsort(tops, found, sizeof *tops, rising);
    return median_of(tops + found / 2, found - found / 2);
}

/* --- weeks ------------------------------------------------------------------------------------------------------------------- */

/* A week from its sessions[start .. end); false: no set has a weight. */
static bool make_week(struct arena *scratch, const struct sessions *sessions, size_t start, size_t end,
                      struct wave_week *week, struct week_sets *weighed)
{
    const struct session *first = &sessions->list.items[start], *last = &sessions->list.items[end - 1];
    size_t room = 0;
    for (size_t i = start; i < end; i++)
        room += sessions->list.items[i].count;
    *week = (struct wave_week){.lifter = first->sets[0]->lifter,
                               .lift = first->sets[0]->lift,
                               .focus = first->sets[0]->focus,
                               .week = first->week,
                               .first_day = first->sets[0]->set->day,
                               .last_day = last->sets[0]->set->day};
    *weighed = (struct week_sets){ARENA_ARRAY(scratch, const struct evaluated_set *, room), 0};
    for (size_t i = 0; i < room; i++) { /* the sessions' sets are adjacent */
        const struct evaluated_set *set = first->sets[i];
        week->sets++;
        week->lifts += set->set->reps;
        if (isnan(set->effect->straight_kg))
            continue;
        weighed->sets[weighed->count++] = set;
        for (int measure = 0; measure < LOAD_MEASURES; measure++)
            week->volume_kg[measure] += set->set->reps * counted_load(set, (enum load_measure)measure);
    }
    if (weighed->count)
        qsort(weighed->sets, weighed->count, sizeof *weighed->sets, heaviest_first);
    return weighed->count;
}

static size_t main_lifts(const struct week_sets *week, double working_kg)
{
    size_t lifts = 0;
    for (size_t i = 0; i < week->count && week->sets[i]->effect->straight_kg >= working_kg * WORKING_LEAST - SAME_KG;
         i++)
        lifts += week->sets[i]->set->reps;
    return lifts;
}

static void choose_working(struct week_maker *maker, size_t first, const struct week_sets *weighed, size_t count,
                           enum focus focus)
{
    for (size_t i = 0; i < count; i++) {
        double usual_kg = usual_top_kg(weighed, count, i);
        struct load_run run = working_run(&weighed[i], focus, usual_kg);
        set_working(&maker->list.items[first + i], working_set(maker->week_scratch, &run));
        maker->list.items[first + i].main_lifts = main_lifts(&weighed[i], run.sets[0]->effect->straight_kg);
        arena_reset(maker->week_scratch);
    }
}

void week_maker_add(struct week_maker *maker, const struct lift_sets *lift, enum focus focus)
{
    struct arena *scratch = maker->lift_scratch;
    struct sessions sessions = sessions_of(scratch, lift, focus);
    struct week_sets *weighed = ARENA_ARRAY(scratch, struct week_sets, sessions.list.count);
    size_t first = maker->list.count, count = 0;
    settle_edges(&sessions);
    for (size_t start = 0, end; start < sessions.list.count; start = end) {
        struct wave_week week;
        for (end = start; end < sessions.list.count && sessions.list.items[end].week == sessions.list.items[start].week;
             end++)
            ;
        if (make_week(scratch, &sessions, start, end, &week, &weighed[count])) {
            *LIST_ADD(maker->arena, &maker->list) = week;
            count++;
        }
    }
    choose_working(maker, first, weighed, count, focus);
    arena_reset(scratch);
}
