/* plan: what its files share. */
#ifndef TAUTLINE_COMMANDS_PLAN_H
#define TAUTLINE_COMMANDS_PLAN_H

#include "analysis/plan/plan.h"
#include "commands/command.h"
#include "commands/session/session.h"

enum exit_status run_plan(struct arena *arena, const struct options *options);

#endif
