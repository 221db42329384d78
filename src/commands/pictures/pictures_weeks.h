/* Pictures of weeks: volume and intensity, and the zones of intensity. */
#ifndef TAUTLINE_COMMANDS_PICTURES_WEEKS_H
#define TAUTLINE_COMMANDS_PICTURES_WEEKS_H

#include "commands/pictures/pictures_parts.h"

void add_weeks(struct pictures *pictures); /* adds pictures of zones too */

#endif
