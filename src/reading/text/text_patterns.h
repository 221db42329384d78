/* The patterns of a text log's lines, by PCRE2. */
#ifndef TAUTLINE_READING_TEXT_PATTERNS_H
#define TAUTLINE_READING_TEXT_PATTERNS_H

#include "reading/log_reader.h"
#include "reading/text/text_log.h"

/* Is it a text log? One of the lines of its head is dated, or there are only comments and header lines. `strictly`: a
 * line of work must be there too, as it is in a log and not in a letter. */
bool text_log_detect(struct reading *reading, struct input *input, bool strictly);
void text_patterns_free(struct text_patterns *patterns); /* NULL is allowed */

struct text_patterns *text_patterns_of(struct reading *reading); /* compiled once, when first asked for */

/* Does the pattern fit at `at`, of a text of `length` bytes? `decimal` chooses how numbers are written. */
bool text_fits(struct text_patterns *patterns, enum text_pattern pattern, char decimal, const char *text, size_t length,
               size_t at, struct text_match *match);

/* The first place from `at` on where it fits. */
bool text_finds(struct text_patterns *patterns, enum text_pattern pattern, char decimal, const char *text,
                size_t length, size_t at, struct text_match *match);

#endif
