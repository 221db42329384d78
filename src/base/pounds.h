/* Advice in the reader's own units: where loads are in pounds, blanks to fill in take pounds and inches. */
#ifndef TAUTLINE_BASE_POUNDS_H
#define TAUTLINE_BASE_POUNDS_H

#include "base/arena.h"
#include "base/unit.h"

/* "flat = ___ m" as "flat = ___ in", and examples of the program's own the same; all else stays as it is, above all
 * what a user wrote. In kg: the text itself. */
const char *advice_in_unit(struct arena *arena, const char *text, enum mass_unit unit);

/* A load or chains and bands as the notation has them, with the unit's masses and lengths: "2 x 7 kg chain/side" as
 * "2 x 15.4 lb chain/side". What stands in quotes stays. It reads back to nearly the same load. */
const char *load_in_unit(struct arena *arena, const char *text, enum mass_unit unit);

/* "0.79 m" or "31.1 in"; millimetres only where there are some. */
const char *length_in_unit(struct arena *arena, double metres, enum mass_unit unit);

#endif
