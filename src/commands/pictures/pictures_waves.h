/* Pictures of waves: side by side, at a glance, and by what their loads consisted of. */
#ifndef TAUTLINE_COMMANDS_PICTURES_WAVES_H
#define TAUTLINE_COMMANDS_PICTURES_WAVES_H

#include "commands/pictures/pictures_parts.h"

void add_waves(struct pictures *pictures, const struct waves *waves); /* on a page, adds glances too */

void add_contributions(struct pictures *pictures, const struct waves *waves);

#endif
