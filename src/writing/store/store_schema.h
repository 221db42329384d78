/* The store's schema, version by version. A version that was published is never changed: a change is a migration behind
 * it, and a column of src/columns/ that says `since` a newer version makes that migration.
 *
 * The tables of rows have the columns of the CSV files that they are filled from, by the same names (tautline(1)). Keys
 * are natural and tables have no row ids, so that the same folders make the same store whatever came before. */
#ifndef TAUTLINE_WRITING_STORE_SCHEMA_H
#define TAUTLINE_WRITING_STORE_SCHEMA_H

#include "writing/store/store.h"

/* The SQL that makes a version of the one before it; versions count from 1. */
const char *store_migration(struct arena *arena, size_t version);
size_t store_version(void); /* the newest */
/* Indexes of the newest version that cost most to keep while a whole store is filled. */
extern const char store_drop_indexes[], store_make_indexes[];

#endif
