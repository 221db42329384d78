/* start: a block for each lifter that exports name and the gym file does not. */
#ifndef TAUTLINE_COMMANDS_START_LIFTERS_H
#define TAUTLINE_COMMANDS_START_LIFTERS_H

#include "commands/start/start.h"

void start_lifter_blocks(struct start *start); /* the same for lifters */

#endif
