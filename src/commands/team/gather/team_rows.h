/* The rows of the team's page, one per lifter: lifters who need attention come first. */
#ifndef TAUTLINE_COMMANDS_TEAM_ROWS_H
#define TAUTLINE_COMMANDS_TEAM_ROWS_H

#include "commands/team/gather/team_page_parts.h"

size_t page_group_of(const struct page *page, const struct team_lifter *lifter); /* the first group that applies */
void page_count_groups(const struct page *page, size_t members[PAGE_GROUPS]);
const char *page_group_heading(size_t group);
void page_explain_rows(const struct page *page);
void page_put_all_rows(const struct page *page);
void page_put_rows(const struct page *page, size_t group, size_t members, size_t first,
                   size_t end); /* positions within the group, from 0 */

#endif
