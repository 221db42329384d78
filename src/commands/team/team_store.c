#include "commands/team/team_store.h"

#include "commands/team/team_gather.h"

#include "base/text.h"

#include <config.h>
#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#define MOST_COLUMNS 48

static const char *clock_text(struct arena *arena)
{
    time_t now = time(NULL);
    struct tm parts;
    gmtime_r(&now, &parts);
    return arena_printf(arena, "%04d-%02d-%02dT%02d:%02d:%02dZ", parts.tm_year + 1900, parts.tm_mon + 1, parts.tm_mday, parts.tm_hour,
                        parts.tm_min, parts.tm_sec);
}

static const char *count_text(struct arena *arena, size_t count)
{
    return arena_printf(arena, "%zu", count);
}

/* --- CSV of a folder into the store ----------------------------------------------------------------------------------------- */

struct filling /* one table from one file */
{
    struct gathering *gathering;
    const char *table, *lifter; /* whose rows they are; NULL: each row says */
    bool has_row, has_lifter; /* columns that the file does not have: the row's number, the lifter */
    struct store_insert *insert;
    size_t columns, rows;
    const char *file; /* of the last set */
    struct map *numbers; /* of findings alike */
};

static const char *const *with_extras(const struct filling *filling, const struct csv_row *row, const char **values, const char *number,
                                      const char *lifter)
{
    size_t count = 0;
    for (size_t i = 0; i < filling->columns; i++)
        values[count++] = i < row->count ? row->cells[i] : NULL;
    if (filling->has_row)
        values[count++] = number;
    if (filling->has_lifter)
        values[count++] = lifter;
    return values;
}

/* A set's file is among the lifter's files even if its name is no UTF-8 and stands there in another spelling. */
static void know_file(struct filling *filling, const char *file)
{
    const char *values[] = {filling->lifter, file};
    if (filling->file && !strcmp(filling->file, file))
        return;
    filling->file = arena_copy(filling->gathering->arena, file);
    store_do(filling->gathering->store, "INSERT INTO files(lifter, path, digest, bytes) VALUES(?, ?, '-', 0) ON CONFLICT DO NOTHING", values, 2);
}

static bool fill_row(void *context, const struct csv_row *row)
{
    struct filling *filling = context;
    const char *values[MOST_COLUMNS + 2];
    char number[24];
    snprintf(number, sizeof number, "%zu", filling->rows++);
    if (!filling->insert) {
        filling->columns = row->count < MOST_COLUMNS ? row->count : MOST_COLUMNS;
        size_t count = filling->columns + filling->has_row + filling->has_lifter;
        filling->insert = store_insert_into(filling->gathering->store, filling->table, with_extras(filling, row, values, "row", "lifter"), count);
        return true;
    }
    if (!strcmp(filling->table, "sets"))
        know_file(filling, row->cells[0]);
    return store_insert_row(filling->insert, with_extras(filling, row, values, number, filling->lifter));
}

/* A finding that was there keeps its night. Alike ones of one day are told apart by their number. */
static bool fill_finding(void *context, const struct csv_row *row)
{
    struct filling *filling = context;
    struct arena *arena = filling->gathering->arena;
    if (!filling->rows++ || row->count < 11)
        return true;
    const char *lifter = filling->lifter ? filling->lifter : row->cells[2];
    const char *key = arena_printf(arena, "%s\n%s\n%s\n%s", lifter, row->cells[0], row->cells[3], row->cells[4]);
    uintptr_t number = (uintptr_t)map_get(filling->numbers, key, strlen(key)) + 1;
    map_put(filling->numbers, key, strlen(key), (void *)number);
    const char *values[13];
    for (size_t i = 0; i < 11; i++)
        values[i] = row->cells[i];
    values[2] = lifter;
    values[11] = count_text(arena, number);
    values[12] = filling->gathering->night;
    if (!filling->lifter)
        store_do(filling->gathering->store,
                 "INSERT INTO lifters(name, folder, results, sets, refused) VALUES(?, '', '', 0, 0) ON CONFLICT DO NOTHING", &lifter, 1);
    return store_do(filling->gathering->store,
                    "INSERT INTO findings(id, severity, lifter, lift, date, file, line, value, \"limit\", message, source, number, night)"
                    " VALUES(?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)"
                    " ON CONFLICT(lifter, id, lift, date, number) DO UPDATE SET severity = excluded.severity, file = excluded.file,"
                    " line = excluded.line, value = excluded.value, \"limit\" = excluded.\"limit\", message = excluded.message,"
                    " source = excluded.source",
                    values, 13);
}

static bool fill(struct gathering *gathering, const struct team_lifter *lifter, const char *table, const char *file, bool has_row, bool has_lifter)
{
    struct filling filling = {.gathering = gathering, .table = table, .lifter = lifter->block->name, .has_row = has_row, .has_lifter = has_lifter};
    bool good = gather_read(gathering, arena_printf(gathering->arena, "%s/%s", lifter->path, file), fill_row, &filling);
    if (filling.insert)
        store_insert_end(filling.insert);
    return good && store_fault(gathering->store) == STORE_SOUND;
}

