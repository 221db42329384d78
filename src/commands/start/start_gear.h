/* start: [gym], and a block for each chain, band and set-up that exports name and the gym file does not. */
#ifndef TAUTLINE_COMMANDS_START_GEAR_H
#define TAUTLINE_COMMANDS_START_GEAR_H

#include "commands/start/start.h"

void start_gym_blocks(struct start *start); /* [gym] */

void start_gear_blocks(struct start *start); /* chains, bands and set-ups that exports name and the gym file does not */

#endif
