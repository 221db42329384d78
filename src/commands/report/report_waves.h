/* The report: the newest waves. */
#ifndef TAUTLINE_COMMANDS_REPORT_WAVES_H
#define TAUTLINE_COMMANDS_REPORT_WAVES_H

#include "commands/report/report_text.h"

/* The weeks in waves of a lift and focus. */
const struct wave_week *report_wave_weeks(const struct report *report, const struct verdict *verdict, size_t *count);

void report_waves(const struct report *report);

#endif
