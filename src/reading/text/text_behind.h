/* What follows the sets of a line of work: efforts, speeds, a second load, free words. */
#ifndef TAUTLINE_READING_TEXT_BEHIND_H
#define TAUTLINE_READING_TEXT_BEHIND_H

#include "reading/text/text_line.h"

bool line_is_effort(const struct line *line, struct text_span number, struct text_span unit); /* after an @ */

/* Each returns false if the line is refused, already reported. */
bool line_take_annotations(struct line *line, struct text_item *item); /* efforts, speeds and the like */
bool line_take_note(struct line *line);                                /* the rest of the line */

#endif
