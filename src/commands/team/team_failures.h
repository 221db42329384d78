/* Keeps what went wrong for a lifter in lifters/.NAME.failed until a run succeeds, so that a later --gather can
 * report it. */
#ifndef TAUTLINE_COMMANDS_TEAM_FAILURES_H
#define TAUTLINE_COMMANDS_TEAM_FAILURES_H

#include "commands/team/team.h"

void team_note_failure(const struct team *team, const struct team_lifter *lifter);
/* NULL: the last run for this lifter did not fail. */
const char *team_last_failure(const struct team *team, const struct team_lifter *lifter, enum team_work *work);

#endif
