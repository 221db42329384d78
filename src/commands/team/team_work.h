/* Declarations for the files that do one lifter's work: team_lifter.c and team_drawing.c. */
#ifndef TAUTLINE_COMMANDS_TEAM_WORK_H
#define TAUTLINE_COMMANDS_TEAM_WORK_H

#include "commands/team/team.h"

struct work
{
    const struct team *team;
    const struct team_lifter *lifter;
    struct arena *arena;
    struct session session;
    struct options options;
    struct reading *reading;
    struct team_state *state;
    struct folder *folder;
    struct digester *results;
    bool no_drawing;
    const char *undrawn; /* why a picture was not drawn; NULL: all were */
};

#endif
