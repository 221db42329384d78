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
    struct map *statements; /* by the address of their SQL text */
    LIST(sqlite3_stmt *) prepared;
    bool open_transaction;
    double deadline_s; /* of the statement that is running */
};

/* Keeps the first fault. Always returns false. */
bool store_fail(struct store *store, enum store_fault fault, const char *message);
bool store_failed(struct store *store);               /* sets the fault from SQLite's last result code */
bool store_run(struct store *store, const char *sql); /* statements without values */
int store_is_late(void *store);                       /* progress handler: SQLite calls it now and then */

#endif
