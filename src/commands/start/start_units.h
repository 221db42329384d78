/* start: examples and blanks in the user's own unit, inches with pounds. */
#ifndef TAUTLINE_COMMANDS_START_UNITS_H
#define TAUTLINE_COMMANDS_START_UNITS_H

#include "commands/start/start.h"

/* A blank (___ kg) or a remark of ours, with the sizes that a user of that unit would write. */
const char *start_in_unit(const struct start *start, const char *text);
/* A question, of which only the example behind ", as in" is ours: names of the user's stay as they are. */
const char *start_question(const struct start *start, const char *question);

#endif
