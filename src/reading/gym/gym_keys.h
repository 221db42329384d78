/* Every block and key of a gym file: the table from which reading, hints and the manual follow. */
#ifndef TAUTLINE_READING_GYM_KEYS_H
#define TAUTLINE_READING_GYM_KEYS_H

#include "reading/gym/gym_reader.h"

const struct gym_block *gym_block_named(const char *name, size_t length);
const char *gym_block_hint(struct arena *arena, const char *written); /* the nearest block, or all of them */

/* The nearest of the words, or "what: all of them". */
const char *gym_nearest_hint(struct arena *arena, const char *what, const char *written, const char *const *words,
                             size_t count);
const struct gym_key *gym_key_named(const struct gym_block *block, const char *name);
const char *gym_key_hint(struct arena *arena, const struct gym_block *block, const char *written);

#endif
