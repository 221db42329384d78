/* Whom a run works for: all, one, those of a file, or one of several parts. */
#ifndef TAUTLINE_COMMANDS_TEAM_SCOPE_H
#define TAUTLINE_COMMANDS_TEAM_SCOPE_H

#include "commands/team/team.h"

/* Marks them. NULL: fine; else a message for the user. */
const char *team_choose(struct team *team);
bool team_list(const struct team *team); /* their names, a line each; false: errno says why not */

#endif
