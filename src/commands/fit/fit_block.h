/* fit: [band] blocks for the gym file, with the calibrations as tension lines. */
#ifndef TAUTLINE_COMMANDS_FIT_BLOCK_H
#define TAUTLINE_COMMANDS_FIT_BLOCK_H

#include "commands/fit/fit.h"

/* [band] blocks for the gym file, one a band and day */
void fit_blocks(const struct fit *fit, struct output *output);

#endif
