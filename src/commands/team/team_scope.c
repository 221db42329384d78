#include "commands/team/team_scope.h"

#include "base/text.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct team_lifter *named(struct team *team, struct map *by_name, const char *name)
{
    struct arena *scratch = arena_new();
    const char *folded = text_fold(scratch, name);
    struct team_lifter *lifter = map_get(by_name, folded, strlen(folded));
    (void)team;
    arena_free(scratch);
    return lifter;
}

static struct map *names_of(struct team *team)
{
    struct map *by_name = map_new(team->arena);
    for (size_t i = 0; i < team->count; i++) {
        const char *folded = text_fold(team->arena, team->lifters[i].block->name);
        map_put(by_name, folded, strlen(folded), &team->lifters[i]);
    }
    return by_name;
}

/* One name per line; blank lines are skipped. */
static const char *choose_from_file(struct team *team, struct map *by_name, const char *path)
{
    FILE *file = !strcmp(path, "-") ? stdin : fopen(path, "re");
    char *line = NULL;
    size_t room = 0;
    const char *message = file ? NULL
                               : arena_printf(team->arena, "--lifters-from %s: %s", text_visible(team->arena, path),
                                              strerror(errno));
    while (file && !message && getline(&line, &room, file) > 0) {
        line[strcspn(line, "\r\n")] = 0;
        if (!line[strspn(line, " \t")])
            continue;
        struct team_lifter *lifter = named(team, by_name, line);
        if (lifter)
            lifter->work = WORK_WANTED;
        else
            message = arena_printf(team->arena, "the gym file has no [lifter] %s, which %s names",
                                   text_visible(team->arena, line), text_visible(team->arena, path));
    }
    free(line);
    if (file && file != stdin)
        fclose(file);
    return message;
}

struct placed
{
    size_t group, place; /* index of the first lifter who shares these logs, and the lifter's own index */
};

static int by_group(const void *left, const void *right)
{
    const struct placed *a = left, *b = right;
    return a->group != b->group ? (a->group < b->group ? -1 : 1) : a->place < b->place ? -1 : a->place > b->place;
}

/* Lifters who share logs are kept together, so that few parts read the same logs. */
static void choose_part(struct team *team, size_t part, size_t parts)
{
    struct placed *order = ARENA_ARRAY(team->arena, struct placed, team->count + 1);
    struct map *firsts = map_new(team->arena);
    for (size_t i = 0; i < team->count; i++) {
        const struct lifter *block = team->lifters[i].block;
        struct output *key = output_to_memory(team->arena);
        size_t length;
        for (size_t j = 0; j < block->log_count; j++)
            output_printf(key, "%s\n", block->logs[j]);
        const char *text = output_memory(key, &length);
        uintptr_t first = (uintptr_t)map_get(firsts, text, length);
        if (!first)
            map_put(firsts, text, length, (void *)(uintptr_t)(i + 1));
        order[i] = (struct placed){first ? first - 1 : i, i};
    }
    qsort(order, team->count, sizeof *order, by_group);
    for (size_t i = team->count * (part - 1) / parts; i < team->count * part / parts; i++)
        team->lifters[order[i].place].work = WORK_WANTED;
}

const char *team_choose(struct team *team)
{
    const struct options *options = team->options;
    struct map *by_name = names_of(team);
    if (!team->count)
        return "the gym file has no [lifter]";
    team->is_part = options->lifter || options->lifters_from || options->parts;
    if (options->lifter) {
        struct team_lifter *lifter = named(team, by_name, options->lifter);
        if (!lifter)
            return "the gym file has no [lifter] of that name";
        lifter->work = WORK_WANTED;
    }
    if (options->lifters_from)
        return choose_from_file(team, by_name, options->lifters_from);
    if (options->parts)
        choose_part(team, options->part, options->parts);
    for (size_t i = 0; i < team->count && !team->is_part; i++)
        team->lifters[i].work = WORK_WANTED;
    return NULL;
}

bool team_list(const struct team *team)
{
    struct output *output = output_open(team->arena, NULL);
    for (size_t i = 0; i < team->count; i++)
        if (team->lifters[i].work == WORK_WANTED)
            output_printf(output, "%s\n", team->lifters[i].block->name);
    return output_commit(output);
}
