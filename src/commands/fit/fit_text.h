/* fit, for people: the laws side by side, which one to use and why, pairs and ages, and the blocks for the gym file. */
#ifndef TAUTLINE_COMMANDS_FIT_TEXT_H
#define TAUTLINE_COMMANDS_FIT_TEXT_H

#include "commands/fit/fit.h"

/* for people */
void fit_text(const struct fit *fit, struct output *output);
const char *band_law_title(enum band_law law); /* Mooney-Rivlin */
const char *band_side_name(enum band_side side);
const char *band_way_name(enum band_way way); /* up, down; "": not said */

#endif
