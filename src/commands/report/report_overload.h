/* The report's first question: is it overloading? */
#ifndef TAUTLINE_COMMANDS_REPORT_OVERLOAD_H
#define TAUTLINE_COMMANDS_REPORT_OVERLOAD_H

#include "commands/report/report_text.h"

void report_overload(const struct report *report);

#endif
