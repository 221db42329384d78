/* waves: one row per week of each wave, compared with the same step of the wave before. */
#ifndef TAUTLINE_COMMANDS_WAVES_H
#define TAUTLINE_COMMANDS_WAVES_H

#include "commands/command.h"
#include "commands/tables.h"

enum exit_status run_waves(struct arena *arena, const struct options *options);

struct columns waves_columns(const struct options *options);

void waves_table(struct session *session, struct output *output);

#endif
