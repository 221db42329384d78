/* Which findings --only and --except ask for. */
#ifndef TAUTLINE_COMMANDS_FINDING_IDS_H
#define TAUTLINE_COMMANDS_FINDING_IDS_H

#include "commands/options/options.h"

/* Works out which findings --only and --except ask for. NULL: success; else a message for the user. */
const char *options_choose_findings(struct arena *arena, struct options *options);

#endif