static bool fill_findings(struct gathering *gathering, const struct team_lifter *lifter)
{
    const char *name = lifter->block->name;
    struct filling filling = {.gathering = gathering, .lifter = name, .numbers = map_new(gathering->arena)};
    store_do(gathering->store, "UPDATE findings SET line = -1 WHERE lifter = ?", &name, 1);
    bool good = gather_read(gathering, arena_printf(gathering->arena, "%s/findings.csv", lifter->path), fill_finding, &filling);
    store_do(gathering->store, "DELETE FROM findings WHERE lifter = ? AND line = -1", &name, 1);
    return good && store_fault(gathering->store) == STORE_SOUND;
}

static void fill_lifter(struct gathering *gathering, const struct team_lifter *lifter)
{
    struct arena *arena = gathering->arena;
    const struct team_state *state = lifter->state;
    const char *name = lifter->block->name;
    const char *values[] = {name, lifter->folder, state->results, count_text(arena, state->sets), count_text(arena, state->refused), state->first, state->last};
    store_do(gathering->store,
             "INSERT INTO lifters(name, folder, results, sets, refused, first, last) VALUES(?, ?, ?, ?, ?, ?, ?)"
             " ON CONFLICT(name) DO UPDATE SET folder = excluded.folder, results = excluded.results, sets = excluded.sets,"
             " refused = excluded.refused, first = excluded.first, last = excluded.last",
             values, 7);
    store_do(gathering->store, "DELETE FROM files WHERE lifter = ?", &name, 1); /* and with them their sets */
    store_do(gathering->store, "DELETE FROM sets WHERE lifter = ?", &name, 1);
    store_do(gathering->store, "DELETE FROM weeks WHERE lifter = ?", &name, 1);
    store_do(gathering->store, "DELETE FROM waves WHERE lifter = ?", &name, 1);
    store_do(gathering->store, "DELETE FROM refused WHERE lifter = ?", &name, 1);
    for (size_t i = 0; i < state->files.count; i++) {
        const char *file[] = {name, state->files.items[i].path, state->files.items[i].digest, count_text(arena, (size_t)state->files.items[i].bytes)};
        store_do(gathering->store,
                 "INSERT INTO files(lifter, path, digest, bytes) VALUES(?, ?, ?, ?)"
                 " ON CONFLICT(lifter, path) DO UPDATE SET digest = excluded.digest, bytes = excluded.bytes",
                 file, 4);
    }
}

static void note_results(void *context, const char *const *cells)
{
    *(bool *)context = !strcmp(cells[0], cells[1]);
}

void gather_lifter(struct gathering *gathering, struct team_lifter *lifter)
{
    struct store *store = gathering->store;
    const char *values[] = {lifter->state ? lifter->state->results : "", lifter->block->name};
    bool known = false;
    if (!lifter->state || !*lifter->state->results || store_fault(store) != STORE_SOUND)
        return;
    store_ask(store, "SELECT ?, results FROM lifters WHERE name = ?", values, 2, note_results, &known);
    if (known || !store_begin(store))
        return;
    fill_lifter(gathering, lifter);
    bool good = fill(gathering, lifter, "sets", "loads.csv", true, false) && fill(gathering, lifter, "weeks", "trend.csv", false, false) &&
                fill(gathering, lifter, "waves", "waves.csv", false, false) && fill(gathering, lifter, "refused", "refused.csv", true, true) &&
                fill_findings(gathering, lifter) && store_commit(store);
    if (good)
        return;
    gather_say(gathering, gathering->path, arena_printf(gathering->arena, "%s was not taken in: %s", lifter->block->name, store_message(store)));
    store_undo(store);
}

/* --- the store as a whole --------------------------------------------------------------------------------------------------- */

static void start_night(struct gathering *gathering)
{
    struct store *store = gathering->store;
    char today[16];
    date_print(today, gathering->team->today);
    const char *values[] = {clock_text(gathering->arena), today, PACKAGE_VERSION};
    /* A night that was cut short is gone on with, so that what is new stays new until a night is finished. */
    store_do(store,
             "INSERT INTO nights(id, started, today, version) SELECT (SELECT coalesce(max(id), 0) + 1 FROM nights), ?, ?, ?"
             " WHERE NOT EXISTS (SELECT 1 FROM nights WHERE finished IS NULL)",
             values, 3);
    gathering->night = count_text(gathering->arena, (size_t)store_number(store, "SELECT max(id) FROM nights WHERE finished IS NULL", NULL, 0));
    gathering->page.first_night = !strcmp(gathering->night, "1");
}

/* The store mirrors the gym file: who left it leaves the store; the folder stays. */
struct leaving
{
    struct gathering *gathering;
    struct map *folders;
    LIST(const char *) names;
};

