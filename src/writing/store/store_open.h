/* Opens a file that others may have written to: checks what it is and whether it is intact, and brings it to the
 * newest schema. */
#ifndef TAUTLINE_WRITING_STORE_OPEN_H
#define TAUTLINE_WRITING_STORE_OPEN_H

#include "writing/store/store.h"

/* Never NULL: store_fault() says whether it can be used. `checked`: the file is known to be as we left it and need
 * not be checked page by page. */
struct store *store_open(struct arena *arena, const char *path, bool checked);

/* A new file, to be filled as a whole and then moved into place: made without a journal on disk, since no other
 * process uses `path` in the meantime. store_built() closes it; false: it was removed, and errno or store_message()
 * says why. */
struct store *store_build(struct arena *arena, const char *path);
bool store_built(struct store *store, const char *path, const char *final);

/* Renames a damaged file and those that belong to it. Returns the new name, owned by the arena, or NULL (errno). */
const char *store_set_aside(struct arena *arena, const char *path);

#endif
