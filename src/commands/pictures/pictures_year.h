/* A lifter's year on one sheet. */
#ifndef TAUTLINE_COMMANDS_PICTURES_PICTURES_YEAR_H
#define TAUTLINE_COMMANDS_PICTURES_PICTURES_YEAR_H

#include "commands/pictures/pictures_parts.h"

/* One for each lifter who has a lift in waves. */
void add_years(struct pictures *pictures, const struct waves *waves);

#endif
