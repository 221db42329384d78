#include "analysis/week_work.h"

#include <math.h>

#define SAME_KG 1e-9 /* smaller differences are rounding */

struct tally
{
    int reps, sets;
};

static bool is_at_working_load(const struct evaluated_set *set, const struct wave_week *week)
{
    const struct evaluated_set *working = week->working;
    return set->week == week->week && set->focus == week->focus && set->set->lifter == working->set->lifter &&
           set->set->lift == working->set->lift && is_work(set) && same_ar(set, working) &&
           fabs(set->effect->straight_kg - working->effect->straight_kg) <= SAME_KG;
}

static size_t first_of_week(const struct training *training, week_number week)
{
    size_t low = 0, high = training->count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (training->sets[middle].week < week)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

struct week_work week_work(struct arena *arena, const struct training *training, const struct wave_week *week)
{
    struct week_work work = {0, 0};
    LIST(struct tally) tallies = {0};
    int most = 0;
    for (size_t i = first_of_week(training, week->week); i < training->count && training->sets[i].week == week->week;
         i++) {
        const struct evaluated_set *set = &training->sets[i];
        size_t j = 0;
        if (!is_at_working_load(set, week))
            continue;
        while (j < tallies.count && tallies.items[j].reps != set->set->reps)
            j++;
        if (j == tallies.count)
            LIST_ADD(arena, &tallies)->reps = set->set->reps;
        tallies.items[j].sets++;
        work.sets++;
    }
    for (size_t i = 0; i < tallies.count; i++) {
        const struct tally *tally = &tallies.items[i];
        if (tally->sets > most || (tally->sets == most && tally->reps > work.reps)) {
            most = tally->sets;
            work.reps = tally->reps;
        }
    }
    return work;
}
