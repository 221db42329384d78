/* From the lifters' folders to what the team has in common: the store, team.csv, findings.csv, refused.csv, the page.
 * Each file follows from the folders and the gym file alone, whoever made the folders and wherever. */
#ifndef TAUTLINE_COMMANDS_TEAM_GATHER_H
#define TAUTLINE_COMMANDS_TEAM_GATHER_H

#include "commands/team/team.h"
#include "reading/csv/csv_rows.h"

struct told_names
{
    const char **items;
    size_t count, capacity;
};

struct told /* what the last night that ended knew, and what this one leaves for the next */
{
    bool any;         /* there was one */
    day_number today; /* its day */
    struct told_names lifters;
    struct map *lifter_of, *said; /* the same by name; sentences that were told */
    struct told_names saying;     /* this night's */
    const char *tables;           /* digest of what findings.csv and refused.csv were made of */
    int64_t findings_bytes, refused_bytes;
    size_t refused;
    const char *store; /* the file, as it was left */
};

struct gathering
{
    struct team *team;
    struct arena *arena;
    struct store *store;
    const char *path, *building; /* of the store; of one that is being built beside it */
    bool is_built;
    const char *night; /* its id */
    struct told *told;
    struct team_page page;
    struct map *plans;   /* team_fill.c's, by table */
    struct map *held;    /* by lifter: what the store holds */
    struct map *by_name; /* lifters */
    bool good;           /* nothing went unwritten so far */
};

struct gathering *gather_begin(struct team *team);
/* More than half of those whom the last night knew have left, and nobody said that this is meant. */
bool gather_is_another_gym(const struct gathering *gathering, size_t *left, size_t *of);
bool gather_end(struct gathering *gathering); /* store, tables and page; false: something was not written */
const struct team_page *gather_page(const struct gathering *gathering);

/* Something could not be written; on standard error. */
void gather_say(struct gathering *gathering, const char *path, const char *message);
bool gather_read(int folder, const char *name, csv_row_seen *seen, void *context);
bool gather_read_of(const struct team *team, const struct team_lifter *lifter, const char *name, csv_row_seen *seen,
                    void *context);
bool gather_findings_stand(const struct gathering *gathering); /* is findings.csv that of the last night? */
void gather_fresh(struct gathering *gathering,
                  const struct team_finding *finding); /* one that was not there the night before */

#endif
