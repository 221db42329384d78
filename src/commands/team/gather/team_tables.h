/* The tables of all lifters, joined from those of their folders, where one of these is another than the last time. */
#ifndef TAUTLINE_COMMANDS_TEAM_TABLES_H
#define TAUTLINE_COMMANDS_TEAM_TABLES_H

#include "commands/team/gather/team_gather.h"

void team_tables_write(struct gathering *gathering);       /* findings.csv, refused.csv, and what is new in them */
void team_news_without_store(struct gathering *gathering); /* before the tables are written */

#endif
