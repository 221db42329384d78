/* Which logs are whose: the patterns of each [lifter], the files behind them, what several lifters share. */
#ifndef TAUTLINE_COMMANDS_TEAM_LOGS_H
#define TAUTLINE_COMMANDS_TEAM_LOGS_H

#include "commands/team/team.h"

void team_find_logs(struct team *team);
bool team_argument_shared(const struct team_argument *argument);
const char *team_argument_fault(struct arena *arena, const struct team_argument *argument); /* NULL: none */
bool team_has_own_logs(const struct team_lifter *lifter);
/* The digests of all files, where they are not known yet: the bytes are read here, and by whoever reads a log, and
 * nowhere else. */
void team_digest_logs(const struct team_lifter *lifter);
void team_digest_group(const struct team_group *group);
void team_read_group(struct team *team, struct team_group *group);
/* A log of this lifter's sets alone; all else of it is the group's. */
struct log *team_take_sets(struct arena *arena, const struct team_group *group, const char *lifter);

#endif
