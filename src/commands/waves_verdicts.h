/* What `waves --verdicts` shows instead of waves. */
#ifndef TAUTLINE_COMMANDS_WAVES_VERDICTS_H
#define TAUTLINE_COMMANDS_WAVES_VERDICTS_H

#include "commands/command.h"
#include "commands/session/session.h"

struct columns verdict_columns(void);
/* One row per lifter, lift and focus: the newest wave against an earlier one, and what the newest waves together
 * show. */
void verdicts_table(struct session *session, struct output *output); /* the same into an output or a sink */
void show_verdicts(struct session *session);

#endif
