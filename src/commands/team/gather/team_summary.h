/* --summary: what has changed since the last night, short enough for an e-mail. */
#ifndef TAUTLINE_COMMANDS_TEAM_SUMMARY_H
#define TAUTLINE_COMMANDS_TEAM_SUMMARY_H

#include "commands/team/team.h"

bool team_summary_write(const struct team *team, const struct team_page *page, int status,
                        const char *path); /* false: see errno */

#endif
