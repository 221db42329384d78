/* Builds the team's own files from the lifters' folders: the store, team.csv, findings.csv, refused.csv, the page.
 * Invariant: each file follows from the folders and the gym file alone, no matter which run or machine made the
 * folders. */
#ifndef TAUTLINE_COMMANDS_TEAM_GATHER_H
#define TAUTLINE_COMMANDS_TEAM_GATHER_H

#include "commands/team/team.h"
#include "reading/csv/csv_rows.h"

struct told_names
{
    const char **items;
    size_t count, capacity;
};

struct told /* what the last finished night knew, and what this one leaves for the next */
{
    bool any;         /* there was a finished night */
    day_number today; /* its day */
    struct told_names lifters;
    struct map *lifter_of, *said; /* by name, which lifters there were; the sentences that were reported */
    struct told_names saying;     /* what this night reports */
    const char *tables;           /* digest of what findings.csv and refused.csv were built from */
    int64_t findings_bytes, refused_bytes;
    size_t refused;
    const char *store; /* identifies the file as the last night left it */
};

struct gathering
{
    struct team *team;
    struct arena *arena;
    struct store *store;
    const char *path, *building; /* of the store; of a new one while it is being built */
    bool is_built;
    const char *night; /* its id */
    struct told *told;
    struct team_page page;
    struct map *plans;   /* of team_fill.c, by table */
    struct map *held;    /* by lifter: what the store holds of each */
    struct map *by_name; /* lifters */
    bool good;           /* every file was written so far */
};

struct gathering *gather_begin(struct team *team);
/* True where more than half of the lifters that the last night knew have left and no option allows it. */
bool gather_is_another_gym(const struct gathering *gathering, size_t *left, size_t *of);
bool gather_end(struct gathering *gathering); /* writes store, tables and page; false: one was not written */
const struct team_page *gather_page(const struct gathering *gathering);

/* Reports on standard error that a file could not be written. */
void gather_say(struct gathering *gathering, const char *path, const char *message);

enum gather_cells
{
    CELLS_WRITTEN, /* with the apostrophe that --spreadsheet-safe put in front of a formula */
    CELLS_MEANT
};
/* The rows of a CSV file of the team's folder, or of a lifter's. */
bool gather_read(const struct team *team, const char *name, enum gather_cells cells, csv_row_seen *seen, void *context);
bool gather_read_of(const struct team *team, const struct team_lifter *lifter, const char *name,
                    enum gather_cells cells, csv_row_seen *seen, void *context);
bool gather_findings_stand(const struct gathering *gathering); /* is findings.csv that of the last night? */
void gather_fresh(struct gathering *gathering,
                  const struct team_finding *finding); /* adds a finding that the night before did not have */

#endif
