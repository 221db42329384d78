/* loads: one row per set. */
#ifndef TAUTLINE_COMMANDS_LOADS_H
#define TAUTLINE_COMMANDS_LOADS_H

#include "commands/command.h"
#include "commands/tables.h"

enum exit_status run_loads(struct arena *arena, const struct options *options);

struct columns loads_columns(const struct options *options);

void loads_table(struct session *session, struct output *output);

#endif
