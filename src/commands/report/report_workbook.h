/* report --workbook FILE.xlsx: a workbook for a coach to pass on. */
#ifndef TAUTLINE_COMMANDS_REPORT_WORKBOOK_H
#define TAUTLINE_COMMANDS_REPORT_WORKBOOK_H

#include "commands/session/session.h"

/* Writes the sheets Summary, Verdicts, Waves, Weeks, Sets, Findings to the output, in the session's unit. False: it
 * failed, errno says why. */
bool report_workbook(struct session *session, struct output *output);
/* Was the program built with workbooks? */
bool report_has_workbooks(void);

#endif
