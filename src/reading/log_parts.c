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
    part->reading->notes_go = !with_ledger && whole->log->ledger;
    part->reading->log->ledger = with_ledger && whole->log->ledger ? ledger_new(part->arena) : NULL;
}

static const char **new_names(struct arena *arena, const struct names *names, uint32_t *told, uint32_t *count)
{
    uint32_t all = (uint32_t)names_count(names);
    const char **news = ARENA_ARRAY(arena, const char *, all - *told);
    for (*count = 0; *told < all; ++*told)
        news[(*count)++] = names_text(names, *told);
    return news;
}

struct part_news part_news(struct part *part)
{
    const struct log *log = part->reading->log;
    struct part_news news = {0};
    uint32_t all = (uint32_t)loads_count(log->loads);
    news.lifters = new_names(part->arena, log->lifters, &part->lifters, &news.lifter_count);
    news.lifts = new_names(part->arena, log->lifts, &part->lifts, &news.lift_count);
    news.loads = ARENA_ARRAY(part->arena, const struct load *, all - part->loads);
    for (; part->loads < all; part->loads++)
        news.loads[news.load_count++] = load_by_id(log->loads, part->loads);
    return news;
}

void part_adopt(struct reading *whole, struct part *part, const struct part_news *news)
{
    struct ledger_numbers *numbers = &part->numbers;
    for (uint32_t i = 0; i < news->lifter_count; i++)
        *LIST_ROOM(whole->arena, &numbers->lifters) = lifter_adopt(whole, news->lifters[i]);
    for (uint32_t i = 0; i < news->lift_count; i++)
        *LIST_ROOM(whole->arena, &numbers->lifts) = lift_adopt(whole->lifts, news->lifts[i]);
    for (uint32_t i = 0; i < news->load_count; i++)
        *LIST_ROOM(whole->arena, &numbers->loads) = load_adopt(whole->log->loads, news->loads[i]);
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
    /* Its sets went on as they are, with notes of its own, or as small numbers in which nothing is its own; so did its ledger's spans. */
    bool needed = !whole->log->ledger || part->reading->log->ledger || whole->log->percents.count;
    if (needed)
        arena_join(whole->arena, part->arena);
    else
        arena_free(part->arena);
    part->reading = NULL;
}
