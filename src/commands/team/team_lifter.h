/* One lifter's work, in a process of its own: what goes wrong here harms no other lifter. */
#ifndef TAUTLINE_COMMANDS_TEAM_LIFTER_H
#define TAUTLINE_COMMANDS_TEAM_LIFTER_H

#include "commands/team/team.h"

/* one lifter's work, in a process of its own. NULL: all went well; else what to tell, and *status. */
const char *team_lifter_work(struct team *team, struct team_lifter *lifter, enum exit_status *status);

#endif
