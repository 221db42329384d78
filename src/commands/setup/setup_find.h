/* setup --share: the set-ups that come nearest to a wanted share, and what would reach it where none comes near. */
#ifndef TAUTLINE_COMMANDS_SETUP_FIND_H
#define TAUTLINE_COMMANDS_SETUP_FIND_H

#include "commands/setup/setup.h"

/* --share. The view's load is the straight weight. */
void setup_find(const struct setup_view *view);

#endif
