/* index.html: one page for the coach in the morning. It needs no script and no other file to be read. Who needs a look stands first. */
#ifndef TAUTLINE_COMMANDS_TEAM_PAGE_H
#define TAUTLINE_COMMANDS_TEAM_PAGE_H

#include "commands/team/team.h"

void team_page_write(const struct team *team, const struct team_page *page, struct output *output);

#endif
