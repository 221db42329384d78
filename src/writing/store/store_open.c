#include "writing/store/store_open.h"

#include "writing/output.h"
#include "writing/store/store_parts.h"
#include "writing/store/store_schema.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define APPLICATION_ID 0x7461756c /* "taul": tells file(1) and others whose file this is */
#define WAIT_MS 10000             /* while a reader has the file locked */
#define STEPS_BETWEEN_LOOKS 100000
#define NAME_TRIES 1000

static void note_check(void *context, const char *const *cells)
{
    struct store *store = context;
    if (strcmp(cells[0], "ok") != 0)
        store_fail(store, STORE_DAMAGED, cells[0]);
}

/* Migrates from the file's version to ours, step by step, all or nothing. */
static void migrate(struct store *store)
{
    int64_t version = store_number(store, "PRAGMA user_version", NULL, 0);
    size_t newest = store_version();
    if (store->fault != STORE_SOUND || version == (int64_t)newest)
        return;
    if (version < 0 || version > (int64_t)newest) {
        store_fail(store, STORE_NEWER, "it was made by a newer version of tautline");
        return;
    }
    store_begin(store);
    for (size_t i = (size_t)version + 1; i <= newest; i++)
        store_run(store, store_migration(store->arena, i));
    store_run(store, arena_printf(store->arena, "PRAGMA application_id = %d", APPLICATION_ID));
    store_run(store, arena_printf(store->arena, "PRAGMA user_version = %zu", newest));
    if (!store_commit(store))
        sqlite3_exec(store->database, "ROLLBACK", NULL, NULL, NULL);
    store->open_transaction = false;
}

/* --- a file that others may have written to ----------------------------------------------------------------------- */

/* Invariant: nothing in a schema runs that is not ours, and no statement can keep us busy for ever. */
static void harden(struct store *store)
{
    static const struct
    {
        int limit, most;
    } limits[] = {{SQLITE_LIMIT_LENGTH, 64 * 1024 * 1024},
                  {SQLITE_LIMIT_SQL_LENGTH, 64 * 1024},
                  {SQLITE_LIMIT_COLUMN, 100},
                  {SQLITE_LIMIT_EXPR_DEPTH, 50},
                  {SQLITE_LIMIT_COMPOUND_SELECT, 10},
                  {SQLITE_LIMIT_VDBE_OP, 100000},
                  {SQLITE_LIMIT_FUNCTION_ARG, 20},
                  {SQLITE_LIMIT_ATTACHED, 0},
                  {SQLITE_LIMIT_LIKE_PATTERN_LENGTH, 100},
                  {SQLITE_LIMIT_TRIGGER_DEPTH, 10},
                  {SQLITE_LIMIT_WORKER_THREADS, 0}};
    for (size_t i = 0; i < sizeof limits / sizeof *limits; i++)
        sqlite3_limit(store->database, limits[i].limit, limits[i].most);
    sqlite3_db_config(store->database, SQLITE_DBCONFIG_DEFENSIVE, 1, NULL);
    sqlite3_db_config(store->database, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, NULL);
    sqlite3_db_config(store->database, SQLITE_DBCONFIG_ENABLE_TRIGGER, 0, NULL);
    sqlite3_progress_handler(store->database, STEPS_BETWEEN_LOOKS, store_is_late, store);
}

static void add_schema_row(void *context, const char *const *cells)
{
    struct output *text = context;
    for (int i = 0; i < 4; i++)
        output_printf(text, "%s\n", cells[i]);
}

static const char *schema_of(struct store *store)
{
    struct output *text = output_to_memory(store->arena);
    store_ask(store,
              "SELECT type, name, tbl_name, sql FROM sqlite_schema WHERE name NOT LIKE 'sqlite\\_%' ESCAPE '\\' ORDER "
              "BY 1, 2",
              NULL, 0, add_schema_row, text);
    return output_memory(text, NULL);
}

/* The schema that the migrations up to a version create in an empty file. */
static const char *schema_wanted(struct arena *arena, size_t version)
{
    struct store *fresh = ARENA_NEW(arena, struct store);
    fresh->arena = arena;
    fresh->message = "";
    fresh->statements = map_new(arena);
    if (sqlite3_open_v2(":memory:", &fresh->database, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_MEMORY,
                        NULL) != SQLITE_OK)
        arena_out_of_memory(0);
    for (size_t i = 1; i <= version; i++)
        store_run(fresh, store_migration(arena, i));
    const char *schema = schema_of(fresh);
    store_close(fresh);
    return schema;
}

/* Runs before anything in the file is used. Another program's file is left alone; ours counts as damaged if it holds
 * anything that we did not put there. */
static void check_schema(struct store *store)
{
    int64_t version = store_number(store, "PRAGMA user_version", NULL, 0),
            id = store_number(store, "PRAGMA application_id", NULL, 0);
    const char *schema = schema_of(store);
    if (store->fault != STORE_SOUND || (!*schema && !version && !id) || version < 0 ||
        version > (int64_t)store_version())
        return;
    bool same = !strcmp(schema, schema_wanted(store->arena, (size_t)version));
    if (!same && id != APPLICATION_ID)
        store_fail(store, STORE_FAILED, "it is another program's database: it is left alone");
    else if (!same)
        store_fail(store, STORE_DAMAGED, "its schema is not the one that tautline made");
}

