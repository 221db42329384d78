/* The report: load and velocity, where velocities were logged. */
#ifndef TAUTLINE_COMMANDS_REPORT_VELOCITY_H
#define TAUTLINE_COMMANDS_REPORT_VELOCITY_H

#include "commands/report/report_text.h"

struct report_rows report_velocity_rows(const struct report *report, const char *lifter);

void report_velocity(const struct report *report); /* where velocities were logged */

#endif
