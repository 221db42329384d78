/* What --version says. */
#ifndef TAUTLINE_COMMANDS_VERSION_H
#define TAUTLINE_COMMANDS_VERSION_H

#include "base/arena.h"
#include "writing/output.h"

void version_put(struct arena *arena, struct output *output);

#endif
