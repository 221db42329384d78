/* What the files that gather share: team_gather.c, team_store.c, team_names.c. */
#ifndef TAUTLINE_COMMANDS_TEAM_GATHER_H
#define TAUTLINE_COMMANDS_TEAM_GATHER_H

#include "commands/team/team.h"
#include "reading/csv/csv_rows.h"

struct gathering
{
    struct team *team;
    struct arena *arena;
    struct store *store;
    const char *path;  /* of the store */
    const char *night; /* its id */
    struct team_page page;
    struct map *refused_seen;
    bool good; /* nothing went unwritten so far */
};

/* Something could not be written; on standard error. */
void gather_say(struct gathering *gathering, const char *path, const char *message);
bool gather_read(struct gathering *gathering, const char *path, csv_row_seen *seen, void *context);

struct gathering *gather_begin(struct team *team);

bool gather_end(struct gathering *gathering);                               /* all else; false: something was not written */

const struct team_page *gather_page(const struct gathering *gathering);

#endif
