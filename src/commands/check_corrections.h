/* check --corrections FILE: writes each refused record to a file in which the user enters what it should have been. */
#ifndef TAUTLINE_COMMANDS_CHECK_CORRECTIONS_H
#define TAUTLINE_COMMANDS_CHECK_CORRECTIONS_H

#include "commands/session/session.h"

/* Writes the whole file, or leaves it as it is: rows that are filled in are kept, and records refused now are added,
 * each distinct record of a log once. If the file cannot be written, that is reported and kept in the session. */
void check_write_corrections(struct session *session, const char *path);

#endif
