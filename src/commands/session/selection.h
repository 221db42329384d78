/* --lifter and --lift: whom and what a command is about. */
#ifndef TAUTLINE_COMMANDS_SELECTION_H
#define TAUTLINE_COMMANDS_SELECTION_H

#include "commands/session/session.h"

#include <stdbool.h>

/* Works out session->lifters and session->lifts, when the logs have been read: an exact name first, of the gym file's
 * (aliases too) or the logs'; else the only name that contains what was said, case folded. False: it matches none or
 * several, already reported; the session is misused. */
bool session_select(struct session *session);

#endif
