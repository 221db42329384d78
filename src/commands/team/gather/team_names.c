#include "commands/team/gather/team_names.h"

#include "base/text.h"
#include "commands/team/team_below.h"

#include <stdlib.h>
#include <string.h>

struct seen_name
{
    const char *name;
    size_t sets;
    const struct team_lifter *block; /* NULL: there is no block */
};

static const struct team_lifter *lifter_named(const struct team *team, const char *name)
{
    const struct lifter *lifter = gym_lifter(team->gym, name);
    for (size_t i = 0; lifter && i < team->count; i++)
        if (team->lifters[i].block == lifter)
            return &team->lifters[i];
    return NULL;
}

static bool share_a_log(const struct team_lifter *a, const struct team_lifter *b)
{
    if (a == b || (a->group && a->group == b->group))
        return true;
    for (size_t i = 0; i < a->arguments.count; i++)
        for (size_t j = 0; j < a->arguments.items[i]->files.count; j++)
            for (size_t k = 0; k < b->arguments.count; k++)
                for (size_t m = 0; m < b->arguments.items[k]->files.count; m++)
                    if (a->arguments.items[i]->files.items[j].file == b->arguments.items[k]->files.items[m].file)
                        return true;
    return false;
}

static void note_name(const struct team *team, const struct team_lifter *lifter, const struct name_count *found,
                      struct map *seen, struct team_page *page)
{
    struct seen_name *name = map_get(seen, found->name, strlen(found->name));
    if (!name) {
        name = ARENA_NEW(team->arena, struct seen_name);
        *name = (struct seen_name){found->name, 0, lifter_named(team, found->name)};
        map_put(seen, found->name, strlen(found->name), name);
        if (!name->block)
            *LIST_ADD(team->arena, &page->strangers) = (struct name_count){found->name, 0};
    }
    for (size_t i = 0; !name->block && i < page->strangers.count; i++)
        if (page->strangers.items[i].name == name->name)
            page->strangers.items[i].sets += found->sets;
    if (name->block && !share_a_log(lifter, name->block))
        *LIST_ADD(team->arena, &page->misplaced) = arena_printf(
            team->arena, "%s: %zu sets of %s, whose own log = lines do not name this file", lifter->block->name,
            found->sets, name->block->block->name);
}

static int by_name(const void *left, const void *right)
{
    return strcmp(((const struct name_count *)left)->name, ((const struct name_count *)right)->name);
}

static int by_bytes(const void *left, const void *right)
{
    return strcmp(*(const char *const *)left, *(const char *const *)right);
}

struct leftovers
{
    const struct team *team;
    struct team_page *page;
    struct map *folders; /* of the lifters who have a block */
};

static void note_folder(void *context, const char *name)
{
    const struct leftovers *leftovers = context;
    if (*name != '.' && !map_get(leftovers->folders, name, strlen(name)))
        *LIST_ADD(leftovers->team->arena, &leftovers->page->gone) = arena_copy(leftovers->team->arena, name);
}

static void note_gone(const struct team *team, struct team_page *page)
{
    struct leftovers leftovers = {team, page, map_new(team->arena)};
    for (size_t i = 0; i < team->count; i++)
        map_put(leftovers.folders, team->lifters[i].folder, strlen(team->lifters[i].folder), &leftovers);
    below_each(team->lifters_folder, note_folder, &leftovers);
    if (page->gone.count)
        qsort(page->gone.items, page->gone.count, sizeof *page->gone.items, by_bytes);
}

void team_note_names(const struct team *team, struct team_page *page)
{
    struct map *seen = map_new(team->arena);
    for (size_t i = 0; i < team->count; i++) {
        const struct team_state *state = team->lifters[i].state;
        for (size_t j = 0; state && j < state->names.count; j++)
            note_name(team, &team->lifters[i], &state->names.items[j], seen, page);
    }
    if (page->strangers.count)
        qsort(page->strangers.items, page->strangers.count, sizeof *page->strangers.items, by_name);
    note_gone(team, page);
}
