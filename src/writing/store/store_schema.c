#include "writing/store/store_schema.h"

#include "writing/output.h"

#include <string.h>

#define EACH_LIFTER "lifter TEXT NOT NULL REFERENCES lifters(name) ON DELETE CASCADE ON UPDATE CASCADE,"

static const char version_1[] =
    "CREATE TABLE nights("
    " id INTEGER PRIMARY KEY, started TEXT NOT NULL, finished TEXT, today TEXT NOT NULL, version TEXT NOT NULL,"
    " lifters INTEGER, computed INTEGER, unchanged INTEGER, failed INTEGER, refused INTEGER, new_findings INTEGER"
    ") STRICT;"
    "CREATE TABLE lifters("
    " name TEXT NOT NULL PRIMARY KEY, folder TEXT NOT NULL, results TEXT NOT NULL, sets INTEGER NOT NULL, refused "
    "INTEGER NOT NULL,"
    " first TEXT, last TEXT"
    ") STRICT, WITHOUT ROWID;"
    "CREATE TABLE files(" EACH_LIFTER " path TEXT NOT NULL, digest TEXT NOT NULL, bytes INTEGER NOT NULL,"
    " PRIMARY KEY(lifter, path)) STRICT, WITHOUT ROWID;"
    "CREATE TABLE sets(" EACH_LIFTER " row INTEGER NOT NULL, file TEXT NOT NULL, line INTEGER NOT NULL, date TEXT NOT "
    "NULL, week TEXT NOT NULL, lift TEXT NOT NULL,"
    " focus TEXT, kind TEXT NOT NULL, \"set\" INTEGER NOT NULL, reps INTEGER NOT NULL, rpe REAL, rir REAL, velocity "
    "REAL,"
    " straight_kg REAL, bottom_kg REAL, top_kg REAL, mean_kg REAL, bottom_u_kg REAL, top_u_kg REAL, ar TEXT, one_rm_kg "
    "REAL,"
    " one_rm_from TEXT, share REAL, intensity REAL, e1rm_low_kg REAL, e1rm_high_kg REAL, assumed TEXT, note TEXT, "
    "lowering_top_kg REAL,"
    " PRIMARY KEY(lifter, row),"
    " FOREIGN KEY(lifter, file) REFERENCES files(lifter, path) ON DELETE CASCADE ON UPDATE CASCADE DEFERRABLE "
    "INITIALLY DEFERRED"
    ") STRICT, WITHOUT ROWID;"
    "CREATE TABLE weeks(" EACH_LIFTER
    " lift TEXT NOT NULL, week TEXT NOT NULL, days INTEGER NOT NULL, sets INTEGER NOT NULL, lifts INTEGER NOT NULL,"
    " volume_straight_kg REAL, volume_bottom_kg REAL, volume_top_kg REAL, volume_mean_kg REAL, intensity_straight REAL,"
    " intensity_mean REAL, peak_straight_kg REAL, peak_bottom_kg REAL, peak_top_kg REAL, inol REAL, lifts_to_55 REAL,"
    " lifts_55_70 REAL, lifts_70_80 REAL, lifts_80_90 REAL, lifts_90_up REAL, monotony REAL, strain REAL, acute_kg "
    "REAL,"
    " chronic_kg REAL, PRIMARY KEY(lifter, lift, week)) STRICT, WITHOUT ROWID;"
    "CREATE TABLE waves(" EACH_LIFTER " lift TEXT NOT NULL, focus TEXT NOT NULL, wave INTEGER NOT NULL, step INTEGER "
    "NOT NULL, week TEXT NOT NULL, straight_kg REAL,"
    " straight_share REAL, bottom_kg REAL, top_kg REAL, mean_kg REAL, share REAL, sets INTEGER NOT NULL, lifts INTEGER "
    "NOT NULL,"
    " volume_straight_kg REAL, volume_mean_kg REAL, ar TEXT, over_straight_kg REAL, over_bottom_kg REAL, over_top_kg "
    "REAL,"
    " over_mean_kg REAL, over_volume_kg REAL, step_points REAL, over_ar_kg REAL, over_weight_kg REAL,"
    " PRIMARY KEY(lifter, lift, focus, wave, step)) STRICT, WITHOUT ROWID;"
    "CREATE TABLE findings(" EACH_LIFTER " id TEXT NOT NULL, lift TEXT NOT NULL, date TEXT NOT NULL, number INTEGER "
    "NOT NULL, severity TEXT NOT NULL, file TEXT NOT NULL,"
    " line INTEGER NOT NULL, value REAL, \"limit\" REAL, message TEXT NOT NULL, source TEXT NOT NULL,"
    " night INTEGER NOT NULL REFERENCES nights(id),"
    " PRIMARY KEY(lifter, id, lift, date, number)) STRICT, WITHOUT ROWID;"
    "CREATE TABLE refused(" EACH_LIFTER
    " row INTEGER NOT NULL, file TEXT, line INTEGER, \"column\" INTEGER, severity TEXT NOT NULL, id TEXT NOT NULL,"
    " message TEXT NOT NULL, hint TEXT, excerpt TEXT, PRIMARY KEY(lifter, row)) STRICT, WITHOUT ROWID;";

