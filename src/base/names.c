#include "base/names.h"

#define XXH_INLINE_ALL
#include <xxhash.h>

/* The tables live in their arena: uthash asks it for memory and gives nothing back. Its own hash takes a byte at a time; logs are looked up
 * by the million. */
#define HASH_FUNCTION(key, length, hash) ((hash) = (unsigned)XXH3_64bits((key), (length)))
#define HASH_NONFATAL_OOM 0
#define uthash_malloc(size) arena_alloc(table_arena, size)
#define uthash_free(pointer, size) ((void)(pointer), (void)(size))
static _Thread_local struct arena *table_arena;
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wconversion"
#pragma GCC diagnostic ignored "-Wsign-conversion"
#include <uthash.h>
#pragma GCC diagnostic pop

#include <string.h>

struct entry
{
    UT_hash_handle hh;
    void *value;
    uint32_t number;
    char text[];
};

struct map
{
    struct arena *arena;
    struct entry *table;
};

struct names
{
    struct map map;
    LIST(const char *) texts;
};

#pragma GCC diagnostic ignored "-Wconversion"
#pragma GCC diagnostic ignored "-Wsign-conversion"

static struct entry *find(const struct map *map, const char *key, size_t length)
{
    struct entry *entry;
    HASH_FIND(hh, map->table, key, (unsigned)length, entry);
    return entry;
}

static struct entry *add(struct map *map, const char *key, size_t length)
{
    struct entry *entry = arena_alloc(map->arena, sizeof *entry + length + 1);
    if (length)
        memcpy(entry->text, key, length);
    table_arena = map->arena;
    HASH_ADD(hh, map->table, text, (unsigned)length, entry);
    return entry;
}

struct map *map_new(struct arena *arena)
{
    struct map *map = ARENA_NEW(arena, struct map);
    map->arena = arena;
    return map;
}

void *map_get(const struct map *map, const char *key, size_t length)
{
    struct entry *entry = find(map, key, length);
    return entry ? entry->value : NULL;
}

void map_put(struct map *map, const char *key, size_t length, void *value)
{
    struct entry *entry = find(map, key, length);
    if (!entry)
        entry = add(map, key, length);
    entry->value = value;
}

struct names *names_new(struct arena *arena)
{
    struct names *names = ARENA_NEW(arena, struct names);
    names->map.arena = arena;
    return names;
}

uint32_t names_add(struct names *names, const char *text, size_t length)
{
    struct entry *entry = find(&names->map, text, length);
    if (!entry) {
        entry = add(&names->map, text, length);
        entry->number = (uint32_t)names->texts.count;
        *LIST_ADD(names->map.arena, &names->texts) = entry->text;
    }
    return entry->number;
}

bool names_find(const struct names *names, const char *text, size_t length, uint32_t *number)
{
    struct entry *entry = find(&names->map, text, length);
    if (entry)
        *number = entry->number;
    return entry;
}

const char *names_text(const struct names *names, uint32_t number)
{
    return names->texts.items[number];
}

size_t names_count(const struct names *names)
{
    return names->texts.count;
}
