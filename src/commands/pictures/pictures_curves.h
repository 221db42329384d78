/* Pictures of set-ups: load against height of the bar. */
#ifndef TAUTLINE_COMMANDS_PICTURES_CURVES_H
#define TAUTLINE_COMMANDS_PICTURES_CURVES_H

#include "commands/pictures/pictures_parts.h"

void add_curves(struct pictures *pictures, const struct lift_sets *lift);

#endif
