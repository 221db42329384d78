/* start: [columns], the headers of exports that are not understood. */
#ifndef TAUTLINE_COMMANDS_START_COLUMNS_H
#define TAUTLINE_COMMANDS_START_COLUMNS_H

#include "commands/start/start.h"

/* Adds [columns] where an export was not understood, with the fields that it lacks alone, or where some of its headers
 * mean nothing. False: there is no need. */
bool start_columns_block(struct start *start, bool not_understood);

#endif
