/* Which logs belong to which lifter: the patterns of each [lifter], the files that match, and what several lifters
 * share. */
#ifndef TAUTLINE_COMMANDS_TEAM_LOGS_H
#define TAUTLINE_COMMANDS_TEAM_LOGS_H

#include "commands/team/team.h"

void team_find_logs(struct team *team);
bool team_argument_shared(const struct team_argument *argument);
const char *team_argument_fault(struct arena *arena, const struct team_argument *argument); /* NULL: none */
bool team_has_own_logs(const struct team_lifter *lifter);
/* Takes the digests of all files whose digest is not known yet. A log's bytes are read here and by the log reader,
 * and nowhere else. */
void team_digest_logs(const struct team_lifter *lifter);
void team_digest_group(const struct team_group *group);
void team_read_group(struct team *team, struct team_group *group);
/* A log with only this lifter's sets; everything else in it belongs to the group. */
struct log *team_take_sets(struct arena *arena, const struct team_group *group, const char *lifter);

#endif
