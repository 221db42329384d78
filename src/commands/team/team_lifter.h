/* One lifter's work, in a process of its own: what goes wrong here harms no other lifter. */
#ifndef TAUTLINE_COMMANDS_TEAM_LIFTER_H
#define TAUTLINE_COMMANDS_TEAM_LIFTER_H

#include "commands/team/team.h"

/* *message: why it failed, or what to know; the arena's or the program's. */
enum team_work team_lifter_work(struct team *team, struct team_lifter *lifter, struct arena *arena,
                                const char **message);
/* Is there nothing to do? The logs' digests are taken where they are not known. */
bool team_lifter_stands(struct team *team, struct team_lifter *lifter, struct arena *arena, const char **message);

#endif
