/* Session lines of a text log, and the order of day and month that the whole file settles. */
#ifndef TAUTLINE_READING_TEXT_SESSION_H
#define TAUTLINE_READING_TEXT_SESSION_H

#include "reading/text/text_log.h"

/* A line with a date: ends the session before and begins one. False: refused, and so is what is under it. */
bool text_read_session(struct text_log *log, const struct text_match *match);
void text_end_session(struct text_log *log);

/* At the end of the file: gives sets of open dates their days. False: the file never settles it, already reported. */
bool text_settle_dates(struct text_log *log);

#endif
