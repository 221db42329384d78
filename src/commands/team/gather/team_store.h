/* The lifters' folders into the store, where it does not hold their tables yet. A store that is not there is built as a
 * whole, beside its place; one that is there takes in what has changed. */
#ifndef TAUTLINE_COMMANDS_TEAM_STORE_H
#define TAUTLINE_COMMANDS_TEAM_STORE_H

#include "commands/team/gather/team_gather.h"

void team_store_open(struct gathering *gathering); /* and the night in it */
void team_store_fill(struct gathering *gathering);
void team_store_fresh(struct gathering *gathering); /* what was not there the night before, into the page */
void team_store_finish(struct gathering *gathering);

#endif
