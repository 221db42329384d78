/* The completion of fish: one line for each option, with the commands that take it. */
#ifndef TAUTLINE_COMMANDS_COMPLETION_FISH_H
#define TAUTLINE_COMMANDS_COMPLETION_FISH_H

#include "commands/completion/completion.h"

void completion_fish(struct arena *arena, struct output *output);

#endif
