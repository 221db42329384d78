/* index.html: one page for the coach to read in the morning. It needs no other file. Lifters who need attention come
 * first. */
#ifndef TAUTLINE_COMMANDS_TEAM_PAGE_H
#define TAUTLINE_COMMANDS_TEAM_PAGE_H

#include "commands/team/team.h"

/* False: one of the pages of a large team was not written; errno says why. */
bool team_page_write(const struct team *team, const struct team_page *page, struct output *output);

#endif
