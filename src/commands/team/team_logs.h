/* Which logs are whose: the patterns of each [lifter], the files behind them, what several lifters share. */
#ifndef TAUTLINE_COMMANDS_TEAM_LOGS_H
#define TAUTLINE_COMMANDS_TEAM_LOGS_H

#include "commands/team/team.h"

void team_find_logs(struct team *team);
bool team_argument_shared(const struct team_argument *argument);
void team_read_group(struct team *team, struct team_group *group);

/* Makes the reading's log one of this lifter's sets alone; in the worker, whose copy it is. */
struct log *team_take_sets(struct team_group *group, const char *lifter);

#endif
