/* A lifter's pictures: each a script that anybody may run again, drawn where gnuplot is found. One that fails costs
 * itself: the tables are new. A picture whose script is the one that stands in the folder is not drawn again. */
#ifndef TAUTLINE_COMMANDS_TEAM_DRAWING_H
#define TAUTLINE_COMMANDS_TEAM_DRAWING_H

#include "commands/team/team_work.h"

void work_draw(struct work *work);
void work_write_page(struct work *work);

#endif
