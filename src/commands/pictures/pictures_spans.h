/* Pictures of the same weeks of two spans of one lifter, or of two lifters, for plot --against. */
#ifndef TAUTLINE_COMMANDS_PICTURES_SPANS_H
#define TAUTLINE_COMMANDS_PICTURES_SPANS_H

#include "commands/pictures/pictures_parts.h"

/* One for each lift and focus of which both have a week. */
void add_spans(struct pictures *pictures, const struct waves *all);

#endif