/* Refuses links and pipes, both for the file and for those that SQLite keeps next to it. */
static bool is_plain(const char *path)
{
    struct stat status;
    if (!lstat(path, &status))
        return S_ISREG(status.st_mode);
    return errno == ENOENT;
}

static bool all_plain(struct store *store, const char *path)
{
    static const char *const endings[] = {"", "-wal", "-shm", "-journal"};
    for (size_t i = 0; i < sizeof endings / sizeof *endings; i++)
        if (!is_plain(arena_printf(store->arena, "%s%s", path, endings[i])))
            return store_fail(
                store, STORE_FAILED,
                arena_printf(store->arena, "%s%s is a link or a pipe and is not opened", path, endings[i]));
    return true;
}

/* SQLite either refuses every link on the path or none. A link to the folder is the user's own, so the folder is
 * resolved first. */
static const char *real_path(struct arena *arena, const char *path)
{
    const char *slash = strrchr(path, '/');
    char *folder = realpath(slash ? arena_text(arena, path, (size_t)(slash - path) + 1) : ".", NULL);
    const char *real = folder ? arena_printf(arena, "%s/%s", folder, slash ? slash + 1 : path) : path;
    free(folder);
    return real;
}

static struct store *begin(struct arena *arena, const char *path)
{
    struct store *store = ARENA_NEW(arena, struct store);
    store->arena = arena;
    store->message = "";
    store->statements = map_new(arena);
    if (!all_plain(store, path))
        return store;
    if (sqlite3_open_v2(real_path(arena, path), &store->database,
                        SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_NOFOLLOW, NULL) != SQLITE_OK) {
        store_failed(store);
        return store;
    }
    sqlite3_extended_result_codes(store->database, 1);
    sqlite3_busy_timeout(store->database, WAIT_MS);
    harden(store);
    check_schema(store);
    return store;
}

struct store *store_build(struct arena *arena, const char *path)
{
    static const char *const endings[] = {"", "-wal", "-shm", "-journal"};
    for (size_t i = 0; i < sizeof endings / sizeof *endings; i++)
        unlink(arena_printf(arena, "%s%s", path, endings[i])); /* left by a run that was killed */
    struct store *store = begin(arena, path);
    store_run(store, "PRAGMA journal_mode = MEMORY");
    store_run(store, "PRAGMA synchronous = OFF");
    store_run(store, "PRAGMA cache_size = -16000");
    migrate(store);
    store_run(store, store_drop_indexes);
    return store;
}

static bool sync_file(const char *path)
{
    int file = open(path, O_RDONLY | O_NOFOLLOW | O_CLOEXEC);
    bool synced = file >= 0 && !fsync(file);
    if (file >= 0)
        close(file);
    return synced;
}

bool store_built(struct store *store, const char *path, const char *final)
{
    static const char *const endings[] = {"-wal", "-shm", "-journal"};
    bool good = store_run(store, store_make_indexes) && store_run(store, "PRAGMA journal_mode = WAL");
    const char *message = store->message;
    store_close(store);
    store->message = message;
    if (!good || !sync_file(path)) {
        unlink(path);
        return false;
    }
    for (size_t i = 0; i < sizeof endings / sizeof *endings; i++) /* an old journal must not meet the new file */
        unlink(arena_printf(store->arena, "%s%s", final, endings[i]));
    return !rename(path, final);
}

struct store *store_open(struct arena *arena, const char *path, bool checked)
{
    struct store *store = begin(arena, path);
    store_run(store, "PRAGMA journal_mode = WAL");
    store_run(store, "PRAGMA wal_autocheckpoint = 16000");
    store_run(store, "PRAGMA cache_size = -16000"); /* else pages are written again and again within a transaction */
    store_run(store,
              "PRAGMA synchronous = NORMAL"); /* what a power cut loses is noticed and read in again the next night */
    if (!checked)
        store_ask(store, "PRAGMA quick_check(1)", NULL, 0, note_check, store);
    migrate(store);
    store_run(store, "PRAGMA foreign_keys = ON");
    return store;
}

const char *store_set_aside(struct arena *arena, const char *path)
{
    static const char *const endings[] = {"-wal", "-shm"};
    for (int i = 1; i < NAME_TRIES; i++) {
        const char *aside = arena_printf(arena, "%s.damaged-%d", path, i);
        if (!access(aside, F_OK))
            continue;
        if (rename(path, aside))
            return NULL;
        for (size_t j = 0; j < sizeof endings / sizeof *endings; j++) /* an old journal must not meet the new file */
            rename(arena_printf(arena, "%s%s", path, endings[j]), arena_printf(arena, "%s%s", aside, endings[j]));
        return aside;
    }
    errno = EEXIST;
    return NULL;
}
