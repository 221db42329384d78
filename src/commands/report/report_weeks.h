/* The report: volume and intensity by week, and best loads. */
#ifndef TAUTLINE_COMMANDS_REPORT_WEEKS_H
#define TAUTLINE_COMMANDS_REPORT_WEEKS_H

#include "commands/report/report_text.h"

struct report_rows report_week_rows(const struct report *report, const char *lifter);

struct report_rows report_record_rows(const struct report *report, const char *lifter);

void report_weeks(const struct report *report); /* volume and intensity */

void report_records(const struct report *report);

#endif
