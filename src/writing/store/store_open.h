/* Opening a file that somebody else may have written to: what it is, whether it is whole, and the newest schema. */
#ifndef TAUTLINE_WRITING_STORE_OPEN_H
#define TAUTLINE_WRITING_STORE_OPEN_H

#include "writing/store/store.h"

/* Never NULL: store_fault() tells whether it can be used. `checked`: it is known to be as we left it, and need not be
 * looked at page by page. */
struct store *store_open(struct arena *arena, const char *path, bool checked);

/* A new file, to be filled as a whole and then moved to where it belongs: made without a journal on the disk, `path`
 * meanwhile is nobody else's. store_built() closes it; false: it is gone, and errno or store_message() says why. */
struct store *store_build(struct arena *arena, const char *path);
bool store_built(struct store *store, const char *path, const char *final);

/* Moves a damaged file and what belongs to it out of the way; the new name, the arena's, or NULL (errno). */
const char *store_set_aside(struct arena *arena, const char *path);

#endif
