#include "base/names.h"

#define XXH_INLINE_ALL
#include <xxhash.h>

#include <string.h>

/* A table with open addressing, by hand because measured: a log's notes and loads are looked up by the million, and a
 * library's chained buckets cost three cache misses where this costs two. The whole hash is next to the pointer, so
 * that only equal texts are visited. */
struct entry
{
    void *value;
    uint32_t number, length;
    char text[];
};

struct slot
{
    uint64_t hash;
    struct entry *entry; /* NULL: free */
};

struct map
{
    struct arena *arena;
    struct slot *slots;
    size_t slot_count; /* 0, or a power of two of which at most three quarters are taken: a smaller table is nearer to
                          the processor */
    size_t count;
};

struct names
{
    struct map map;
    LIST(const char *) texts;
};

#define FIRST_SLOTS ((size_t)16)

static uint64_t hash_of(const char *key, size_t length)
{
    return XXH3_64bits(key, length);
}

/* Where the key is, or would be. The map has slots. */
static struct slot *slot_of(const struct map *map, const char *key, size_t length, uint64_t hash)
{
    for (size_t at = (size_t)hash & (map->slot_count - 1);; at = (at + 1) & (map->slot_count - 1)) {
        struct slot *slot = &map->slots[at];
        if (!slot->entry ||
            (slot->hash == hash && slot->entry->length == length && !memcmp(slot->entry->text, key, length)))
            return slot;
    }
}

static struct entry *find(const struct map *map, const char *key, size_t length)
{
    return map->count ? slot_of(map, length ? key : "", length, hash_of(key, length))->entry : NULL;
}

static void grow(struct map *map)
{
    struct map larger = {
        .arena = map->arena, .slot_count = map->slot_count ? map->slot_count * 2 : FIRST_SLOTS, .count = map->count};
    larger.slots = ARENA_ARRAY(map->arena, struct slot, larger.slot_count);
    for (size_t i = 0; i < map->slot_count; i++) {
        const struct slot *old = &map->slots[i];
        if (!old->entry)
            continue;
        size_t at = (size_t)old->hash & (larger.slot_count - 1);
        while (larger.slots[at].entry)
            at = (at + 1) & (larger.slot_count - 1);
        larger.slots[at] = *old;
    }
    *map = larger;
}

/* The key's entry, made if it is not there; its number tells: UINT32_MAX is a new one's. */
static struct entry *find_or_add(struct map *map, const char *key, size_t length)
{
    if (map->count * 4 >= map->slot_count * 3)
        grow(map);
    uint64_t hash = hash_of(key, length);
    struct slot *slot = slot_of(map, length ? key : "", length, hash);
    if (!slot->entry) {
        struct entry *entry = arena_alloc(map->arena, sizeof *entry + length + 1);
        entry->number = UINT32_MAX;
        entry->length = (uint32_t)length;
        if (length)
            memcpy(entry->text, key, length);
        *slot = (struct slot){hash, entry};
        map->count++;
    }
    return slot->entry;
}

struct map *map_new(struct arena *arena)
{
    struct map *map = ARENA_NEW(arena, struct map);
    map->arena = arena;
    return map;
}

void *map_get(const struct map *map, const char *key, size_t length)
{
    const struct entry *entry = find(map, key, length);
    return entry ? entry->value : NULL;
}

void map_put(struct map *map, const char *key, size_t length, void *value)
{
    find_or_add(map, key, length)->value = value;
}

struct names *names_new(struct arena *arena)
{
    struct names *names = ARENA_NEW(arena, struct names);
    names->map.arena = arena;
    return names;
}

uint32_t names_add(struct names *names, const char *text, size_t length)
{
    struct entry *entry = find_or_add(&names->map, text, length);
    if (entry->number == UINT32_MAX) {
        entry->number = (uint32_t)names->texts.count;
        *LIST_ADD(names->map.arena, &names->texts) = entry->text;
    }
    return entry->number;
}

bool names_find(const struct names *names, const char *text, size_t length, uint32_t *number)
{
    const struct entry *entry = find(&names->map, text, length);
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
