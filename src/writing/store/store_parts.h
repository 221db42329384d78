/* What the files of store.h share. */
#ifndef TAUTLINE_WRITING_STORE_PARTS_H
#define TAUTLINE_WRITING_STORE_PARTS_H

#include "base/names.h"
#include "writing/store/store.h"

#include <sqlite3.h>

struct store
{
    struct arena *arena;
    sqlite3 *database;
    enum store_fault fault;
    const char *message;
    struct map *statements; /* by the address of their text */
    LIST(sqlite3_stmt *) prepared;
    bool open_transaction;
    double deadline_s; /* of the statement that runs */
};

/* Keeps the first fault. Always false. */
bool store_fail(struct store *store, enum store_fault fault, const char *message);
bool store_failed(struct store *store);               /* by what SQLite's last answer means */
bool store_run(struct store *store, const char *sql); /* statements without values */
int store_is_late(void *store);                       /* for SQLite, which asks now and then */

#endif
