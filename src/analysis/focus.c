#include "analysis/focus.h"

#include <math.h>
#include <stdlib.h>

#define SPEED_MOST_REPS 3
#define SPEED_LEAST_SETS 6
#define SPEED_MOST_SHARE 0.65
#define SPEED_MOST_OF_HEAVY 0.78
#define EASY_OF_HEAVY 0.82 /* below this, it is not one of the heavy days nearby */
#define STRENGTH_MOST_REPS 5
#define MAIN_LEAST 0.80 /* of the session's heaviest */
#define NEAR_DAYS 28
#define PAIR_DAYS 3
#define PAIR_HEAVIER 1.12
#define WEEKDAY_WEIGHT 0.05 /* per weekday of distance, on the scale of ln(load) */
#define AR_WEIGHT 0.3       /* where one session has chains or bands and the other has none */
#define REPS_WEIGHT 0.3     /* of ln(repetitions) */
#define SAME_KG 1e-6

struct day_work /* a lifter's lift on one day, with the sets that have no focus in the log */
{
    struct evaluated_set **sets;
    size_t count;
    day_number day;
    double kg;              /* of the main work; NAN: no set has a weight */
    size_t main_sets, reps; /* number of its sets; the repetitions of most of them */
    double one_rm_kg;       /* the current one; NAN */
    double heavy_kg;        /* heaviest main work nearby */
    bool has_ar;            /* in any set */
    bool settled;
    enum focus focus;
};

/* --- a session's main work ------------------------------------------------------------------------------------------------------------ */

static bool is_main(const struct evaluated_set *set)
{
    return is_work(set) && !set->set->drop;
}

static double heaviest_kg(const struct day_work *work)
{
    double kg = NAN;
    for (size_t i = 0; i < work->count; i++)
        if (is_main(work->sets[i]) && !(work->sets[i]->effect->straight_kg <= kg))
            kg = work->sets[i]->effect->straight_kg;
    return kg;
}

struct main_set
{
    double kg;
    size_t reps;
};

/* Heaviest first, then by repetitions. */
static int by_load(const void *a, const void *b)
{
    const struct main_set *left = a, *right = b;
    if (left->kg < right->kg || left->kg > right->kg)
        return left->kg < right->kg ? 1 : -1;
    return (left->reps < right->reps) - (left->reps > right->reps);
}

static int by_reps(const void *a, const void *b)
{
    const struct main_set *left = a, *right = b;
    return (left->reps < right->reps) - (left->reps > right->reps);
}

/* The most frequent number of repetitions, the largest if tied; the sets are sorted by falling repetitions. */
static size_t usual_reps(const struct main_set *sets, size_t count)
{
    size_t usual = 0, most = 0;
    for (size_t start = 0, end; start < count; start = end) {
        for (end = start; end < count && sets[end].reps == sets[start].reps; end++)
            ;
        if (end - start > most) {
            most = end - start;
            usual = sets[start].reps;
        }
    }
    return usual;
}

/* The sets that may be the main work, by load. */
static size_t main_sets_of(const struct day_work *work, struct main_set *sets)
{
    double heaviest = heaviest_kg(work);
    size_t count = 0;
    bool in_order = true;
    for (size_t i = 0; i < work->count; i++) {
        double kg = work->sets[i]->effect->straight_kg;
        if (!is_main(work->sets[i]) || !(kg >= heaviest * MAIN_LEAST - SAME_KG))
            continue;
        sets[count] = (struct main_set){kg, work->sets[i]->set->reps};
        in_order &= !count || by_load(&sets[count - 1], &sets[count]) <= 0;
        count++;
    }
    if (!in_order)
        qsort(sets, count, sizeof *sets, by_load);
    return count;
}

/* The load with the most repetitions, the heavier if tied. */
static void find_main_work(struct day_work *work, struct main_set *sets)
{
    size_t most = 0, count = main_sets_of(work, sets);
    work->kg = NAN;
    work->one_rm_kg = work->sets[0]->one_rm.kg;
    for (size_t i = 0; i < work->count; i++)
        work->has_ar |= work->sets[i]->has_ar;
    for (size_t start = 0, end; start < count; start = end) {
        size_t reps = 0;
        for (end = start; end < count && sets[start].kg - sets[end].kg <= SAME_KG; end++)
            reps += sets[end].reps;
        if (reps <= most)
            continue;
        if (sets[end - 1].kg < sets[start].kg) /* the same load, except for rounding in unit conversion */
            qsort(&sets[start], end - start, sizeof *sets, by_reps);
        most = reps;
        work->kg = sets[start].kg;
        work->main_sets = end - start;
        work->reps = usual_reps(&sets[start], end - start);
    }
}

/* --- comparing the sessions of a lift ----------------------------------------------------------------------------- */

static void find_heavy(struct day_work *works, size_t count)
{
    for (size_t i = 0, first = 0; i < count; i++) {
        while (works[i].day - works[first].day > NEAR_DAYS)
            first++;
        works[i].heavy_kg = 0;
        for (size_t j = first; j < count && works[j].day - works[i].day <= NEAR_DAYS; j++)
            if (works[j].reps <= STRENGTH_MOST_REPS && works[j].kg > works[i].heavy_kg)
                works[i].heavy_kg = works[j].kg;
    }
}

static bool is_speed(const struct day_work *work)
{
    return work->reps <= SPEED_MOST_REPS && work->main_sets >= SPEED_LEAST_SETS &&
           (work->kg <= work->one_rm_kg * SPEED_MOST_SHARE + SAME_KG ||
            work->kg <= work->heavy_kg * SPEED_MOST_OF_HEAVY);
}

