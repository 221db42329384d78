/* state.json of a lifter's folder: what the folder holds and what it rests on. */
#ifndef TAUTLINE_COMMANDS_TEAM_STATE_H
#define TAUTLINE_COMMANDS_TEAM_STATE_H

#include "commands/team/team.h"

/* NULL where there is none that can be used. */
struct team_state *team_state_read(struct arena *arena, const char *folder);
bool team_state_write(struct arena *arena, const char *folder, const struct team_state *state);

#endif
