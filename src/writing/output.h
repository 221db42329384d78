/* Where results go: whole or not at all.
 *
 * A named file is written under a temporary name in the same folder, synced and renamed on commit, so that readers
 * see the old file or the new one and nothing in between. It keeps the permissions of the file that it replaces; a
 * new one gets those of the umask. A symbolic link is followed and its target replaced. Anything other than a regular
 * file (a pipe, a terminal, a device) cannot be replaced and is written in place.
 *
 * Standard output is buffered and may reach the reader in pieces; any error (closed, disk full, reader gone) is
 * reported at commit. If the reader goes away, SIGPIPE kills the program unless the program ignores that signal.
 *
 * A program that ends before commit must call unfinished_remove() (writing/unfinished.h): only a program that is
 * killed outright leaves the temporary file behind.
 *
 * The first error while writing is kept, later writes do nothing, and output_commit() reports it. */
#ifndef TAUTLINE_WRITING_OUTPUT_H
#define TAUTLINE_WRITING_OUTPUT_H

#include "base/arena.h"

#include <stdbool.h>
#include <stddef.h>

struct output;

/* NULL or "-": standard output. Another name for the same file (/dev/stdout) is treated as standard output too. NULL
 * result: the file cannot be made, see errno (EISDIR, ENOENT for a dangling link, EACCES, ...). */
struct output *output_open(struct arena *arena, const char *path);
struct output *output_to_memory(struct arena *arena);
/* For what is written before the place where it belongs: output_copy() moves it there. The first megabyte is kept in
 * memory, more in a temporary file that has no name. */
struct output *output_to_spool(struct arena *arena);

/* For a new file: if one exists, now or at commit, it is left alone and the error is EEXIST. */
struct output *output_open_new(struct arena *arena, const char *path);

/* The file of that name in an open folder, which must stay open until commit. An existing file is replaced, and so is
 * a link: none is followed. `name` has no slash. */
struct output *output_open_in(struct arena *arena, int folder, const char *name);
/* The same for a file that does not exist yet, written in place and not synced: for a folder that is later moved into
 * place as a whole. */
struct output *output_create_in(struct arena *arena, int folder, const char *name);

void output_put(struct output *output, const char *bytes, size_t length);
void output_text(struct output *output, const char *text);
void output_printf(struct output *output, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* For callers that build their bytes in place: returns room for `length` bytes, OUTPUT_ROOM at most, valid until the
 * next call; pass the end of what was written there to output_used(). NULL: there was an error, nothing more is
 * written. */
#define OUTPUT_ROOM ((size_t)32 * 1024)
char *output_room(struct output *output, size_t length);
void output_used(struct output *output, const char *end);

/* What a memory output holds, NUL-terminated; valid until the next write to it. */
const char *output_memory(struct output *output, size_t *length);
/* All that was written to a memory output or a spool, as a part of another; once. An error in the spool becomes one of
 * the other, which is then not committed. */
void output_copy(struct output *from, struct output *to);
void output_clear(struct output *output); /* empties it, but keeps its memory */

bool output_commit(struct output *output);  /* false: not written, errno says why; the old file, if any, was kept */
void output_discard(struct output *output); /* leaves nothing behind; does nothing after commit */
bool output_is_terminal(const struct output *output);

#endif
