/* A pattern ready to match, by PCRE2: caseless, Unicode's properties, a point that takes line ends too. */
#ifndef TAUTLINE_READING_PATTERN_H
#define TAUTLINE_READING_PATTERN_H

#define PCRE2_CODE_UNIT_WIDTH 8
#include <pcre2.h>
#include <stddef.h>

struct pattern
{
    pcre2_code *code;
    pcre2_match_data *match; /* NULL: the text is not a pattern; nothing matches it */
    size_t bytes;            /* that it was matched against, until there are enough for machine code */
};

struct pattern pattern_make(const char *text);
void pattern_free(struct pattern *pattern);

/* As pcre2_match(): more than 0 where it matched; match then holds the offsets. */
int pattern_match(struct pattern *pattern, const char *text, size_t length, size_t at, uint32_t flags);

#endif
