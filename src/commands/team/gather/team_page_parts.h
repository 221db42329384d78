/* Declarations that the files of the team's page share. */
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
    week_number newest; /* of all lifters: each picture ends in this week, so that the same week is in the same column
                           all down the page */
};

#endif