/* Is there such a day within three days, heavier by enough? */
static bool has_heavier_neighbour(const struct day_work *works, size_t count, size_t at)
{
    for (size_t i = at > PAIR_DAYS ? at - PAIR_DAYS : 0; i < count && i <= at + PAIR_DAYS; i++)
        if (i != at && abs(works[i].day - works[at].day) <= PAIR_DAYS && works[i].reps <= STRENGTH_MOST_REPS &&
            !is_speed(&works[i]) && works[i].kg >= PAIR_HEAVIER * works[at].kg)
            return true;
    return false;
}

static bool could_be_lighter_day(const struct day_work *work)
{
    return work->reps > SPEED_MOST_REPS && work->reps <= STRENGTH_MOST_REPS && !is_speed(work);
}

/* Does the lift have a heavy and a lighter day in half of its weeks? */
static bool has_pairs(const struct day_work *works, size_t count)
{
    size_t pairs = 0, weeks = 0;
    for (size_t i = 0; i < count; i++) {
        pairs += could_be_lighter_day(&works[i]) && has_heavier_neighbour(works, count, i);
        weeks += !i || week_of(works[i].day) != week_of(works[i - 1].day);
    }
    return 2 * pairs >= weeks;
}

static void settle(struct day_work *works, size_t count, size_t at, bool pairs)
{
    struct day_work *work = &works[at];
    work->settled = true;
    if (is_speed(work))
        work->focus = FOCUS_SPEED;
    else if (work->reps > STRENGTH_MOST_REPS)
        work->focus = FOCUS_VOLUME;
    else if (pairs && could_be_lighter_day(work) && has_heavier_neighbour(works, count, at))
        work->focus = FOCUS_VOLUME;
    else {
        work->focus = FOCUS_STRENGTH;
        work->settled = !(work->kg < work->heavy_kg * EASY_OF_HEAVY);
    }
}

static int weekday_distance(day_number a, day_number b)
{
    int days = abs(day_of_week(a) - day_of_week(b));
    return days > 3 ? 7 - days : days;
}

struct likeness
{
    double away;
    enum focus focus;
};

static void compare(struct likeness *best, const struct day_work *work, const struct day_work *other)
{
    if (!other->settled || !(other->kg > 0) || (other->focus == FOCUS_SPEED && other->has_ar && !work->has_ar))
        return;
    double away = fabs(log(other->kg / work->kg)) + WEEKDAY_WEIGHT * weekday_distance(other->day, work->day) +
                  REPS_WEIGHT * fabs(log((double)other->reps / (double)work->reps)) +
                  (other->has_ar != work->has_ar ? AR_WEIGHT : 0);
    if (away < best->away)
        *best = (struct likeness){away, other->focus};
}

/* The focus of the most similar settled session nearby. */
static enum focus most_alike(const struct day_work *works, size_t count, size_t at)
{
    struct likeness best = {INFINITY, works[at].focus};
    for (size_t i = at; i-- > 0 && works[at].day - works[i].day <= NEAR_DAYS;)
        compare(&best, &works[at], &works[i]);
    for (size_t i = at + 1; i < count && works[i].day - works[at].day <= NEAR_DAYS; i++)
        compare(&best, &works[at], &works[i]);
    return best.focus;
}

/* works[0 .. count): those of one lift, by day. */
static void judge_lift(struct day_work *works, size_t count)
{
    find_heavy(works, count);
    bool pairs = has_pairs(works, count);
    for (size_t i = 0; i < count; i++)
        settle(works, count, i, pairs);
    for (size_t i = 0; i < count; i++)
        if (!works[i].settled && works[i].kg > 0)
            works[i].focus = most_alike(works, count, i);
    for (size_t i = 0; i < count; i++)
        for (size_t j = 0; !isnan(works[i].kg) && j < works[i].count; j++)
            works[i].sets[j]->focus = works[i].focus;
}

static bool any_unsaid(const struct training *training)
{
    for (size_t i = 0; i < training->count; i++)
        if (training->sets[i].set->focus == FOCUS_UNSAID)
            return true;
    return false;
}

/* The lift's sets that have no focus in the log, day by day. */
static size_t make_days(struct arena *scratch, struct training *training, const struct lift_sets *lift,
                        struct day_work *works)
{
    struct evaluated_set **unsaid = ARENA_ARRAY(scratch, struct evaluated_set *, lift->count);
    struct main_set *room = arena_room(scratch, lift->count * sizeof *room);
    size_t found = 0, days = 0;
    for (size_t i = 0; i < lift->count; i++)
        if (lift->sets[i]->set->focus == FOCUS_UNSAID)
            unsaid[found++] = &training->sets[lift->sets[i] - training->sets];
    for (size_t start = 0, end; start < found; start = end) {
        for (end = start; end < found && unsaid[end]->set->day == unsaid[start]->set->day; end++)
            ;
        works[days] = (struct day_work){.sets = &unsaid[start], .count = end - start, .day = unsaid[start]->set->day};
        find_main_work(&works[days++], room);
    }
    return days;
}

void focus_by_pattern(struct training *training)
{
    if (!any_unsaid(training))
        return;
    struct arena *scratch = arena_new(), *of_lift = arena_new();
    size_t lift_count;
    const struct lift_sets *lifts = training_by_lift(scratch, training, &lift_count);
    for (size_t i = 0; i < lift_count; i++) {
        struct day_work *works = ARENA_ARRAY(of_lift, struct day_work, lifts[i].count);
        judge_lift(works, make_days(of_lift, training, &lifts[i], works));
        arena_reset(of_lift);
    }
    arena_free(of_lift);
    arena_free(scratch);
}
