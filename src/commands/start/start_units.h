/* start: examples and blanks in the user's own unit, inches with pounds. */
#ifndef TAUTLINE_COMMANDS_START_UNITS_H
#define TAUTLINE_COMMANDS_START_UNITS_H

#include "commands/start/start.h"

/* A blank (___ kg) or one of our remarks, with the sizes that a user of that unit would write. */
const char *start_in_unit(const struct start *start, const char *text);
/* A question. Only the example after ", as in" is converted, because the rest may hold the user's own names. */
const char *start_question(const struct start *start, const char *question);

#endif
