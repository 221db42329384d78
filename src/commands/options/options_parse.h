/* The command line of a command read by the rows of options.h, and its help. */
#ifndef TAUTLINE_COMMANDS_OPTIONS_PARSE_H
#define TAUTLINE_COMMANDS_OPTIONS_PARSE_H

#include "commands/options/options.h"
#include "writing/output.h"

/* Parses argv after the command's name. NULL: fine; else a message for the user (usage error), the arena's. */
const char *options_parse(struct arena *arena, struct options *options, unsigned groups, int argc, char **argv);
void options_help(struct arena *arena, struct output *output, unsigned groups);  /* a line for each */
void options_brief(struct arena *arena, struct output *output, unsigned groups); /* their names alone */

#endif
