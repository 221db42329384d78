/* trend: one row per week for each lifter and lift. */
#ifndef TAUTLINE_COMMANDS_TREND_H
#define TAUTLINE_COMMANDS_TREND_H

#include "commands/command.h"
#include "commands/tables.h"

enum exit_status run_trend(struct arena *arena, const struct options *options);

struct columns trend_columns(const struct options *options);

void trend_table(struct session *session, struct output *output);

#endif
