/* The report's first question: is each wave heavier? */
#ifndef TAUTLINE_COMMANDS_REPORT_VERDICTS_H
#define TAUTLINE_COMMANDS_REPORT_VERDICTS_H

#include "commands/report/report_text.h"

void report_verdicts(const struct report *report);

#endif
