/* A lifter at a time, or several at once: neither the sets nor the rows of all lifters are ever held together. */
#ifndef TAUTLINE_COMMANDS_SESSION_LIFTERS_H
#define TAUTLINE_COMMANDS_SESSION_LIFTERS_H

#include "commands/session/session.h"

void session_each_lifter(struct session *session, struct output *output, lifter_work *work, void *context);

#endif
