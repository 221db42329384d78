/* The report: the weight of each set-up. */
#ifndef TAUTLINE_COMMANDS_REPORT_SETUPS_H
#define TAUTLINE_COMMANDS_REPORT_SETUPS_H

#include "commands/report/report_text.h"

/* One lifter's rows, or all of them (NULL). */
struct report_rows report_load_rows(const struct report *report, const char *lifter);

void report_loads(const struct report *report); /* each set-up used: its load at bottom and top */

#endif
