/* The completion of bash: one function that looks at the words before the cursor. Paths are left to readline, which
 * can quote them; what is in a gym file is compared as text and never expanded. */
#ifndef TAUTLINE_COMMANDS_COMPLETION_BASH_H
#define TAUTLINE_COMMANDS_COMPLETION_BASH_H

#include "commands/completion/completion.h"

void completion_bash(struct arena *arena, struct output *output);

#endif
