/* No result takes the place of a file that it was made from: an output that is one of the inputs, by whatever name or
 * link, is refused. */
#ifndef TAUTLINE_COMMANDS_SESSION_OVERWRITING_H
#define TAUTLINE_COMMANDS_SESSION_OVERWRITING_H

#include "commands/session/session.h"

#include <stdbool.h>

/* Asked after the inputs were read and before anything is written. False: refused and said, by this or before, and
 * session_close() gives EXIT_USAGE.
 * `path` NULL or "-": standard output, which is always fine. */
bool session_may_write(struct session *session, const char *path);
/* The same for check's corrections, which it reads and writes over: they may be no other input. */
bool session_may_write_corrections(struct session *session, const char *path);
/* May `folder` be filled with files of our own choice? Not where an input lies in it: the next run would read what this
 * one wrote. */
bool session_may_fill(struct session *session, const char *folder);

#endif
