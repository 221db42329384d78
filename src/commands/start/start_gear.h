/* start: [gym], [columns], and a block for each chain, band and set-up that exports name and the gym file does not. */
#ifndef TAUTLINE_COMMANDS_START_GEAR_H
#define TAUTLINE_COMMANDS_START_GEAR_H

#include "commands/start/start.h"

void start_gym_blocks(struct start *start);    /* [gym] */

/* The headers of an export that was not understood, or of which some mean nothing. False: there is no need. */
bool start_columns_block(struct start *start, bool not_understood);
void start_gear_blocks(struct start *start);   /* chains, bands and set-ups that exports name and the gym file does not */

#endif