/* For the most frequent queries: one lift over time, what is new, who trained when. */
static const char version_2[] = "CREATE INDEX sets_by_date ON sets(date, lifter);"
                                "CREATE INDEX sets_by_lift ON sets(lift, lifter, date);"
                                "CREATE INDEX sets_by_file ON sets(lifter, file);"
                                "CREATE INDEX findings_by_night ON findings(night);";

/* A column marks the week of all lifts together, because a lift may have that name. The key's columns come first and
 * in the key's order: otherwise SQLite 3.40 takes an intact table for a damaged one. */
static const char version_3[] =
    "CREATE TABLE weeks_new(" EACH_LIFTER " lift TEXT NOT NULL, all_lifts INTEGER NOT NULL DEFAULT 0, week TEXT NOT "
    "NULL, days INTEGER NOT NULL, sets INTEGER NOT NULL, lifts INTEGER NOT NULL,"
    " volume_straight_kg REAL, volume_bottom_kg REAL, volume_top_kg REAL, volume_mean_kg REAL, intensity_straight REAL,"
    " intensity_mean REAL, peak_straight_kg REAL, peak_bottom_kg REAL, peak_top_kg REAL, inol REAL, lifts_to_55 REAL,"
    " lifts_55_70 REAL, lifts_70_80 REAL, lifts_80_90 REAL, lifts_90_up REAL, monotony REAL, strain REAL, acute_kg "
    "REAL,"
    " chronic_kg REAL, PRIMARY KEY(lifter, lift, all_lifts, week)) STRICT, WITHOUT ROWID;"
    "INSERT INTO weeks_new SELECT lifter, lift, lift = '*', week, days, sets, lifts, volume_straight_kg, "
    "volume_bottom_kg, volume_top_kg,"
    " volume_mean_kg, intensity_straight, intensity_mean, peak_straight_kg, peak_bottom_kg, peak_top_kg, inol, "
    "lifts_to_55, lifts_55_70,"
    " lifts_70_80, lifts_80_90, lifts_90_up, monotony, strain, acute_kg, chronic_kg FROM weeks;"
    "DROP TABLE weeks;"
    "ALTER TABLE weeks_new RENAME TO weeks;";

/* Sessions near the edge of a week may count in the adjacent week, and weeks far off their place are set aside. */
static const char version_4[] = "ALTER TABLE waves ADD COLUMN first_day TEXT;"
                                "ALTER TABLE waves ADD COLUMN last_day TEXT;"
                                "ALTER TABLE waves ADD COLUMN set_aside TEXT;";

/* Sets that differ only in their number become one row with a count: a year of one lifter then takes a fifth of the
 * space. The view `sets` lists them one by one, as before. Existing data is read again from the folders. */
static const char version_5[] =
    "DROP TABLE sets;"
    "CREATE TABLE numbers(n INTEGER PRIMARY KEY) STRICT;"
    "INSERT INTO numbers WITH RECURSIVE counted(n) AS (SELECT 0 UNION ALL SELECT n + 1 FROM counted WHERE n < 999) "
    "SELECT n FROM counted;"
    "CREATE TABLE set_rows(" EACH_LIFTER " row INTEGER NOT NULL, count INTEGER NOT NULL, file TEXT NOT NULL, line "
    "INTEGER NOT NULL, date TEXT NOT NULL, week TEXT NOT NULL,"
    " lift TEXT NOT NULL, focus TEXT, kind TEXT NOT NULL, \"set\" INTEGER NOT NULL, reps INTEGER NOT NULL, rpe REAL, "
    "rir REAL, velocity REAL,"
    " straight_kg REAL, bottom_kg REAL, top_kg REAL, mean_kg REAL, bottom_u_kg REAL, top_u_kg REAL, ar TEXT, one_rm_kg "
    "REAL,"
    " one_rm_from TEXT, share REAL, intensity REAL, e1rm_low_kg REAL, e1rm_high_kg REAL, assumed TEXT, note TEXT, "
    "lowering_top_kg REAL,"
    " PRIMARY KEY(lifter, row),"
    " FOREIGN KEY(lifter, file) REFERENCES files(lifter, path) ON DELETE CASCADE ON UPDATE CASCADE DEFERRABLE "
    "INITIALLY DEFERRED"
    ") STRICT, WITHOUT ROWID;"
    "CREATE VIEW sets AS SELECT r.lifter, r.row + n AS row, r.file, r.line, r.date, r.week, r.lift, r.focus, r.kind, "
    "r.\"set\" + n AS \"set\","
    " r.reps, r.rpe, r.rir, r.velocity, r.straight_kg, r.bottom_kg, r.top_kg, r.mean_kg, r.bottom_u_kg, r.top_u_kg, "
    "r.ar, r.one_rm_kg,"
    " r.one_rm_from, r.share, r.intensity, r.e1rm_low_kg, r.e1rm_high_kg, r.assumed, r.note, r.lowering_top_kg"
    " FROM set_rows AS r CROSS JOIN numbers ON n < r.count;"
    "CREATE INDEX sets_by_date ON set_rows(date, lifter);"
    "CREATE INDEX sets_by_lift ON set_rows(lift, lifter, date);"
    "CREATE INDEX weeks_of_all ON weeks(week, lifter, lifts, volume_mean_kg) WHERE all_lifts;"
    "UPDATE lifters SET results = '';";

