/* Names of columns on the command line. */
#ifndef TAUTLINE_COMMANDS_COLUMN_NAMES_H
#define TAUTLINE_COMMANDS_COLUMN_NAMES_H

#include "commands/options/options.h"

/* Works out which of the table's columns --columns asks for. NULL: success; else a message for the user. */
const char *options_choose_columns(struct arena *arena, struct options *options, const struct column *columns,
                                   size_t count);

#endif
