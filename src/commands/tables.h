/* The tables of the commands that work on logs, each written into an output that the caller opens and commits. The
 * session's options give the format, and its unit is that of the loads. */
#ifndef TAUTLINE_COMMANDS_TABLES_H
#define TAUTLINE_COMMANDS_TABLES_H

#include "commands/session/session.h"

/* The diagnostics of the inputs, as check writes them. `wanted` may be NULL: all of them. */
typedef bool diag_wanted(void *context, const struct diag *diag);

#endif
