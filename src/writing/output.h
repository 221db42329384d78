/* Where results go: whole or not at all.
 *
 * A named file is written beside itself under another name, synced and renamed on commit, so that readers see the old
 * file or the new one and nothing between. It keeps the permissions of the file that it replaces; a new one gets those
 * of the umask. A symbolic link is followed and its target replaced. What is no regular file (a pipe, a terminal, a
 * device) cannot be replaced and is written in place.
 *
 * Standard output is buffered and may reach the reader in pieces; each error (closed, disk full, reader gone) shows at
 * commit. A reader that goes away kills the program by SIGPIPE unless the program ignores that signal.
 *
 * A program that ends before commit calls unfinished_remove() (writing/unfinished.h): only one that is killed outright
 * leaves the other name.
 *
 * An error while writing is kept, later writes do nothing, and output_commit() tells. */
#ifndef TAUTLINE_WRITING_OUTPUT_H
#define TAUTLINE_WRITING_OUTPUT_H

#include "base/arena.h"

#include <stdbool.h>
#include <stddef.h>

struct output;

/* NULL or "-": standard output. Any other name that means standard output's file (/dev/stdout) is taken for it too.
 * NULL result: the file cannot be made, see errno (EISDIR, ENOENT for a link to nothing, EACCES, ...). */
struct output *output_open(struct arena *arena, const char *path);
struct output *output_to_memory(struct arena *arena);

/* A file that is new: where one is there already, by now or at commit, it stays as it is and the error is EEXIST. */
struct output *output_open_new(struct arena *arena, const char *path);

/* The file of that name in an open folder, which stays the caller's until commit. What is there is replaced, a link
 * too: none is followed. `name` has no slash. */
struct output *output_open_in(struct arena *arena, int folder, const char *name);
/* The same for a file that is not there yet, written in place and not synced: for a folder that is moved in place as a
 * whole, later. */
struct output *output_create_in(struct arena *arena, int folder, const char *name);

void output_put(struct output *output, const char *bytes, size_t length);
void output_text(struct output *output, const char *text);
void output_printf(struct output *output, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* For what is put together where it will stand: a place for `length` bytes, OUTPUT_ROOM at most, good until the next
 * call; output_used() says where what was written there ends. NULL: an error stands, nothing more is written. */
#define OUTPUT_ROOM ((size_t)32 * 1024)
char *output_room(struct output *output, size_t length);
void output_used(struct output *output, const char *end);

/* What a memory output holds, NUL-terminated; good until the next write to it. */
const char *output_memory(struct output *output, size_t *length);
void output_clear(struct output *output); /* it holds nothing then, and has room for as much as before */

bool output_commit(struct output *output);  /* false: not written, errno says why; the old file, if any, stands */
void output_discard(struct output *output); /* nothing is left behind; allowed after commit, then nothing happens */
bool output_is_terminal(const struct output *output);

#endif
