/* A line of work while it is read: text_line.c has its forms, text_parts.c their parts, text_behind.c what follows
 * them; no other file includes it. */
#ifndef TAUTLINE_READING_TEXT_LINE_H
#define TAUTLINE_READING_TEXT_LINE_H

#include "reading/text/text_log.h"

struct line /* from `at` on nothing has been taken */
{
    struct text_log *log;
    struct text_work *work;
    size_t at;
    bool refused; /* already reported */
};

/* Each is false where the line is refused, already reported, or (take_scheme) where the numbers are out of reason. */

bool text_read_line(struct text_log *log); /* false: refused, already reported */

/* Takes a line of work apart without making sets of it; no items: it was set aside. False: refused, already reported.
 */
bool text_take_line(struct text_log *log, struct text_work *work);

/* The same for sets alone, of a lift named elsewhere: 100x5, 110x3 @8. */
bool text_take_sets(struct text_log *log, uint32_t lift, struct text_work *work);

#endif
