/* One digest of everything that a lifter's folder depends on: the program, the options, the logs, and from the gym
 * file the lifter's own block and whatever the logs use. As long as the digest is the same, so is the folder.
 *
 * Blocks are digested by value: an edit of the gym file that changes no value changes no digest. Which words are gear
 * at all matters for reading, so every label is digested, but a label's values only where it is used. */
#ifndef TAUTLINE_COMMANDS_TEAM_INPUTS_H
#define TAUTLINE_COMMANDS_TEAM_INPUTS_H

#include "commands/team/team.h"

void team_note_used(struct arena *arena, const struct log *log, struct team_state *state);
const char *team_key(struct arena *arena, const struct team *team, const struct team_lifter *lifter,
                     const struct team_state *state);
/* Does the folder hold what it would hold if it were made now? The logs' digests must be known. */
bool team_is_current(struct arena *arena, const struct team *team, const struct team_lifter *lifter);

#endif
