/* A result must never overwrite a file that it was made from: an output that is one of the inputs, under any name or
 * link, is refused. */
#ifndef TAUTLINE_COMMANDS_SESSION_OVERWRITING_H
#define TAUTLINE_COMMANDS_SESSION_OVERWRITING_H

#include "commands/session/session.h"

#include <stdbool.h>

/* Call this after the inputs were read and before anything is written. False: refused now or earlier, which was
 * reported, and session_close() returns EXIT_USAGE. `path` NULL or "-": standard output, which is always allowed. */
bool session_may_write(struct session *session, const char *path);
/* The same for check's corrections file, which is both read and overwritten: it must not be any other input. */
bool session_may_write_corrections(struct session *session, const char *path);
/* May we fill `folder` with files whose names we choose? Not if it holds an input: the next run would read what this
 * one wrote. */
bool session_may_fill(struct session *session, const char *folder);

#endif
