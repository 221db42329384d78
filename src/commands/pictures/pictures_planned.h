/* Pictures of a plan against what was done, where --plan names one. */
#ifndef TAUTLINE_COMMANDS_PICTURES_PLANNED_H
#define TAUTLINE_COMMANDS_PICTURES_PLANNED_H

#include "commands/pictures/pictures_parts.h"

void add_planned(struct pictures *pictures, const struct waves *waves);

#endif
