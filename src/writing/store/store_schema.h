/* The store's schema, version by version. Invariant: a published version is never changed. A change is a migration
 * after it, and a column of src/columns/ whose `since` is a newer version makes that migration.
 *
 * The tables of rows have the columns of the CSV files that they are filled from, under the same names (tautline(1)).
 * Keys are natural and tables have no row ids, so that the same folders always make the same store. */
#ifndef TAUTLINE_WRITING_STORE_SCHEMA_H
#define TAUTLINE_WRITING_STORE_SCHEMA_H

#include "writing/store/store.h"

/* The SQL that turns the version before it into this one; versions count from 1. */
const char *store_migration(struct arena *arena, size_t version);
size_t store_version(void); /* the newest */
/* The newest version's most expensive indexes to maintain while a whole store is filled. */
extern const char store_drop_indexes[], store_make_indexes[];

#endif
