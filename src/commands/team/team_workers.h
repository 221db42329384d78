/* Processes that work for lifters: one that crashes, hangs or is killed takes the lifter along whom it was working for,
 * and nobody else.
 *
 * A worker is given several lifters, one after the other: a process costs as much as a small log does. It says when it
 * begins with one and when it is done; those whom it never came to go to another worker. Lifters who share logs have a
 * process more between them and the run: it reads these logs, and their workers are its children. */
#ifndef TAUTLINE_COMMANDS_TEAM_WORKERS_H
#define TAUTLINE_COMMANDS_TEAM_WORKERS_H

#include "commands/team/team.h"

typedef void lifter_finished(void *context, struct team_lifter *lifter);
/* Calls `finished` in this process as each lifter ends. */
void team_run_workers(struct team *team, unsigned jobs, lifter_finished *finished, void *context);

#endif