static void note_leaving(void *context, const char *const *cells)
{
    struct leaving *leaving = context;
    const struct lifter *lifter = gym_lifter(leaving->gathering->team->gym, cells[0]);
    if (!lifter || strcmp(lifter->name, cells[0]) != 0)
        *LIST_ADD(leaving->gathering->arena, &leaving->names) = arena_copy(leaving->gathering->arena, cells[0]);
}

static void drop_leaving(struct gathering *gathering)
{
    struct leaving leaving = {.gathering = gathering};
    store_ask(gathering->store, "SELECT name FROM lifters", NULL, 0, note_leaving, &leaving);
    for (size_t i = 0; i < leaving.names.count; i++)
        store_do(gathering->store, "DELETE FROM lifters WHERE name = ?", &leaving.names.items[i], 1);
}

/* A store made anew would take every finding for a new one. findings.csv still tells those of the last night: they go in under a night
 * of which no more is known. */
static void recall_findings(struct gathering *gathering)
{
    struct store *store = gathering->store;
    const char *path = arena_printf(gathering->arena, "%s/findings.csv", gathering->team->into);
    if (store_fault(store) != STORE_SOUND || access(path, R_OK) || store_number(store, "SELECT count(*) FROM nights", NULL, 0) || !store_begin(store))
        return;
    struct filling filling = {.gathering = gathering, .numbers = map_new(gathering->arena)};
    start_night(gathering);
    const char *finished = clock_text(gathering->arena);
    bool good = gather_read(gathering, path, fill_finding, &filling) && store_do(store, "UPDATE nights SET finished = ?", &finished, 1) &&
                store_commit(store);
    if (!good)
        store_undo(store);
}

void team_store_open(struct gathering *gathering)
{
    gathering->store = store_open(gathering->arena, gathering->path);
    if (store_fault(gathering->store) == STORE_DAMAGED) {
        const char *message = text_squeeze(gathering->arena, store_message(gathering->store));
        store_close(gathering->store);
        const char *aside = store_set_aside(gathering->arena, gathering->path);
        fprintf(stderr, "tautline: %s is damaged (%s): %s\n", text_visible(gathering->arena, gathering->path), message,
                aside ? arena_printf(gathering->arena, "it is set aside as %s and made anew", aside)
                      : arena_printf(gathering->arena, "it cannot be set aside: %s", strerror(errno)));
        gathering->store = store_open(gathering->arena, gathering->path);
    }
    if (store_fault(gathering->store) != STORE_SOUND)
        gather_say(gathering, gathering->path, store_message(gathering->store));
    recall_findings(gathering);
    start_night(gathering);
    drop_leaving(gathering);
}

static void note_fresh(void *context, const char *const *cells)
{
    struct gathering *gathering = context;
    struct arena *arena = gathering->arena;
    *LIST_ADD(arena, &gathering->page.fresh) =
        (struct team_finding){arena_copy(arena, cells[0]), arena_copy(arena, cells[1]), arena_copy(arena, cells[2]),
                              arena_copy(arena, cells[3]), arena_copy(arena, cells[4]), arena_copy(arena, cells[5])};
    for (size_t i = 0; i < gathering->team->count; i++)
        gathering->team->lifters[i].new_findings += !strcmp(gathering->team->lifters[i].block->name, cells[0]);
}

void team_store_fresh(struct gathering *gathering)
{
    store_ask(gathering->store, "SELECT lifter, lift, date, severity, id, message FROM findings WHERE night = ? ORDER BY 1, 2, 3, 5, number",
              &gathering->night, 1, note_fresh, gathering);
}

void team_store_finish(struct gathering *gathering)
{
    struct arena *arena = gathering->arena;
    size_t counts[WORK_FAILED + 1] = {0};
    for (size_t i = 0; i < gathering->team->count; i++)
        counts[gathering->team->lifters[i].work]++;
    const char *values[] = {clock_text(arena),
                            count_text(arena, gathering->team->count),
                            count_text(arena, counts[WORK_DONE]),
                            count_text(arena, counts[WORK_UNCHANGED]),
                            count_text(arena, counts[WORK_FAILED]),
                            count_text(arena, gathering->page.refused),
                            count_text(arena, gathering->page.fresh.count),
                            gathering->night};
    if (store_fault(gathering->store) == STORE_SOUND)
        store_do(gathering->store,
                 "UPDATE nights SET finished = ?, lifters = ?, computed = ?, unchanged = ?, failed = ?, refused = ?, new_findings = ? WHERE id = ?",
                 values, 8);
    if (store_fault(gathering->store) != STORE_SOUND && gathering->good)
        gather_say(gathering, gathering->path, store_message(gathering->store));
    store_close(gathering->store);
}

void team_store_fill(struct gathering *gathering)
{
    for (size_t i = 0; i < gathering->team->count; i++)
        gather_lifter(gathering, &gathering->team->lifters[i]);
    if (store_fault(gathering->store) != STORE_DAMAGED)
        return;
    store_close(gathering->store); /* the damage showed only now */
    team_store_open(gathering);
    for (size_t i = 0; i < gathering->team->count; i++)
        gather_lifter(gathering, &gathering->team->lifters[i]);
}
