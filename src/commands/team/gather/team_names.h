/* Whom the logs name: nobody's sets are dropped in silence because a block is missing or a log = does not match. */
#ifndef TAUTLINE_COMMANDS_TEAM_NAMES_H
#define TAUTLINE_COMMANDS_TEAM_NAMES_H

#include "commands/team/gather/team_gather.h"

/* Who has no block, or whose log it is not; folders without a block. */
void team_note_names(const struct team *team, struct team_page *page);

#endif
