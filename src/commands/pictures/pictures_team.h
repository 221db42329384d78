/* The picture of a team: each lifter's newest waves against the waves before. */
#ifndef TAUTLINE_COMMANDS_PICTURES_TEAM_H
#define TAUTLINE_COMMANDS_PICTURES_TEAM_H

#include "commands/pictures/pictures_parts.h"

/* Implemented in the files of these names. */
void add_team(struct pictures *pictures);

#endif
