/* check: what was understood, what was refused, what was assumed. Text for people; CSV and JSON list the diagnostics,
 * one per row. */
#ifndef TAUTLINE_COMMANDS_CHECK_H
#define TAUTLINE_COMMANDS_CHECK_H

#include "commands/command.h"
#include "commands/tables.h"

enum exit_status run_check(struct arena *arena, const struct options *options);

void diags_table(struct session *session, struct output *output, diag_wanted *wanted, void *context);

#endif
