/* DIR: its folders, its locks, and the name of each lifter's folder. */
#ifndef TAUTLINE_COMMANDS_TEAM_FOLDERS_H
#define TAUTLINE_COMMANDS_TEAM_FOLDERS_H

#include "commands/team/team.h"

void team_name_folders(struct team *team); /* and reads the folders' states */
bool team_open_folders(struct team *team); /* makes them if they are missing; false: the error was reported */

/* Runs for some of the lifters may run at the same time; a run over all of them, or one that gathers, excludes all
 * others. False: the error was reported. */
bool team_lock(const struct team *team);
/* NULL: locked until the descriptor is closed; else the reason why not. */
const char *team_lock_lifter(const struct team *team, const struct team_lifter *lifter, struct arena *arena, int *lock);

#endif
