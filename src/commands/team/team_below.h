/* Access to files below the folder that the nightly job writes to. Others may write there too, so no link below it is
 * followed, only regular files are opened, and a file name found inside a file is checked before it is used. Each
 * function works from an open folder. -1 or false: see errno. */
#ifndef TAUTLINE_COMMANDS_TEAM_BELOW_H
#define TAUTLINE_COMMANDS_TEAM_BELOW_H

#include "base/arena.h"

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <sys/types.h>

#define BELOW_BYTES ((int64_t)4 << 30) /* the largest file that is read there; a larger one was not written by us */

bool below_is_name(const char *name); /* a valid name of an entry: not "", no slash, neither . nor .. */

int below_folder(int parent, const char *name);
int below_make_folder(int parent, const char *name, mode_t mode); /* where it is not there yet; opened */
int below_file(int parent,
               const char *name); /* a regular file, to be read; ELOOP: a link; EINVAL: a pipe or the like; EFBIG */
FILE *below_stream(int parent, const char *name);                                          /* the same; NULL: errno */
const char *below_text(struct arena *arena, int parent, const char *name, size_t *length); /* its bytes; NULL: errno */
bool below_is_file(int parent, const char *name, int64_t *bytes);                          /* a regular one */

/* Removes the file, or the folder with its files and its subfolders' files. */
void below_remove(int parent, const char *name);
/* Calls `seen` for each entry except . and .., in no particular order. */
typedef void below_seen(void *context, const char *name);
bool below_each(int folder, below_seen *seen, void *context);

/* A path for functions that need one; it works as long as the descriptor is open. `name` NULL: the open file itself. */
const char *below_path(struct arena *arena, int descriptor, const char *name);

#endif
