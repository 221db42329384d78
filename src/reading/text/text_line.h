/* A line of work while it is read: text_line.c has its forms, text_parts.c their parts, text_behind.c what follows
 * them; no other file includes it. */
#ifndef TAUTLINE_READING_TEXT_LINE_H
#define TAUTLINE_READING_TEXT_LINE_H

#include "reading/text/text_log.h"

struct line /* from `at` on, nothing has been read yet */
{
    struct text_log *log;
    struct text_work *work;
    size_t at;
    bool refused; /* already reported */
};

/* Each returns false if the line is refused, already reported, or (take_scheme) if the numbers are not plausible. */

bool text_read_line(struct text_log *log); /* false: refused, already reported */

/* Parses a line of work without making sets; no items: it is not a set. False: refused, already reported. */
bool text_take_line(struct text_log *log, struct text_work *work);

/* The same for sets only, of a lift named elsewhere: 100x5, 110x3 @8. */
bool text_take_sets(struct text_log *log, uint32_t lift, struct text_work *work);

#endif
