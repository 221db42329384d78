/* fit: [band] blocks for the gym file, with the calibrations as tension lines. */
#ifndef TAUTLINE_COMMANDS_FIT_BLOCK_H
#define TAUTLINE_COMMANDS_FIT_BLOCK_H

#include "commands/fit/fit.h"

#define FIT_SAFETY "Measure only undamaged bands, from the side, out of the line of the band, with eye protection."

/* [band] blocks for the gym file, one per band and day */
void fit_blocks(const struct fit *fit, struct output *output);

#endif
