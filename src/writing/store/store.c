#include "writing/store/store.h"

#include "base/names.h"
#include "writing/store/store_schema.h"

#include <errno.h>
#include <sqlite3.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#define APPLICATION_ID 0x7461756c /* "taul": file(1) and others can tell whose file this is */
#define WAIT_MS 10000             /* for a reader that holds the file */
#define MOST_CELLS 64
#define NAME_TRIES 1000

struct store
{
    struct arena *arena;
    sqlite3 *database;
    enum store_fault fault;
    const char *message;
    struct map *statements; /* by the address of their text */
    LIST(sqlite3_stmt *) prepared;
    bool open_transaction;
};

struct store_insert
{
    struct store *store;
    sqlite3_stmt *statement;
    size_t count;
};

static bool fail(struct store *store, enum store_fault fault, const char *message)
{
    if (store->fault == STORE_SOUND) {
        store->fault = fault;
        store->message = arena_copy(store->arena, message);
    }
    return false;
}

/* What SQLite's last answer means. */
static bool failed(struct store *store)
{
    int code = sqlite3_errcode(store->database) & 0xff;
    bool damaged = code == SQLITE_CORRUPT || code == SQLITE_NOTADB;
    return fail(store, damaged ? STORE_DAMAGED : STORE_FAILED, sqlite3_errmsg(store->database));
}

static bool run(struct store *store, const char *sql)
{
    if (store->fault != STORE_SOUND)
        return false;
    return sqlite3_exec(store->database, sql, NULL, NULL, NULL) == SQLITE_OK || failed(store);
}

static sqlite3_stmt *prepared(struct store *store, const char *sql)
{
    sqlite3_stmt *statement = map_get(store->statements, (const char *)&sql, sizeof sql);
    if (statement)
        return statement;
    if (sqlite3_prepare_v3(store->database, sql, -1, SQLITE_PREPARE_PERSISTENT, &statement, NULL) != SQLITE_OK) {
        failed(store);
        return NULL;
    }
    map_put(store->statements, (const char *)&sql, sizeof sql, statement);
    *LIST_ADD(store->arena, &store->prepared) = statement;
    return statement;
}

static void bind(sqlite3_stmt *statement, const char *const *values, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (values[i] && *values[i])
            sqlite3_bind_text(statement, (int)i + 1, values[i], -1, SQLITE_STATIC);
        else
            sqlite3_bind_null(statement, (int)i + 1);
    }
}

static bool step_to_end(struct store *store, sqlite3_stmt *statement)
{
    int code;
    while ((code = sqlite3_step(statement)) == SQLITE_ROW)
        continue;
    if (code != SQLITE_DONE)
        failed(store);
    sqlite3_reset(statement);
    sqlite3_clear_bindings(statement);
    return code == SQLITE_DONE;
}

bool store_do(struct store *store, const char *sql, const char *const *values, size_t count)
{
    sqlite3_stmt *statement = store->fault == STORE_SOUND ? prepared(store, sql) : NULL;
    if (!statement)
        return false;
    bind(statement, values, count);
    return step_to_end(store, statement);
}

struct store_insert *store_insert_into(struct store *store, const char *table, const char *const *names, size_t count)
{
    struct store_insert *insert = ARENA_NEW(store->arena, struct store_insert);
    *insert = (struct store_insert){.store = store, .count = count};
    if (store->fault != STORE_SOUND)
        return insert;
    char *list = sqlite3_mprintf(""), *marks = sqlite3_mprintf("");
    for (size_t i = 0; i < count; i++) {
        list = sqlite3_mprintf("%z%s\"%w\"", list, i ? "," : "", names[i]);
        marks = sqlite3_mprintf("%z%s?", marks, i ? "," : "");
    }
    char *sql = sqlite3_mprintf("INSERT INTO \"%w\"(%z) VALUES(%z)", table, list, marks);
    if (sqlite3_prepare_v2(store->database, sql, -1, &insert->statement, NULL) != SQLITE_OK)
        failed(store);
    sqlite3_free(sql);
    return insert;
}

bool store_insert_row(struct store_insert *insert, const char *const *values)
{
    if (insert->store->fault != STORE_SOUND || !insert->statement)
        return false;
    bind(insert->statement, values, insert->count);
    return step_to_end(insert->store, insert->statement);
}

void store_insert_end(struct store_insert *insert)
{
    sqlite3_finalize(insert->statement);
    insert->statement = NULL;
}

static const char *cell_of(sqlite3_stmt *statement, int column)
{
    const char *text = (const char *)sqlite3_column_text(statement, column);
    return text ? text : "";
}

