#include "analysis/ordering.h"

#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

struct named
{
    const char *text;
    uint32_t number;
};

static int by_bytes(const void *a, const void *b)
{
    const struct named *left = a, *right = b;
    return strcmp(left->text, right->text);
}

uint32_t *name_ranks(struct arena *arena, const struct names *names)
{
    size_t count = names_count(names);
    struct named *sorted = ARENA_ARRAY(arena, struct named, count);
    uint32_t *rank = ARENA_ARRAY(arena, uint32_t, count);
    for (uint32_t i = 0; i < count; i++)
        sorted[i] = (struct named){names_text(names, i), i};
    if (count)
        qsort(sorted, count, sizeof *sorted, by_bytes);
    for (uint32_t i = 0; i < count; i++)
        rank[sorted[i].number] = i;
    return rank;
}

static bool in_order(const uint32_t *order, size_t count, const uint32_t *keys)
{
    for (size_t i = 1; i < count; i++)
        if (keys[order[i - 1]] > keys[order[i]])
            return false;
    return true;
}

void counting_sort(struct arena *scratch, uint32_t *order, size_t count, const uint32_t *keys, size_t range)
{
    if (in_order(order, count, keys)) /* true of most logs */
        return;
    uint32_t *start = ARENA_ARRAY(scratch, uint32_t, range + 1), *sorted = ARENA_ARRAY(scratch, uint32_t, count);
    for (size_t i = 0; i < count; i++)
        start[keys[order[i]] + 1]++;
    for (size_t i = 1; i <= range; i++)
        start[i] += start[i - 1];
    for (size_t i = 0; i < count; i++)
        sorted[start[keys[order[i]]]++] = order[i];
    memcpy(order, sorted, count * sizeof *order);
}
