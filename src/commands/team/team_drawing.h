/* A lifter's pictures: each comes with a script that anyone can run again, and is drawn where gnuplot is installed. A
 * picture that fails does not hold up the rest: the tables are new. A picture is not drawn again if its script has
 * not changed. */
#ifndef TAUTLINE_COMMANDS_TEAM_DRAWING_H
#define TAUTLINE_COMMANDS_TEAM_DRAWING_H

#include "commands/team/team_work.h"

void work_draw(struct work *work);
void work_write_page(struct work *work);

#endif