static const char *const written[] = {version_1, version_2, version_3, version_4, version_5};
#define WRITTEN (sizeof written / sizeof *written)

/* --- migrations behind those: columns that were added to the lists of src/columns ----------------------------------- */

struct store_column
{
    size_t since; /* the first version that has it */
    const char *name, *type;
};

#define TYPE_name "TEXT"
#define TYPE_text "TEXT"
#define TYPE_day "TEXT"
#define TYPE_week "TEXT"
#define TYPE_count "INTEGER"
#define TYPE_number "REAL"
#define TYPE_load "REAL"

#define COLUMN(since, name, title, quantity, decimals, kind, ...) {since, name, TYPE_##kind},
static const struct store_column of_sets[] = {
#include "columns/loads.def"
};
#define COLUMN(since, name, title, quantity, decimals, kind, ...) {since, name, TYPE_##kind},
static const struct store_column of_weeks[] = {
#include "columns/trend.def"
};
#define COLUMN(since, name, title, quantity, decimals, kind, ...) {since, name, TYPE_##kind},
static const struct store_column of_waves[] = {
#include "columns/waves.def"
};

static const struct
{
    const char *name;
    const struct store_column *columns;
    size_t count;
} tables[] = {{"set_rows", of_sets, sizeof of_sets / sizeof *of_sets},
              {"weeks", of_weeks, sizeof of_weeks / sizeof *of_weeks},
              {"waves", of_waves, sizeof of_waves / sizeof *of_waves}};
#define TABLES (sizeof tables / sizeof *tables)

size_t store_version(void)
{
    size_t newest = WRITTEN;
    for (size_t i = 0; i < TABLES; i++)
        for (size_t k = 0; k < tables[i].count; k++)
            if (tables[i].columns[k].since > newest)
                newest = tables[i].columns[k].since;
    return newest;
}

/* The view `sets`, one by one, from set_rows. */
static void view_sets(struct output *sql, size_t version)
{
    output_text(sql, "DROP VIEW sets;CREATE VIEW sets AS SELECT r.lifter, r.row + n AS row");
    for (size_t i = 0; i < sizeof of_sets / sizeof *of_sets; i++) {
        const char *name = of_sets[i].name;
        if (of_sets[i].since > version || !strcmp(name, "lifter"))
            continue;
        output_printf(sql, !strcmp(name, "set") ? ", r.\"%s\" + n AS \"%s\"" : ", r.\"%s\" AS \"%s\"", name, name);
    }
    output_text(sql, " FROM set_rows AS r CROSS JOIN numbers ON n < r.count;");
}

const char *store_migration(struct arena *arena, size_t version)
{
    if (version <= WRITTEN)
        return written[version - 1];
    struct output *sql = output_to_memory(arena);
    for (size_t i = 0; i < TABLES; i++)
        for (size_t k = 0; k < tables[i].count; k++)
            if (tables[i].columns[k].since == version)
                output_printf(sql, "ALTER TABLE %s ADD COLUMN \"%s\" %s;", tables[i].name, tables[i].columns[k].name,
                              tables[i].columns[k].type);
    view_sets(sql, version);
    output_text(sql, "UPDATE lifters SET results = '';"); /* makes the next run read all folders again */
    return output_memory(sql, NULL);
}

/* The newest version's most expensive indexes to maintain while a whole store is filled. */
const char store_drop_indexes[] = "DROP INDEX sets_by_date; DROP INDEX sets_by_lift; DROP INDEX weeks_of_all;";
const char store_make_indexes[] =
    "CREATE INDEX sets_by_date ON set_rows(date, lifter);"
    "CREATE INDEX sets_by_lift ON set_rows(lift, lifter, date);"
    "CREATE INDEX weeks_of_all ON weeks(week, lifter, lifts, volume_mean_kg) WHERE all_lifts;";
