/* Lines that were refused in logs that several lifters share, by those whom they name. All names are looked for in one
 * pass over a line, so that many names and many lines cost no more than both of them. */
#ifndef TAUTLINE_COMMANDS_TEAM_REFUSALS_H
#define TAUTLINE_COMMANDS_TEAM_REFUSALS_H

#include "commands/team/team.h"

void team_sort_refusals(struct team_group *group);
typedef void refusal_seen(void *context, const struct diag *diag);
void team_each_refusal(const struct team_group *group, const struct team_lifter *lifter, refusal_seen *seen,
                       void *context);
bool team_is_refusal(void *context, const struct diag *diag); /* for diags_table(), too */

#endif
