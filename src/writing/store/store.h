/* A SQLite file that other tools may query: opened in WAL mode with foreign keys on, checked, brought to the newest
 * schema. The meaning of the tables is left to store_schema.c and described in tautline-team(5).
 *
 * All values go in as bound texts, which the columns' types turn into numbers; "" and NULL are both stored as NULL.
 * After an error each call does nothing and returns false until store_undo(). */
#ifndef TAUTLINE_WRITING_STORE_H
#define TAUTLINE_WRITING_STORE_H

#include "base/arena.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct store;

enum store_fault
{
    STORE_SOUND,
    STORE_DAMAGED, /* not a SQLite file, or a broken one: set it aside and rebuild it */
    STORE_NEWER,   /* made by a newer program: leave it alone */
    STORE_FAILED   /* disk full, no permission, in use, ... */
};

void store_close(struct store *store); /* rolls back what was not committed */

enum store_fault store_fault(const struct store *store);
const char *store_message(const struct store *store); /* of the first error; "": there was none */

/* Within a transaction: what follows can be kept, or rolled back by itself. */
bool store_mark(struct store *store);
bool store_keep(struct store *store);
void store_back(struct store *store); /* and forgets an error, except damage; false later on: the whole transaction was
                                         rolled back */

bool store_begin(struct store *store);
bool store_commit(struct store *store);
void store_undo(struct store *store); /* rolls back and forgets an error, except damage */

/* One statement that returns no rows. `sql` must be a literal: it stays prepared under its address. */
bool store_do(struct store *store, const char *sql, const char *const *values, size_t count);
/* INSERT INTO table(names) VALUES(values), prepared once for any number of rows. */
struct store_insert;
struct store_insert *store_insert_into(struct store *store, const char *table, const char *const *names, size_t count);
bool store_insert_row(struct store_insert *insert, const char *const *values);
void store_insert_end(struct store_insert *insert);

/* Calls `seen` for each row; NULL cells are passed as "". */
typedef void store_seen(void *context, const char *const *cells);
bool store_ask(struct store *store, const char *sql, const char *const *values, size_t count, store_seen *seen,
               void *context);
/* The first cell of the first row as a number; 0 if there is none. */
int64_t store_number(struct store *store, const char *sql, const char *const *values, size_t count);

#endif
