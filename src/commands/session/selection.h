/* --lifter and --lift: which lifters and lifts a command works on. */
#ifndef TAUTLINE_COMMANDS_SELECTION_H
#define TAUTLINE_COMMANDS_SELECTION_H

#include "commands/session/session.h"

#include <stdbool.h>

/* Works out session->lifters and session->lifts after the logs were read: an exact name comes first, from the gym
 * file (aliases too) or from the logs; else the only name that contains the text, ignoring case. False: it matches
 * none or several, which was reported; the session is misused. */
bool session_select(struct session *session);

#endif
