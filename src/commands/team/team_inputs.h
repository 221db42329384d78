/* What a lifter's folder rests on, as one digest: the program, the options, the logs, and of the gym file the lifter's
 * own block and what the logs make use of. As long as it is the same, the folder is.
 *
 * Blocks go in by their values: words of the gym file that change no value change no digest. Which words are gear at
 * all matters to reading; so every label goes in, and what stands under it only where it is used. */
#ifndef TAUTLINE_COMMANDS_TEAM_INPUTS_H
#define TAUTLINE_COMMANDS_TEAM_INPUTS_H

#include "commands/team/team.h"

void team_note_used(struct arena *arena, const struct log *log, struct team_state *state);
const char *team_key(struct arena *arena, const struct team *team, const struct team_lifter *lifter,
                     const struct team_state *state);
/* Does the folder hold what it would hold if it were made now? The logs' digests are known. */
bool team_is_current(struct arena *arena, const struct team *team, const struct team_lifter *lifter);

#endif
