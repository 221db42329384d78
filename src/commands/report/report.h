/* report: everything, for people to read. */
#ifndef TAUTLINE_COMMANDS_REPORT_H
#define TAUTLINE_COMMANDS_REPORT_H

#include "commands/command.h"
#include "commands/report/report_text.h"

enum exit_status run_report(struct arena *arena, const struct options *options);

/* The whole report, for a terminal or a file. */
void report_write(struct session *session, struct output *output);

#endif
