/* The lifters' folders into the store: one transaction a lifter, and only where the folder's tables are not in it yet. */
#ifndef TAUTLINE_COMMANDS_TEAM_STORE_H
#define TAUTLINE_COMMANDS_TEAM_STORE_H

#include "commands/team/team.h"
#include "commands/team/team_gather.h"

void gather_lifter(struct gathering *gathering, struct team_lifter *lifter); /* its folder into the store, if that is news */

void team_store_open(struct gathering *gathering); /* and the night in it */
void team_store_fill(struct gathering *gathering);
void team_store_fresh(struct gathering *gathering); /* what was not there the night before, into the page */
void team_store_finish(struct gathering *gathering);

#endif
