/* Checks the names in the logs, so that no sets are dropped silently because a block is missing or a log = does not
 * match. */
#ifndef TAUTLINE_COMMANDS_TEAM_NAMES_H
#define TAUTLINE_COMMANDS_TEAM_NAMES_H

#include "commands/team/gather/team_gather.h"

/* Notes lifters without a block, logs that belong to another lifter, and folders without a block. */
void team_note_names(const struct team *team, struct team_page *page);

#endif
