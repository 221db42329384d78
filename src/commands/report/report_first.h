/* The first screen of the report as text, and its last line. */
#ifndef TAUTLINE_COMMANDS_REPORT_REPORT_FIRST_H
#define TAUTLINE_COMMANDS_REPORT_REPORT_FIRST_H

#include "commands/report/report_text.h"

/* One lifter: at most 40 lines of the report's width; several: three lines for each. */
void report_first(const struct report *report);
/* Repeats the first verdict, for readers who have scrolled past it, and says how to see a single section. */
void report_last(const struct report *report);

#endif
