/* "Is each wave heavier?", answered in a few sentences per lift: the verdict, then the fact. */
#ifndef TAUTLINE_COMMANDS_VERDICT_SENTENCE_H
#define TAUTLINE_COMMANDS_VERDICT_SENTENCE_H

#include "analysis/verdict.h"
#include "base/unit.h"

/* "rising", "too early to tell": the verdict alone. */
const char *verdict_words(const struct verdict *verdict);

/* The verdict and the fact as sentences, the fact "" where there is none; the arena's. Shared by all forms of the
 * report. `verbose`: with the interval. */
char *verdict_sentence(struct arena *arena, const struct verdict *verdict, enum mass_unit unit, bool verbose);
char *fact_sentence(struct arena *arena, const struct verdict *verdict, enum mass_unit unit);

#endif
