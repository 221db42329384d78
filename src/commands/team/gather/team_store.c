#include "commands/team/gather/team_store.h"

#include "base/system.h"
#include "base/text.h"
#include "commands/team/gather/team_fill.h"
#include "commands/team/gather/team_gather.h"
#include "commands/team/team_below.h"
#include "writing/store/store_open.h"

#include <config.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#define LIFTERS_AT_A_TIME 64 /* per transaction: database pages that they share are then written once */

static const char *clock_text(struct arena *arena)
{
    time_t now = time(NULL);
    struct tm parts;
    gmtime_r(&now, &parts);
    return arena_printf(arena, "%04d-%02d-%02dT%02d:%02d:%02dZ", parts.tm_year + 1900, parts.tm_mon + 1, parts.tm_mday,
                        parts.tm_hour, parts.tm_min, parts.tm_sec);
}

static const char *count_text(struct arena *arena, size_t count)
{
    return arena_printf(arena, "%zu", count);
}

/* --- opening ------------------------------------------------------------------------------------------------------------------ */

static void start_night(struct gathering *gathering)
{
    struct store *store = gathering->store;
    char today[16];
    date_print(today, gathering->team->today);
    const char *values[] = {clock_text(gathering->arena), today, PACKAGE_VERSION};
    /* A night that was cut short is continued under its own id, so that new findings stay new until a night
     * finishes. */
    store_do(
        store,
        "INSERT INTO nights(id, started, today, version) SELECT (SELECT coalesce(max(id), 0) + 1 FROM nights), ?, ?, ?"
        " WHERE NOT EXISTS (SELECT 1 FROM nights WHERE finished IS NULL)",
        values, 3);
    gathering->night = count_text(
        gathering->arena, (size_t)store_number(store, "SELECT max(id) FROM nights WHERE finished IS NULL", NULL, 0));
    gathering->page.first_night = !strcmp(gathering->night, "1");
}

/* The store mirrors the gym file: a lifter who leaves it is removed from the store; the folder stays. */
struct leaving
{
    struct gathering *gathering;
    struct map *blocks;
    LIST(const char *) names;
};

static void note_leaving(void *context, const char *const *cells)
{
    struct leaving *leaving = context;
    if (!map_get(leaving->blocks, cells[0], strlen(cells[0])))
        *LIST_ADD(leaving->gathering->arena, &leaving->names) = arena_copy(leaving->gathering->arena, cells[0]);
}

static void drop_leaving(struct gathering *gathering)
{
    const struct team *team = gathering->team;
    struct leaving leaving = {.gathering = gathering, .blocks = map_new(gathering->arena)};
    for (size_t i = 0; i < team->count; i++)
        map_put(leaving.blocks, team->lifters[i].block->name, strlen(team->lifters[i].block->name), &leaving);
    store_ask(gathering->store, "SELECT name FROM lifters", NULL, 0, note_leaving, &leaving);
    for (size_t i = 0; i < leaving.names.count; i++)
        store_do(gathering->store, "DELETE FROM lifters WHERE name = ?", &leaving.names.items[i], 1);
}

/* A store made anew would take every finding for a new one. findings.csv still tells those of the last night: they go
 * in under a night of which no more is known. */
static void recall_findings(struct gathering *gathering)
{
    struct store *store = gathering->store;
    if (store_fault(store) != STORE_SOUND || !gather_findings_stand(gathering) ||
        store_number(store, "SELECT count(*) FROM nights", NULL, 0) || !store_begin(store))
        return;
    start_night(gathering);
    const char *finished = clock_text(gathering->arena);
    if (!fill_recalled(gathering) || !store_do(store, "UPDATE nights SET finished = ?", &finished, 1) ||
        !store_commit(store))
        store_undo(store);
}

/* Identifies the file by inode, length and times: if they match, no other program has written to it. */
static const char *mark_of(struct gathering *gathering)
{
    struct stat status, log;
    bool has_log = !lstat(arena_printf(gathering->arena, "%s-wal", gathering->path), &log) && log.st_size;
    if (lstat(gathering->path, &status) || has_log)
        return "";
    return arena_printf(gathering->arena, "%llu %lld %lld", (unsigned long long)status.st_ino,
                        (long long)status.st_size, (long long)system_modified_ns(&status));
}

