/* What `waves --plan` shows instead of waves. */
#ifndef TAUTLINE_COMMANDS_WAVES_PLAN_H
#define TAUTLINE_COMMANDS_WAVES_PLAN_H

#include "analysis/waves.h"
#include "commands/command.h"
#include "reading/plan_file.h"

struct planned_row
{
    const struct planned_week *planned;
    const struct wave_week *done; /* NULL: nothing was done */
    const char *state;            /* done, missed, to come */
};

/* Each week of the plan of --plan that the options ask for, in the plan's order; owned by the arena. NULL: the plan
 * cannot be read, which was reported. */
const struct planned_row *planned_rows(struct session *session, const struct waves *waves, size_t *count);

struct columns planned_columns(void);
/* Each week of the plan against what was done in it. */
void show_planned(struct session *session, const struct waves *waves);

#endif
