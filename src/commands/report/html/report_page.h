/* One sheet of paper per lifter, A4 or Letter: verdicts, what to change first, the year, the next waves, what they
 * are based on. */
#ifndef TAUTLINE_COMMANDS_REPORT_HTML_REPORT_PAGE_H
#define TAUTLINE_COMMANDS_REPORT_HTML_REPORT_PAGE_H

#include "commands/session/session.h"

/* What does not fit on a sheet is counted there; the report has everything. */
void report_page(struct session *session, struct output *output);

#endif
