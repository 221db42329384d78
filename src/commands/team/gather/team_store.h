/* Takes the lifters' folders into the store where it does not have their current tables yet. A missing store is built
 * as a whole under another name and then moved; an existing one takes in only what has changed. */
#ifndef TAUTLINE_COMMANDS_TEAM_STORE_H
#define TAUTLINE_COMMANDS_TEAM_STORE_H

#include "commands/team/gather/team_gather.h"

void team_store_open(struct gathering *gathering); /* opens the store and begins the night in it */
void team_store_fill(struct gathering *gathering);
void team_store_fresh(struct gathering *gathering); /* adds to the page what the night before did not have */
void team_store_finish(struct gathering *gathering);

#endif
