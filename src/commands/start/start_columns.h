/* start: [columns], the headers of exports that are not understood. */
#ifndef TAUTLINE_COMMANDS_START_COLUMNS_H
#define TAUTLINE_COMMANDS_START_COLUMNS_H

#include "commands/start/start.h"

/* Adds [columns] where an export was not understood, with only the fields that it lacks, or where some of its headers
 * were not recognised. False: it is not needed. */
bool start_columns_block(struct start *start, bool not_understood);

#endif
