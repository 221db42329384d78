#include "commands/team/gather/team_told.h"

#include "commands/team/team_below.h"

#include <jansson.h>
#include <stdlib.h>
#include <string.h>

#define TOLD_NAME "night.json"

static void read_names(struct arena *arena, const json_t *array, struct map **map, void *list)
{
    *map = map_new(arena);
    for (size_t i = 0; i < json_array_size(array); i++) {
        const char *text = json_string_value(json_array_get(array, i));
        if (!text || map_get(*map, text, strlen(text)))
            continue;
        const char *kept = arena_copy(arena, text);
        map_put(*map, kept, strlen(kept), (void *)kept);
        if (list)
            *LIST_ADD(arena, (struct told_names *)list) = kept;
    }
}

struct told *told_read(struct arena *arena, int root)
{
    struct told *told = ARENA_NEW(arena, struct told);
    FILE *file = below_stream(root, TOLD_NAME);
    json_t *json = file ? json_loadf(file, JSON_REJECT_DUPLICATES, NULL) : NULL;
    if (file)
        fclose(file);
    told->any = json_is_object(json);
    read_names(arena, json_object_get(json, "lifters"), &told->lifter_of, &told->lifters);
    read_names(arena, json_object_get(json, "said"), &told->said, NULL);
    const char *today = json_string_value(json_object_get(json, "today")),
               *tables = json_string_value(json_object_get(json, "tables"));
    if (!today || !date_read_iso(today, &told->today))
        told->today = NO_DAY;
    told->tables = tables ? arena_copy(arena, tables) : "";
    told->findings_bytes = (int64_t)json_integer_value(json_object_get(json, "findings_bytes"));
    told->refused_bytes = (int64_t)json_integer_value(json_object_get(json, "refused_bytes"));
    told->refused = (size_t)json_integer_value(json_object_get(json, "refused"));
    told->store = json_string_value(json_object_get(json, "store"))
                      ? arena_copy(arena, json_string_value(json_object_get(json, "store")))
                      : "";
    json_decref(json);
    return told;
}

bool told_write(const struct team *team, const struct told *told)
{
    char today[16];
    json_t *json = json_object(), *lifters = json_array(), *said = json_array();
    date_print(today, told->today);
    for (size_t i = 0; i < team->count; i++)
        json_array_append_new(lifters, json_string(team->lifters[i].block->name));
    for (size_t i = 0; i < told->saying.count; i++)
        json_array_append_new(said, json_string(told->saying.items[i]));
    json_object_set_new(json, "today", json_string(today));
    json_object_set_new(json, "tables", json_string(told->tables));
    json_object_set_new(json, "findings_bytes", json_integer(told->findings_bytes));
    json_object_set_new(json, "refused_bytes", json_integer(told->refused_bytes));
    json_object_set_new(json, "refused", json_integer((json_int_t)told->refused));
    json_object_set_new(json, "store", json_string(told->store));
    json_object_set_new(json, "said", said);
    json_object_set_new(json, "lifters", lifters);
    char *text = json_dumps(json, JSON_INDENT(1));
    json_decref(json);
    struct output *output = text ? output_open_in(team->arena, team->root, TOLD_NAME) : NULL;
    if (output) {
        output_text(output, text);
        output_text(output, "\n");
    }
    free(text);
    return output && output_commit(output);
}

bool told_is_new(struct arena *arena, struct told *told, const char *sentence)
{
    *LIST_ADD(arena, &told->saying) = sentence;
    return !map_get(told->said, sentence, strlen(sentence));
}

void told_note_left(const struct team *team, const struct told *told, struct team_page *page)
{
    struct map *now = map_new(team->arena);
    for (size_t i = 0; i < team->count; i++)
        map_put(now, team->lifters[i].block->name, strlen(team->lifters[i].block->name), now);
    for (size_t i = 0; i < told->lifters.count; i++)
        if (!map_get(now, told->lifters.items[i], strlen(told->lifters.items[i])))
            *LIST_ADD(team->arena, &page->left) = told->lifters.items[i];
}
