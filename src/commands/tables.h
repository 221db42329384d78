/* The tables of the commands over logs, each written into an output that somebody else opened and commits. The session's options say the
 * format, its unit the loads'. */
#ifndef TAUTLINE_COMMANDS_TABLES_H
#define TAUTLINE_COMMANDS_TABLES_H

#include "commands/session/session.h"

void loads_table(struct session *session, struct output *output);
void trend_table(struct session *session, struct output *output);
void waves_table(struct session *session, struct output *output);
void findings_table(struct session *session, struct output *output);

/* What was said of the inputs, as check writes it. `wanted` may be NULL: all of it. */
typedef bool diag_wanted(void *context, const struct diag *diag);
void diags_table(struct session *session, struct output *output, diag_wanted *wanted, void *context);

#endif
