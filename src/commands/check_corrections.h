/* check --corrections FILE: each refused record into a file in which the user says what it should have been. */
#ifndef TAUTLINE_COMMANDS_CHECK_CORRECTIONS_H
#define TAUTLINE_COMMANDS_CHECK_CORRECTIONS_H

#include "commands/session/session.h"

/* Writes the file whole, or leaves it as it is: what it held and is filled in is kept, and what is refused now is
 * added, once for each text of a file. Where it could not be written, that is said and kept in the session. */
void check_write_corrections(struct session *session, const char *path);

#endif
