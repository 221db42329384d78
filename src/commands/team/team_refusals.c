#include "commands/team/team_refusals.h"

#include "base/text.h"

#include <string.h>

#define FEW 20u /* lifters who each get a line that names no lifter; if there are more, only the first gets it */

struct refusal
{
    const struct diag *diag;
    size_t place; /* in the order in which the refusals were noticed */
};

typedef LIST(struct refusal) refusal_list;

struct refusals
{
    struct arena *arena;
    struct map *named;               /* refusal_list, by folded name */
    LIST(size_t) lengths;            /* of the names */
    bool single[256], begins[65536]; /* the first byte of a name of one, the first two of a longer one */
    refusal_list unnamed;
    size_t count;
};

bool team_is_refusal(void *context, const struct diag *diag)
{
    (void)context;
    return diag_severity(diag->id) >= SEVERITY_ERROR;
}

static unsigned first_two(const char *text)
{
    return (unsigned)(unsigned char)text[0] << 8 | (unsigned char)text[1];
}

static void add_name(struct refusals *refusals, const char *name)
{
    const char *folded = text_fold(refusals->arena, name);
    size_t length = strlen(folded);
    if (!length || map_get(refusals->named, folded, length))
        return;
    map_put(refusals->named, folded, length, ARENA_NEW(refusals->arena, refusal_list));
    if (length == 1)
        refusals->single[(unsigned char)*folded] = true;
    else
        refusals->begins[first_two(folded)] = true;
    for (size_t i = 0; i < refusals->lengths.count; i++)
        if (refusals->lengths.items[i] == length)
            return;
    *LIST_ADD(refusals->arena, &refusals->lengths) = length;
}

/* Adds the refusal to each name that begins at `text`. */
static bool add_at(struct refusals *refusals, const char *text, size_t left, const struct refusal *refusal)
{
    bool any = false;
    if (!refusals->single[(unsigned char)*text] && (left < 2 || !refusals->begins[first_two(text)]))
        return false;
    for (size_t i = 0; i < refusals->lengths.count; i++) {
        size_t length = refusals->lengths.items[i];
        refusal_list *list = length <= left ? map_get(refusals->named, text, length) : NULL;
        if (!list)
            continue;
        any = true;
        if (!list->count || list->items[list->count - 1].place != refusal->place)
            *LIST_ADD(refusals->arena, list) = *refusal;
    }
    return any;
}

static void add_refusal(struct refusals *refusals, const struct diag *diag, struct arena *scratch)
{
    struct refusal refusal = {diag, refusals->count++};
    const char *line = diag->excerpt ? text_fold(scratch, diag->excerpt) : "";
    size_t length = strlen(line);
    bool named = false;
    for (size_t i = 0; i < length; i++)
        named |= add_at(refusals, line + i, length - i, &refusal);
    if (!named)
        *LIST_ADD(refusals->arena, &refusals->unnamed) = refusal;
    arena_reset(scratch);
}

void team_sort_refusals(struct team_group *group)
{
    struct arena *scratch = arena_new();
    struct refusals *refusals = ARENA_NEW(group->arena, struct refusals);
    refusals->arena = group->arena;
    refusals->named = map_new(group->arena);
    for (size_t i = 0; i < group->names.count; i++)
        add_name(refusals, group->names.items[i].name);
    for (size_t i = 0; i < group->members.count; i++)
        add_name(refusals, group->members.items[i]->block->name);
    for (const struct diag *diag = diags_first(group->diags); diag; diag = diag->next)
        if (team_is_refusal(NULL, diag))
            add_refusal(refusals, diag, scratch);
    arena_free(scratch);
    group->refusals = refusals;
}

void team_each_refusal(const struct team_group *group, const struct team_lifter *lifter, refusal_seen *seen,
                       void *context)
{
    const struct refusals *refusals = group->refusals;
    struct arena *scratch = arena_new();
    const char *folded = text_fold(scratch, lifter->block->name);
    const refusal_list *named = map_get(refusals->named, folded, strlen(folded)), none = {0};
    const refusal_list *unnamed = group->members.count <= FEW || group->first == lifter ? &refusals->unnamed : &none;
    named = named ? named : &none;
    for (size_t i = 0, j = 0; i < named->count || j < unnamed->count;) {
        bool first = j == unnamed->count || (i < named->count && named->items[i].place < unnamed->items[j].place);
        seen(context, first ? named->items[i++].diag : unnamed->items[j++].diag);
    }
    arena_free(scratch);
}
