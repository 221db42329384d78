/* The tables of all lifters, concatenated from those of their folders. They are rewritten only if one of those has
 * changed. */
#ifndef TAUTLINE_COMMANDS_TEAM_TABLES_H
#define TAUTLINE_COMMANDS_TEAM_TABLES_H

#include "commands/team/gather/team_gather.h"

void team_tables_write(struct gathering *gathering);       /* findings.csv and refused.csv, and what is new in them */
void team_news_without_store(struct gathering *gathering); /* must be called before the tables are written */

#endif
