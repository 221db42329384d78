/* The lifters that a run works for: all, one, those listed in a file, or one of several parts. */
#ifndef TAUTLINE_COMMANDS_TEAM_SCOPE_H
#define TAUTLINE_COMMANDS_TEAM_SCOPE_H

#include "commands/team/team.h"

/* Marks them. NULL: success; else a message for the user. */
const char *team_choose(struct team *team);
bool team_list(const struct team *team); /* lists their names, one per line; false: see errno */

#endif
