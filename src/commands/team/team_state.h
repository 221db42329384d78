/* state.json of a lifter's folder: what the folder holds and what it was made from. */
#ifndef TAUTLINE_COMMANDS_TEAM_STATE_H
#define TAUTLINE_COMMANDS_TEAM_STATE_H

#include "commands/team/team.h"

/* NULL where there is no usable one. `lifters` is the folder that holds the one called `name`. */
struct team_state *team_state_read(struct arena *arena, int lifters, const char *name);
/* Once, before the first: else jansson leaves a member out for which there is no memory, and says nothing. */
void team_state_prepare(void);
bool team_state_write(struct arena *arena, int folder, const struct team_state *state);

#endif
