/* index.html: one page for the coach in the morning. It needs no other file to be read. What needs a look stands first.
 */
#ifndef TAUTLINE_COMMANDS_TEAM_PAGE_H
#define TAUTLINE_COMMANDS_TEAM_PAGE_H

#include "commands/team/team.h"

/* False: a page of many lifters was not written; errno says why. */
bool team_page_write(const struct team *team, const struct team_page *page, struct output *output);

#endif
