/* What `waves --plan` shows instead of waves. */
#ifndef TAUTLINE_COMMANDS_WAVES_PLAN_H
#define TAUTLINE_COMMANDS_WAVES_PLAN_H

#include "analysis/waves.h"
#include "commands/session.h"

/* Each week of the plan beside what was done in it. */
void show_planned(struct session *session, const struct waves *waves);

#endif
