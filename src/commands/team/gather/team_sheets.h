/* The pages of a team that is too large for one page: each sheet holds a few hundred lifters of a group, and the
 * first page has links to the sheets and a search box. */
#ifndef TAUTLINE_COMMANDS_TEAM_SHEETS_H
#define TAUTLINE_COMMANDS_TEAM_SHEETS_H

#include "commands/team/gather/team_page_parts.h"

bool page_is_large(const struct team *team);
void page_put_groups(const struct page *page); /* links to the sheets, and the search box */
bool page_write_sheets(const struct page *page,
                       const char *title); /* writes lifters-1.html and so on, and removes those that are no longer
                                              needed; false: see errno */

#endif
