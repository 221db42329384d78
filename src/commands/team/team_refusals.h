/* Finds the lifters named in lines that were refused in shared logs. All names are searched for in one pass over a
 * line, so the cost grows with names plus lines, not with names times lines. */
#ifndef TAUTLINE_COMMANDS_TEAM_REFUSALS_H
#define TAUTLINE_COMMANDS_TEAM_REFUSALS_H

#include "commands/team/team.h"

void team_sort_refusals(struct team_group *group);
typedef void refusal_seen(void *context, const struct diag *diag);
void team_each_refusal(const struct team_group *group, const struct team_lifter *lifter, refusal_seen *seen,
                       void *context);
bool team_is_refusal(void *context, const struct diag *diag); /* for diags_table(), too */

#endif
