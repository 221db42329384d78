/* The patterns of a text log's lines, with PCRE2. */
#ifndef TAUTLINE_READING_TEXT_PATTERNS_H
#define TAUTLINE_READING_TEXT_PATTERNS_H

#include "reading/log_reader.h"
#include "reading/text/text_log.h"

/* Is it a text log? One of the lines of its head must have a date, or there are only comments and header lines.
 * `strictly`: a line of work is required too, as in a log but not in a letter. */
bool text_log_detect(struct reading *reading, struct input *input, bool strictly);
void text_patterns_free(struct text_patterns *patterns); /* NULL is allowed */

struct text_patterns *text_patterns_of(struct reading *reading); /* compiled once, at first use */

/* Does the pattern match at `at`, in a text of `length` bytes? `decimal` selects the notation of numbers. */
bool text_fits(struct text_patterns *patterns, enum text_pattern pattern, char decimal, const char *text, size_t length,
               size_t at, struct text_match *match);

/* The first place from `at` on where it matches. */
bool text_finds(struct text_patterns *patterns, enum text_pattern pattern, char decimal, const char *text,
                size_t length, size_t at, struct text_match *match);

#endif
