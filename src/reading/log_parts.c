#include "reading/log_parts.h"

#include "reading/log_queue.h"

#define AHEAD 16 /* sets whose loads, far away in memory, are sent for before they are needed */

void part_begin(struct part *part, const struct reading *whole, bool with_ledger)
{
    if (part->reading)
        return;
    struct reading_options options = whole->options;
    options.jobs = 1;
    part->arena = arena_new();
    part->reading = reading_new(part->arena, whole->gym, whole->diags, &options);
    part->reading->log->ledger = with_ledger && whole->log->ledger ? ledger_new(part->arena) : NULL;
}

struct part_reach part_reach(const struct part *part)
{
    const struct log *log = part->reading->log;
    return (struct part_reach){loads_count(log->loads), names_count(log->lifters), names_count(log->lifts)};
}

void part_adopt(struct reading *whole, struct part *part, const struct part_reach *reach)
{
    struct ledger_numbers *numbers = &part->numbers;
    const struct log *log = part->reading->log;
    for (size_t i = numbers->lifters.count; i < reach->lifters; i++) {
        uint32_t number = lifter_adopt(whole, names_text(log->lifters, (uint32_t)i));
        *LIST_ADD(whole->arena, &numbers->lifters) = number;
    }
    for (size_t i = numbers->lifts.count; i < reach->lifts; i++) {
        uint32_t number = lift_adopt(whole->lifts, names_text(log->lifts, (uint32_t)i));
        *LIST_ADD(whole->arena, &numbers->lifts) = number;
    }
    for (size_t i = numbers->loads.count; i < reach->loads; i++) {
        const struct load *load = load_adopt(whole->log->loads, load_by_id(log->loads, (uint32_t)i));
        *LIST_ADD(whole->arena, &numbers->loads) = load;
    }
}

void part_join_sets(struct log *whole, const struct part *part, const struct set *sets, size_t count, uint32_t file, uint32_t lines)
{
    const struct ledger_numbers *numbers = &part->numbers;
    for (size_t i = 0; i < count; i++) {
        __builtin_prefetch(sets[i + AHEAD < count ? i + AHEAD : i].load);
        struct set *set = LIST_ROOM(whole->arena, &whole->sets);
        *set = sets[i];
        set->load = numbers->loads.items[set->load->id];
        set->lifter = numbers->lifters.items[set->lifter];
        set->lift = numbers->lifts.items[set->lift];
        set->file = file;
        set->line += lines;
    }
}

void part_end(struct part *part, struct reading *whole)
{
    if (!part->reading)
        return;
    reading_free(part->reading);
    arena_join(whole->arena, part->arena);
    part->reading = NULL;
}
