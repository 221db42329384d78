/* The completion of zsh: the specifications for _arguments, command by command. */
#ifndef TAUTLINE_COMMANDS_COMPLETION_ZSH_H
#define TAUTLINE_COMMANDS_COMPLETION_ZSH_H

#include "commands/completion/completion.h"

void completion_zsh(struct arena *arena, struct output *output);

#endif
