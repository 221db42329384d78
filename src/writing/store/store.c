#include "writing/store/store.h"

#include "base/clock.h"
#include "base/names.h"
#include "writing/store/store_parts.h"

#include <string.h>

#define STATEMENT_SECONDS 600.0 /* per statement: a file crafted to run for ever is given up */
#define MOST_CELLS 64

struct store_insert
{
    struct store *store;
    sqlite3_stmt *statement;
    size_t count;
};

bool store_fail(struct store *store, enum store_fault fault, const char *message)
{
    if (store->fault == STORE_SOUND) {
        store->fault = fault;
        store->message = arena_copy(store->arena, message);
    }
    return false;
}

/* What SQLite's last result code means. */
bool store_failed(struct store *store)
{
    int code = sqlite3_errcode(store->database) & 0xff;
    bool damaged = code == SQLITE_CORRUPT || code == SQLITE_NOTADB;
    return store_fail(store, damaged ? STORE_DAMAGED : STORE_FAILED, sqlite3_errmsg(store->database));
}

int store_is_late(void *context)
{
    const struct store *store = context;
    return clock_s() > store->deadline_s;
}

static void start_clock(struct store *store)
{
    store->deadline_s = clock_s() + STATEMENT_SECONDS;
}

bool store_run(struct store *store, const char *sql)
{
    if (store->fault != STORE_SOUND)
        return false;
    start_clock(store);
    return sqlite3_exec(store->database, sql, NULL, NULL, NULL) == SQLITE_OK || store_failed(store);
}

static sqlite3_stmt *prepared(struct store *store, const char *sql)
{
    sqlite3_stmt *statement = map_get(store->statements, (const char *)&sql, sizeof sql);
    if (statement)
        return statement;
    if (sqlite3_prepare_v3(store->database, sql, -1, SQLITE_PREPARE_PERSISTENT, &statement, NULL) != SQLITE_OK) {
        store_failed(store);
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
    start_clock(store);
    while ((code = sqlite3_step(statement)) == SQLITE_ROW)
        continue;
    if (code != SQLITE_DONE)
        store_failed(store);
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
        store_failed(store);
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

bool store_ask(struct store *store, const char *sql, const char *const *values, size_t count, store_seen *seen,
               void *context)
{
    sqlite3_stmt *statement = store->fault == STORE_SOUND ? prepared(store, sql) : NULL;
    if (!statement)
        return false;
    const char *cells[MOST_CELLS] = {0};
    int code, columns = sqlite3_column_count(statement);
    bind(statement, values, count);
    start_clock(store);
    while ((code = sqlite3_step(statement)) == SQLITE_ROW) {
        for (int i = 0; i < columns && i < MOST_CELLS; i++)
            cells[i] = cell_of(statement, i);
        seen(context, cells);
    }
    if (code != SQLITE_DONE)
        store_failed(store);
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
    start_clock(store);
    int code = sqlite3_step(statement);
    int64_t number = code == SQLITE_ROW ? sqlite3_column_int64(statement, 0) : 0;
    if (code != SQLITE_ROW && code != SQLITE_DONE)
        store_failed(store);
    sqlite3_reset(statement);
    sqlite3_clear_bindings(statement);
    return number;
}

/* --- transactions ------------------------------------------------------------------------------------------------- */

bool store_begin(struct store *store)
{
    store->open_transaction = store_run(store, "BEGIN IMMEDIATE");
    return store->open_transaction;
}

bool store_commit(struct store *store)
{
    bool done = store->open_transaction && store_run(store, "COMMIT");
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

void store_close(struct store *store)
{
    for (size_t i = 0; i < store->prepared.count; i++)
        sqlite3_finalize(store->prepared.items[i]);
    sqlite3_close(store->database);
    store->database = NULL;
    store->prepared.count = 0;
    store_fail(store, STORE_FAILED, "it is closed");
}

enum store_fault store_fault(const struct store *store)
{
    return store->fault;
}

const char *store_message(const struct store *store)
{
    return store->message;
}

/* --- parts of a transaction ------------------------------------------------------------------------------------------ */

bool store_mark(struct store *store)
{
    return store_run(store, "SAVEPOINT part");
}

bool store_keep(struct store *store)
{
    return store_run(store, "RELEASE part");
}

void store_back(struct store *store)
{
    if (sqlite3_get_autocommit(store->database)) /* SQLite has rolled back the whole transaction by itself */
        store->open_transaction = false;
    else
        sqlite3_exec(store->database, "ROLLBACK TO part; RELEASE part", NULL, NULL, NULL);
    if (store->fault == STORE_FAILED)
        store->fault = STORE_SOUND;
}
