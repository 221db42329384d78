/* The report: findings by what to do about them, the most severe first; one entry per cause, its newest episode
 * first. */
#ifndef TAUTLINE_COMMANDS_REPORT_FINDINGS_H
#define TAUTLINE_COMMANDS_REPORT_FINDINGS_H

#include "commands/report/report_text.h"

void report_findings(const struct report *report); /* the first few of each kind */
void report_every_finding(const struct report *report);

#endif
