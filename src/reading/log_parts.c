#include "reading/log_parts.h"

#include "reading/log_queue.h"
#include "reading/log_lifters.h"


void part_begin(struct part *part, const struct reading *whole)
{
    if (part->reading)
        return;
    struct reading_options options = whole->options;
    options.jobs = 1;
    part->arena = arena_new();
    part->reading = reading_new(part->arena, whole->gym, whole->diags, &options);
    part->reading->log->ledger = whole->log->ledger ? ledger_new(part->arena) : NULL;
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
        *LIST_ROOM(whole->arena, &numbers->loads) = load_adopt(whole->log->loads, &part->adoption, news->loads[i]);
}

struct part_sets part_sets_from(const struct part *part)
{
    const struct log *log = part->reading->log;
    struct part_sets sets = {0};
    sets.sets.first = log->sets.count;
    sets.percents.first = log->percents.count;
    sets.visits.first = log->ledger ? ledger_visits(log->ledger) : 0;
    return sets;
}

void part_sets_end(const struct part *part, struct part_sets *sets)
{
    const struct part_sets end = part_sets_from(part);
    sets->sets.end = end.sets.first;
    sets->percents.end = end.percents.first;
    sets->visits.end = end.visits.first;
}

static void join_set(struct log *whole, const struct ledger_numbers *numbers, const struct set *from, uint32_t file, uint32_t lines)
{
    struct set *set = LIST_ROOM(whole->arena, &whole->sets);
    *set = *from;
    set->load = numbers->loads.items[from->load->id];
    set->lifter = numbers->lifters.items[from->lifter];
    set->lift = numbers->lifts.items[from->lift];
    set->file = file;
    set->line += lines;
}

void part_join_sets(struct log *whole, const struct part *part, const struct part_sets *sets, uint32_t file, uint32_t lines)
{
    const struct log *from = part->reading->log;
    size_t moved = whole->sets.count - sets->sets.first; /* round the range, if need be */
    for (size_t i = sets->sets.first; i < sets->sets.end; i++)
        join_set(whole, &part->numbers, &from->sets.items[i], file, lines);
    for (size_t i = sets->percents.first; i < sets->percents.end; i++) {
        struct percent_use *use = LIST_ADD(whole->arena, &whole->percents);
        *use = from->percents.items[i];
        use->set += moved;
    }
    if (whole->ledger)
        ledger_join(whole->ledger, from->ledger, &part->numbers, sets->visits.first, sets->visits.end, file, lines);
}

void part_end(struct part *part, struct reading *whole, bool joined)
{
    if (!part->reading)
        return;
    reading_free(part->reading);
    if (joined)
        arena_join(whole->arena, part->arena);
    else
        arena_free(part->arena);
    part->reading = NULL;
}
