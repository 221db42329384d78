/* A team that is too large for one page: a sheet for each few hundred lifters of a group, and on the first page links
 * and a box that finds. */
#ifndef TAUTLINE_COMMANDS_TEAM_SHEETS_H
#define TAUTLINE_COMMANDS_TEAM_SHEETS_H

#include "commands/team/gather/team_page_parts.h"

bool page_is_large(const struct team *team);
void page_put_groups(const struct page *page); /* links to the sheets, and the box */
bool page_write_sheets(
    const struct page *page,
    const char *title); /* lifters-1.html and so on; those of before that are no more go. false: errno */

#endif
