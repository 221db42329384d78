#include "reading/log_worker.h"

#include "reading/log_lifters.h"
#include "reading/log_queue.h"

void log_worker_begin(struct log_worker *worker, const struct reading *whole)
{
    if (worker->reading)
        return;
    struct reading_options options = whole->options;
    options.jobs = 1;
    worker->arena = arena_new();
    worker->reading = reading_new(worker->arena, whole->gym, whole->diags, &options);
    worker->reading->log->set_store = whole->log->set_store ? set_store_new(worker->arena) : NULL;
}

static const char **new_names(struct arena *arena, const struct names *names, uint32_t *told, uint32_t *count)
{
    uint32_t all = (uint32_t)names_count(names);
    const char **symbols = ARENA_ARRAY(arena, const char *, all - *told);
    for (*count = 0; *told < all; ++*told)
        symbols[(*count)++] = names_text(names, *told);
    return symbols;
}

/* Copied, since the list may move while the worker continues to read. */
static const struct load *const *new_loads(struct arena *arena, const struct load *const *loads, size_t all,
                                           uint32_t *told, uint32_t *count)
{
    const struct load **symbols = ARENA_ARRAY(arena, const struct load *, all - *told);
    for (*count = 0; *told < all; ++*told)
        symbols[(*count)++] = loads[*told];
    return symbols;
}

struct new_symbols new_symbols(struct log_worker *worker)
{
    const struct log *log = worker->reading->log;
    const struct loads *loads = log->loads;
    struct new_symbols symbols = {0};
    symbols.lifters = new_names(worker->arena, log->lifters, &worker->lifters, &symbols.lifter_count);
    symbols.lifts = new_names(worker->arena, log->lifts, &worker->lifts, &symbols.lift_count);
    symbols.weights = new_loads(worker->arena, loads_weights(loads), loads_weight_count(loads), &worker->weights,
                                &symbols.weight_count);
    symbols.ars = new_loads(worker->arena, loads_ars(loads), loads_ar_count(loads), &worker->ars, &symbols.ar_count);
    return symbols;
}

void remap_ids(struct reading *whole, struct log_worker *worker, const struct new_symbols *symbols)
{
    struct set_store_numbers *numbers = &worker->numbers;
    for (uint32_t i = 0; i < symbols->lifter_count; i++)
        *LIST_ROOM(whole->arena, &numbers->lifters) = lifter_adopt(whole, symbols->lifters[i]);
    for (uint32_t i = 0; i < symbols->lift_count; i++)
        *LIST_ROOM(whole->arena, &numbers->lifts) = lift_adopt(whole->lifts, symbols->lifts[i]);
    for (uint32_t i = 0; i < symbols->weight_count; i++)
        *LIST_ROOM(whole->arena, &numbers->weights) = load_intern(whole->log->loads, symbols->weights[i]);
    for (uint32_t i = 0; i < symbols->ar_count; i++)
        *LIST_ROOM(whole->arena, &numbers->ars) = load_intern(whole->log->loads, symbols->ars[i]);
}

struct log_ranges log_ranges_from(const struct log_worker *worker)
{
    const struct log *log = worker->reading->log;
    struct log_ranges sets = {0};
    sets.sets.first = log->sets.count;
    sets.percents.first = log->percents.count;
    sets.file_spans.first = log->set_store ? set_store_file_spans(log->set_store) : 0;
    return sets;
}

void log_ranges_end(const struct log_worker *worker, struct log_ranges *sets)
{
    const struct log_ranges end = log_ranges_from(worker);
    sets->sets.end = end.sets.first;
    sets->percents.end = end.percents.first;
    sets->file_spans.end = end.file_spans.first;
}

static void join_set(struct log *whole, const struct set_store_numbers *numbers, const struct set *from, uint32_t file,
                     uint32_t lines)
{
    struct set *set = LIST_ROOM(whole->arena, &whole->sets);
    *set = *from;
    set->weight = numbers->weights.items[from->weight->straight_id];
    set->ar = numbers->ars.items[from->ar->ar_id];
    set->lifter = numbers->lifters.items[from->lifter];
    set->lift = numbers->lifts.items[from->lift];
    set->file = file;
    set->line += lines;
}

void log_worker_join_sets(struct log *whole, const struct log_worker *worker, const struct log_ranges *sets,
                          uint32_t file, uint32_t lines)
{
    const struct log *from = worker->reading->log;
    size_t moved = whole->sets.count - sets->sets.first; /* may wrap around, which is intended */
    for (size_t i = sets->sets.first; i < sets->sets.end; i++)
        join_set(whole, &worker->numbers, &from->sets.items[i], file, lines);
    for (size_t i = sets->percents.first; i < sets->percents.end; i++) {
        struct percent_use *use = LIST_ADD(whole->arena, &whole->percents);
        *use = from->percents.items[i];
        use->set += moved;
    }
    if (whole->set_store)
        set_store_join(whole->set_store, from->set_store, &worker->numbers, sets->file_spans.first,
                       sets->file_spans.end, file, lines);
}

void log_worker_end(struct log_worker *worker, struct reading *whole, bool joined)
{
    if (!worker->reading)
        return;
    reading_free(worker->reading);
    if (joined)
        arena_join(whole->arena, worker->arena);
    else
        arena_free(worker->arena);
    worker->reading = NULL;
}
