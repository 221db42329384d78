/* DIR: its folders, its locks, and which lifter's folder is called what. */
#ifndef TAUTLINE_COMMANDS_TEAM_FOLDERS_H
#define TAUTLINE_COMMANDS_TEAM_FOLDERS_H

#include "commands/team/team.h"

void team_name_folders(struct team *team); /* and reads their states */
bool team_open_folders(struct team *team); /* made where they are missing; false: said */

/* Runs for some lifters each go side by side; a run over all of them, or one that gathers, goes alone. False: said. */
bool team_lock(const struct team *team);
/* NULL: locked until the descriptor is closed; else why not. */
const char *team_lock_lifter(const struct team *team, const struct team_lifter *lifter, struct arena *arena, int *lock);

#endif
