/* The way notebooks are kept: a lift alone on a line, and its sets on the lines below. */
#ifndef TAUTLINE_READING_TEXT_HEADINGS_H
#define TAUTLINE_READING_TEXT_HEADINGS_H

#include "reading/text/text_log.h"

/* Is the line only a lift's name? Then it is the heading of the set lines below it. */
bool text_take_heading(struct text_log *log);
/* The heading's set lines end here: a heading without sets is refused, at its place. */
void text_end_heading(struct text_log *log);
/* Where the line begins, after blanks and a list marker: - 80x4. */
size_t text_line_start(const struct text_log *log);
const char *text_hint_note(struct text_log *log, const char *written); /* for words that may be prose */
uint32_t text_lift_above(struct text_log *log);                        /* the lift's number; there must be one */
/* Does a lift's name, anywhere before the first load, make these words a line of work and not prose? */
bool text_names_lift(struct text_log *log, const char *words);
/* Words after a date that are only a lift's name: they head the set lines below, if there are any. */
void text_head_with(struct text_log *log, const char *words);

#endif
