#include "analysis/records.h"
#include "analysis/evaluated_set.h"

#include <math.h>

static void clear(struct lift_records *records)
{
    for (int measure = 0; measure < LOAD_MEASURES; measure++)
        for (int i = 0; i < RECORD_REPS; i++)
            records->best[measure][i] = (struct record){NAN, NULL};
}

/* Sets are in order of day, so an equal load later is not a new best. */
static void offer(struct record *best, const struct evaluated_set *set, double kg)
{
    for (int i = 0; i < RECORD_REPS && i < set->set->reps; i++)
        if (!(kg <= best[i].kg))
            best[i] = (struct record){kg, set};
}

static void offer_set(struct lift_records *records, const struct evaluated_set *set)
{
    static const enum load_measure measures[] = {LOAD_STRAIGHT, LOAD_BOTTOM, LOAD_TOP};
    for (size_t i = 0; i < sizeof measures / sizeof *measures; i++) {
        double kg = known_load(set, measures[i]);
        if (!isnan(kg) && (measures[i] != LOAD_STRAIGHT || !set->has_ar))
            offer(records->best[measures[i]], set, kg);
    }
}

static bool is_empty(const struct lift_records *records)
{
    return !records->best[LOAD_STRAIGHT]->set && !records->best[LOAD_BOTTOM]->set && !records->best[LOAD_TOP]->set;
}

const struct lift_records *records_make(struct arena *arena, const struct training *training, size_t *count)
{
    LIST(struct lift_records) rows = {0};
    struct arena *scratch = arena_new();
    size_t lift_count;
    const struct lift_sets *lifts = training_by_lift(scratch, training, &lift_count);
    for (size_t i = 0; i < lift_count; i++) {
        struct lift_records *row = LIST_ADD(arena, &rows);
        row->lifter = lifts[i].lifter;
        row->lift = lifts[i].lift;
        clear(row);
        for (size_t j = 0; j < lifts[i].count; j++)
            if (is_work(lifts[i].sets[j]) && is_believed(lifts[i].sets[j]))
                offer_set(row, lifts[i].sets[j]);
        rows.count -= is_empty(row);
    }
    arena_free(scratch);
    *count = rows.count;
    return rows.items;
}
