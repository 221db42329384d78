/* report --workbook FILE.xlsx: what a coach passes on, as a workbook. */
#ifndef TAUTLINE_COMMANDS_REPORT_WORKBOOK_H
#define TAUTLINE_COMMANDS_REPORT_WORKBOOK_H

#include "commands/session/session.h"

/* Sheets Summary, Verdicts, Waves, Weeks, Sets, Findings into the output, in the session's unit. False: it cannot be
 * written, errno says why. */
bool report_workbook(struct session *session, struct output *output);
/* Was the program built with workbooks? */
bool report_has_workbooks(void);

#endif