static void set_aside(struct gathering *gathering)
{
    struct arena *arena = gathering->arena;
    const char *message = text_squeeze(arena, store_message(gathering->store));
    store_close(gathering->store);
    const char *aside = store_set_aside(arena, gathering->path);
    gathering->page.store_trouble = arena_printf(
        arena, "%s is damaged (%s): %s", text_visible(arena, gathering->path), text_visible(arena, message),
        aside ? arena_printf(arena, "it is kept as %s and made again", text_visible(arena, aside))
              : arena_printf(arena, "it cannot be renamed: %s", strerror(errno)));
    fprintf(stderr, "tautline: %s\n", gathering->page.store_trouble);
}

static void build(struct gathering *gathering)
{
    gathering->store = store_build(gathering->arena, gathering->building);
    gathering->is_built = true;
}

void team_store_open(struct gathering *gathering)
{
    struct stat status;
    const char *slash = strrchr(gathering->path, '/');
    gathering->building = arena_printf(gathering->arena, "%.*s.%s.new", slash ? (int)(slash + 1 - gathering->path) : 0,
                                       gathering->path, slash ? slash + 1 : gathering->path);
    gathering->plans = map_new(gathering->arena);
    if (lstat(gathering->path, &status) && errno == ENOENT) {
        build(gathering);
    } else {
        const char *mark = mark_of(gathering);
        gathering->store = store_open(gathering->arena, gathering->path,
                                      *mark && !strcmp(mark, gathering->told->store));
        if (store_fault(gathering->store) == STORE_DAMAGED) {
            set_aside(gathering);
            build(gathering);
        }
    }
    recall_findings(gathering);
    start_night(gathering);
    drop_leaving(gathering);
}

/* --- filling ------------------------------------------------------------------------------------------------------------------ */

struct held /* what the store holds of a lifter */
{
    const char *results;
    struct digester *files;
    char files_digest[DIGEST_TEXT];
};

static void note_held(void *context, const char *const *cells)
{
    struct gathering *gathering = context;
    struct held *held = ARENA_NEW(gathering->arena, struct held);
    held->results = arena_copy(gathering->arena, cells[1]);
    map_put(gathering->held, cells[0], strlen(cells[0]), held);
}

static void note_held_file(void *context, const char *const *cells)
{
    struct gathering *gathering = context;
    struct held *held = map_get(gathering->held, cells[0], strlen(cells[0]));
    if (!held)
        return;
    held->files = held->files ? held->files : digester_new();
    digest_text(held->files, cells[1]);
    digest_text(held->files, cells[2]);
}

static int by_path(const void *left, const void *right)
{
    return strcmp(((const struct team_file *)left)->path, ((const struct team_file *)right)->path);
}

static bool same_files(struct held *held, struct team_state *state)
{
    char now[DIGEST_TEXT];
    struct digester *to = digester_new();
    if (state->files.count)
        qsort(state->files.items, state->files.count, sizeof *state->files.items, by_path);
    for (size_t i = 0; i < state->files.count; i++) {
        digest_text(to, state->files.items[i].path);
        digest_text(to, state->files.items[i].digest);
    }
    digester_end(to, now);
    if (held->files)
        digester_end(held->files, held->files_digest);
    held->files = NULL;
    return !strcmp(now, held->files_digest);
}

/* Decides what to take in for a lifter: nothing, only the files' digests, or everything. */
static bool take_in(struct gathering *gathering, const struct team_lifter *lifter)
{
    struct held *held = map_get(gathering->held, lifter->block->name, strlen(lifter->block->name));
    if (!held || strcmp(held->results, lifter->state->results) != 0)
        return fill_lifter(gathering, lifter);
    if (!same_files(held, lifter->state))
        fill_files(gathering, lifter);
    return store_fault(gathering->store) == STORE_SOUND;
}

static bool stands_in_store(struct gathering *gathering, const struct team_lifter *lifter)
{
    struct held *held = map_get(gathering->held, lifter->block->name, strlen(lifter->block->name));
    return held && !strcmp(held->results, lifter->state->results) && same_files(held, lifter->state);
}

static void fill_one(struct gathering *gathering, const struct team_lifter *lifter)
{
    struct store *store = gathering->store;
    if (!store_mark(store) || (take_in(gathering, lifter) && store_keep(store)))
        return;
    if (store_fault(store) == STORE_DAMAGED)
        return;
    gather_say(gathering, gathering->path,
               arena_printf(gathering->arena, "%s was not added: %s", lifter->block->name, store_message(store)));
    store_back(store);
}

