/* Files below the folder that the nightly job writes to. Others may write there too: no link below it is followed,
 * nothing but regular files is opened, and what a file says another is called is looked at before it is believed. Each
 * function works from an open folder. -1 and false: see errno. */
#ifndef TAUTLINE_COMMANDS_TEAM_BELOW_H
#define TAUTLINE_COMMANDS_TEAM_BELOW_H

#include "base/arena.h"

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <sys/types.h>

#define BELOW_BYTES ((int64_t)4 << 30) /* of a file that is read there; a larger one is not ours */

bool below_is_name(const char *name); /* of an entry: not "", no slash, neither . nor .. */

int below_folder(int parent, const char *name);
int below_make_folder(int parent, const char *name, mode_t mode); /* where it is not there yet; opened */
int below_file(int parent,
               const char *name); /* a regular file, to be read; ELOOP: a link; EINVAL: a pipe or the like; EFBIG */
FILE *below_stream(int parent, const char *name);                                          /* the same; NULL: errno */
const char *below_text(struct arena *arena, int parent, const char *name, size_t *length); /* its bytes; NULL: errno */
bool below_is_file(int parent, const char *name, int64_t *bytes);                          /* a regular one */

/* The file, or the folder with its files and those of its folders. */
void below_remove(int parent, const char *name);
/* Calls `seen` for each entry but . and .., in no order. */
typedef void below_seen(void *context, const char *name);
bool below_each(int folder, below_seen *seen, void *context);

/* For what takes a path: good as long as the descriptor is open. `name` NULL: of an open file. */
const char *below_path(struct arena *arena, int descriptor, const char *name);

#endif
