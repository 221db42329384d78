/* Processes that work for lifters. If one crashes, hangs or is killed, only the lifter it was working for is lost.
 *
 * A worker gets several lifters, one after the other, because a process costs as much as a small log does. It reports
 * when it begins with a lifter and when it is done; those it never reached go to another worker. Lifters who share
 * logs have one more process between them and the run: it reads these logs, and their workers are its children. */
#ifndef TAUTLINE_COMMANDS_TEAM_WORKERS_H
#define TAUTLINE_COMMANDS_TEAM_WORKERS_H

#include "commands/team/team.h"

typedef void lifter_finished(void *context, struct team_lifter *lifter);
/* Calls `finished` in this process as each lifter ends. */
void team_run_workers(struct team *team, unsigned jobs, lifter_finished *finished, void *context);

#endif
