/* Pictures of strength: estimated and tested 1RM over time, and load against velocity. */
#ifndef TAUTLINE_COMMANDS_PICTURES_STRENGTH_H
#define TAUTLINE_COMMANDS_PICTURES_STRENGTH_H

#include "commands/pictures/pictures_parts.h"

void add_e1rm(struct pictures *pictures, const struct lift_sets *lift);
void add_velocities(struct pictures *pictures, const struct lift_sets *lifts, size_t count);

#endif
