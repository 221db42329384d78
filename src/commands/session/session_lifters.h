/* One lifter at a time, or several in parallel. Invariant: neither the sets nor the rows of all lifters are ever in
 * memory together. */
#ifndef TAUTLINE_COMMANDS_SESSION_LIFTERS_H
#define TAUTLINE_COMMANDS_SESSION_LIFTERS_H

#include "commands/session/session.h"

void session_each_lifter(struct session *session, struct output *output, lifter_work *work, void *context);

#endif
