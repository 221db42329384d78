/* A process a lifter: one that crashes, hangs or is killed takes its own lifter along and nobody else. Lifters who share logs have a
 * process more between them and the run: it reads these logs, and their workers are its children. */
#ifndef TAUTLINE_COMMANDS_TEAM_WORKERS_H
#define TAUTLINE_COMMANDS_TEAM_WORKERS_H

#include "commands/team/team.h"

void team_run_workers(struct team *team, unsigned jobs, lifter_finished *finished, void *context);

#endif
