/* The report: what was refused, how to improve the numbers, and safety. */
#ifndef TAUTLINE_COMMANDS_REPORT_CLOSING_H
#define TAUTLINE_COMMANDS_REPORT_CLOSING_H

#include "commands/report/report_text.h"

void report_refused(const struct report *report);
void report_sharpen(const struct report *report); /* what the reader could supply */
void report_cautions(const struct report *report);

#endif
