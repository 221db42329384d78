/* Maps the many spellings of a lift to one name. */
#ifndef TAUTLINE_READING_LIFT_NAMES_H
#define TAUTLINE_READING_LIFT_NAMES_H

#include "model/gear.h"
#include "model/set.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct lift_names;

struct lift_names *lift_names_new(struct arena *arena, struct log *log, const struct gym *gym);
/* The number in log->lifts: for the gym file's name or alias; else for the built-in main name (back squat: squat);
 * else for the first spelling seen. A trailing "(barbell)" is dropped; other brackets make a different lift.
 * Remembers spellings. Fills log->lift_names. */
uint32_t lift_number(struct lift_names *names, const char *written, size_t length);

/* The number of a name that another reader of the run has settled on. */
uint32_t lift_adopt(struct lift_names *names, const char *name);

/* The gym's lifts by their names and aliases, for gym->lift_keys: of thousands of lifts, each name would be compared
 * with each. */
struct map;
const struct map *lift_keys(struct arena *arena, const struct gym *gym);

/* The name that a spelling stands for: the gym file's, else the built-in main name, else the spelling itself, squeezed
 * and without
 * "(barbell)". Borrowed from the gym, static, or the arena's. */
const char *lift_main_name(struct arena *arena, const struct gym *gym, const char *written);
/* The built-in main name of a folded name; NULL: none. Hyphens equal blanks. */
const char *builtin_lift(const char *folded);
/* Every built-in main name, for hints. */
const char *const *builtin_lifts(size_t *count);
/* Pull-up, chin-up, dip, push-up and the like: the logged weight is added to bodyweight. */
bool lift_is_bodyweight(const char *name, const struct gym *gym);

#endif
