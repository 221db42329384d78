/* audit: the findings, one per row, or as text grouped by what to do about them. */
#ifndef TAUTLINE_COMMANDS_AUDIT_H
#define TAUTLINE_COMMANDS_AUDIT_H

#include "commands/command.h"
#include "commands/tables.h"

enum exit_status run_audit(struct arena *arena, const struct options *options);

struct columns audit_columns(const struct options *options);

void findings_table(struct session *session, struct output *output);

#endif
