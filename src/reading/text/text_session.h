/* Session lines of a text log, and the order of day and month, which only the whole file settles. */
#ifndef TAUTLINE_READING_TEXT_SESSION_H
#define TAUTLINE_READING_TEXT_SESSION_H

#include "reading/text/text_log.h"

/* Is the line a date after the marks of a heading: "## Mon 5 Jan 2026 squat day", "# 2026-01-05 speed"? A date and
 * prose after a single mark is a comment. `line` ends in a NUL or a line break after `length` bytes. */
bool text_is_marked_date(struct text_patterns *patterns, const char *line, size_t length, struct text_match *match);

/* A line with a date: ends the session before and begins one. False: refused, together with everything under it. */
bool text_read_session(struct text_log *log, const struct text_match *match);
void text_end_session(struct text_log *log);

/* At the end of the file: gives sets with ambiguous dates their days. False: the file does not settle it, already
 * reported. */
bool text_settle_dates(struct text_log *log);

#endif
