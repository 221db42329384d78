/* What the files of the team's page share. */
#ifndef TAUTLINE_COMMANDS_TEAM_PAGE_PARTS_H
#define TAUTLINE_COMMANDS_TEAM_PAGE_PARTS_H

#include "commands/team/team.h"
#include "writing/html/html.h"

#define PAGE_GROUPS 6u

struct page
{
    const struct team *team;
    const struct team_page *found;
    struct html *html;
    struct arena *arena;
    week_number newest; /* of all lifters: their pictures end there, so that a column is one week down the page */
};

#endif