static int by_name(const void *left, const void *right)
{
    return strcmp((*(const struct team_lifter *const *)left)->block->name,
                  (*(const struct team_lifter *const *)right)->block->name);
}

/* Fills in the order of the store's keys, so that each database page is written once. */
static void fill_all(struct gathering *gathering)
{
    struct team *team = gathering->team;
    const struct team_lifter **order = ARENA_ARRAY(gathering->arena, const struct team_lifter *, team->count + 1);
    size_t count = 0, done = 0;
    gathering->held = map_new(gathering->arena);
    store_ask(gathering->store, "SELECT name, results FROM lifters", NULL, 0, note_held, gathering);
    store_ask(gathering->store, "SELECT lifter, path, digest FROM files WHERE digest <> '-' ORDER BY lifter, path",
              NULL, 0, note_held_file, gathering);
    for (size_t i = 0; i < team->count; i++)
        if (team->lifters[i].state && *team->lifters[i].state->results &&
            !stands_in_store(gathering, &team->lifters[i]))
            order[count++] = &team->lifters[i];
    qsort(order, count, sizeof *order, by_name);
    while (done < count && store_fault(gathering->store) == STORE_SOUND && store_begin(gathering->store)) {
        for (size_t i = 0; i < LIFTERS_AT_A_TIME && done < count && store_fault(gathering->store) == STORE_SOUND; i++)
            fill_one(gathering, order[done++]);
        if (!store_commit(gathering->store))
            store_undo(gathering->store);
    }
    fill_end(gathering);
}

/* If damage shows only now, set the file aside and rebuild it, once. A row that violates a constraint also means
 * damage, because what the folders hold always satisfies them. */
void team_store_fill(struct gathering *gathering)
{
    fill_all(gathering);
    if (store_fault(gathering->store) != STORE_DAMAGED || gathering->is_built)
        return;
    set_aside(gathering);
    build(gathering);
    recall_findings(gathering);
    start_night(gathering);
    fill_all(gathering);
}

/* --- what is new ---------------------------------------------------------------------------------------------------------------- */

static void note_fresh(void *context, const char *const *cells)
{
    struct gathering *gathering = context;
    struct arena *arena = gathering->arena;
    gather_fresh(gathering, &(struct team_finding){arena_copy(arena, cells[0]), arena_copy(arena, cells[1]),
                                                   arena_copy(arena, cells[2]), arena_copy(arena, cells[3]),
                                                   arena_copy(arena, cells[4]), arena_copy(arena, cells[5])});
}

void team_store_fresh(struct gathering *gathering)
{
    store_ask(
        gathering->store,
        "SELECT lifter, lift, date, severity, id, message FROM findings WHERE night = ? ORDER BY 1, 2, 3, 5, number",
        &gathering->night, 1, note_fresh, gathering);
}

void team_store_finish(struct gathering *gathering)
{
    struct arena *arena = gathering->arena;
    size_t counts[WORKS] = {0};
    for (size_t i = 0; i < gathering->team->count; i++)
        counts[gathering->team->lifters[i].work]++;
    const char *values[] = {clock_text(arena),
                            count_text(arena, gathering->team->count),
                            count_text(arena, counts[WORK_DONE] + counts[WORK_UNDRAWN]),
                            count_text(arena, counts[WORK_UNCHANGED]),
                            count_text(arena, counts[WORK_FAILED] + counts[WORK_KEPT]),
                            count_text(arena, gathering->page.refused),
                            count_text(arena, gathering->page.fresh.count),
                            gathering->night};
    if (store_fault(gathering->store) == STORE_SOUND)
        store_do(gathering->store,
                 "UPDATE nights SET finished = ?, lifters = ?, computed = ?, unchanged = ?, failed = ?, refused = ?, "
                 "new_findings = ? WHERE id = ?",
                 values, 8);
    bool sound = store_fault(gathering->store) == STORE_SOUND;
    if (!sound && gathering->good)
        gather_say(gathering, gathering->path, store_message(gathering->store));
    if (sound && gathering->is_built && !store_built(gathering->store, gathering->building, gathering->path)) {
        gather_say(gathering, gathering->path,
                   *store_message(gathering->store) ? store_message(gathering->store) : strerror(errno));
        sound = false;
    }
    store_close(gathering->store);
    gathering->told->store = sound ? mark_of(gathering) : "";
}
