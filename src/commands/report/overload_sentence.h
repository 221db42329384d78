/* "Is it overloading?", answered in a sentence for each lift. */
#ifndef TAUTLINE_COMMANDS_OVERLOAD_SENTENCE_H
#define TAUTLINE_COMMANDS_OVERLOAD_SENTENCE_H

#include "commands/report/report_text.h"

/* "Yes", "At the top only": the answer alone. */
const char *overload_verdict_words(const struct overload *overload);

/* The sentence that says whether a lift is overloading; the arena's. Shared by all forms of the report. */
char *overload_sentence(struct arena *arena, const struct overload *overload, enum mass_unit unit);

#endif
