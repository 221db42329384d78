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

/* team_store.c */
void team_store_open(struct gathering *gathering); /* and the night in it */
void team_store_fill(struct gathering *gathering);
void team_store_fresh(struct gathering *gathering); /* what was not there the night before, into the page */
void team_store_finish(struct gathering *gathering);

/* team_names.c: whom the logs name who has no block, or whose log it is not; folders without a block. */
void team_note_names(const struct team *team, struct team_page *page);

#endif
