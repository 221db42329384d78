/* A set of strings, each numbered from 0 in the order it was first seen. Lookups are by exact bytes. */
#ifndef TAUTLINE_BASE_NAMES_H
#define TAUTLINE_BASE_NAMES_H

#include "base/arena.h"

#include <stdbool.h>
#include <stdint.h>

struct names;

struct names *names_new(struct arena *arena);
uint32_t names_add(struct names *names, const char *text, size_t length); /* the number of the text, new or not */
bool names_find(const struct names *names, const char *text, size_t length, uint32_t *number);
const char *names_text(const struct names *names, uint32_t number); /* borrowed */
size_t names_count(const struct names *names);

/* A map from strings to pointers, by exact bytes; copies the key. NULL: not there. */
struct map;
struct map *map_new(struct arena *arena);
void *map_get(const struct map *map, const char *key, size_t length);
void map_put(struct map *map, const char *key, size_t length, void *value);

#endif
