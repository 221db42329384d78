/* Pictures of waves: side by side, at a glance, and what their loads were made of. */
#ifndef TAUTLINE_COMMANDS_PICTURES_WAVES_H
#define TAUTLINE_COMMANDS_PICTURES_WAVES_H

#include "commands/pictures/pictures_parts.h"

void add_waves(struct pictures *pictures, const struct waves *waves); /* glances too, on a page */

void add_contributions(struct pictures *pictures, const struct waves *waves);

#endif