bool store_ask(struct store *store, const char *sql, const char *const *values, size_t count, store_seen *seen, void *context)
{
    sqlite3_stmt *statement = store->fault == STORE_SOUND ? prepared(store, sql) : NULL;
    if (!statement)
        return false;
    const char *cells[MOST_CELLS] = {0};
    int code, columns = sqlite3_column_count(statement);
    bind(statement, values, count);
    while ((code = sqlite3_step(statement)) == SQLITE_ROW) {
        for (int i = 0; i < columns && i < MOST_CELLS; i++)
            cells[i] = cell_of(statement, i);
        seen(context, cells);
    }
    if (code != SQLITE_DONE)
        failed(store);
    sqlite3_reset(statement);
    sqlite3_clear_bindings(statement);
    return code == SQLITE_DONE;
}

int64_t store_number(struct store *store, const char *sql, const char *const *values, size_t count)
{
    sqlite3_stmt *statement = store->fault == STORE_SOUND ? prepared(store, sql) : NULL;
    if (!statement)
        return 0;
    bind(statement, values, count);
    int code = sqlite3_step(statement);
    int64_t number = code == SQLITE_ROW ? sqlite3_column_int64(statement, 0) : 0;
    if (code != SQLITE_ROW && code != SQLITE_DONE)
        failed(store);
    sqlite3_reset(statement);
    sqlite3_clear_bindings(statement);
    return number;
}

/* --- transactions ------------------------------------------------------------------------------------------------- */

bool store_begin(struct store *store)
{
    store->open_transaction = run(store, "BEGIN IMMEDIATE");
    return store->open_transaction;
}

bool store_commit(struct store *store)
{
    bool done = run(store, "COMMIT");
    store->open_transaction &= !done;
    return done;
}

void store_undo(struct store *store)
{
    if (store->open_transaction)
        sqlite3_exec(store->database, "ROLLBACK", NULL, NULL, NULL);
    store->open_transaction = false;
    if (store->fault == STORE_FAILED)
        store->fault = STORE_SOUND;
}

/* --- opening ------------------------------------------------------------------------------------------------------ */

static void note_check(void *context, const char *const *cells)
{
    struct store *store = context;
    if (strcmp(cells[0], "ok") != 0)
        fail(store, STORE_DAMAGED, cells[0]);
}

/* From the version that the file has to ours, step by step, all or nothing. */
static void migrate(struct store *store)
{
    int64_t version = store_number(store, "PRAGMA user_version", NULL, 0);
    if (store->fault != STORE_SOUND || version == (int64_t)store_version)
        return;
    if (version < 0 || version > (int64_t)store_version) {
        fail(store, STORE_NEWER, "it was made by a newer version of tautline");
        return;
    }
    store_begin(store);
    for (size_t i = (size_t)version; i < store_version; i++)
        run(store, store_migrations[i]);
    run(store, arena_printf(store->arena, "PRAGMA application_id = %d", APPLICATION_ID));
    run(store, arena_printf(store->arena, "PRAGMA user_version = %zu", store_version));
    if (!store_commit(store))
        sqlite3_exec(store->database, "ROLLBACK", NULL, NULL, NULL);
    store->open_transaction = false;
}

struct store *store_open(struct arena *arena, const char *path)
{
    struct store *store = ARENA_NEW(arena, struct store);
    store->arena = arena;
    store->message = "";
    store->statements = map_new(arena);
    if (sqlite3_open_v2(path, &store->database, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, NULL) != SQLITE_OK) {
        failed(store);
        return store;
    }
    sqlite3_extended_result_codes(store->database, 1);
    sqlite3_busy_timeout(store->database, WAIT_MS);
    run(store, "PRAGMA journal_mode = WAL");
    run(store, "PRAGMA synchronous = NORMAL"); /* what a power cut takes back is seen and read in again the next night */
    store_ask(store, "PRAGMA quick_check(1)", NULL, 0, note_check, store);
    migrate(store);
    run(store, "PRAGMA foreign_keys = ON");
    return store;
}

void store_close(struct store *store)
{
    for (size_t i = 0; i < store->prepared.count; i++)
        sqlite3_finalize(store->prepared.items[i]);
    sqlite3_close(store->database);
    store->database = NULL;
    store->prepared.count = 0;
    fail(store, STORE_FAILED, "it is closed");
}

enum store_fault store_fault(const struct store *store)
{
    return store->fault;
}

const char *store_message(const struct store *store)
{
    return store->message;
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
        for (size_t j = 0; j < sizeof endings / sizeof *endings; j++) /* a journal must not meet the file made anew */
            rename(arena_printf(arena, "%s%s", path, endings[j]), arena_printf(arena, "%s%s", aside, endings[j]));
        return aside;
    }
    errno = EEXIST;
    return NULL;
}
