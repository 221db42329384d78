/* The work on one lifter, in a process of its own: whatever goes wrong here does not affect other lifters. */
#ifndef TAUTLINE_COMMANDS_TEAM_LIFTER_H
#define TAUTLINE_COMMANDS_TEAM_LIFTER_H

#include "commands/team/team.h"

/* *message: why it failed, or what to know; it belongs to the arena or is a literal. */
enum team_work team_lifter_work(struct team *team, struct team_lifter *lifter, struct arena *arena,
                                const char **message);
/* True if there is nothing to do. Takes the logs' digests where they are not known. */
bool team_lifter_stands(struct team *team, struct team_lifter *lifter, struct arena *arena, const char **message);

#endif
