/* The tables of the commands over logs, each written into an output that somebody else opened and commits. The
 * session's options say the format, its unit the loads'. */
#ifndef TAUTLINE_COMMANDS_TABLES_H
#define TAUTLINE_COMMANDS_TABLES_H

#include "commands/session/session.h"

/* What was said of the inputs, as check writes it. `wanted` may be NULL: all of it. */
typedef bool diag_wanted(void *context, const struct diag *diag);

#endif
