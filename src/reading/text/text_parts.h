/* The parts of a line of work: lift, load, sets and repetitions. */
#ifndef TAUTLINE_READING_TEXT_PARTS_H
#define TAUTLINE_READING_TEXT_PARTS_H

#include "reading/text/text_line.h"
#include "reading/text/text_log.h"

extern const struct text_span no_span;

bool line_fits(const struct line *line, enum text_pattern pattern, size_t at, struct text_match *match);
bool line_finds(const struct line *line, enum text_pattern pattern, size_t at, size_t end, struct text_match *match);
struct text_span line_rest(const struct line *line, size_t at); /* from there to the end */
const char *line_text(const struct line *line, struct text_span span);
size_t line_skip(const struct line *line, size_t at); /* skips blanks */
bool line_refuse(struct line *line, enum diag_id id, struct text_span span, const char *hint, const char *message);

bool line_take_lift(struct line *line, size_t from, size_t to);
void line_use_lift(struct line *line, uint32_t number,
                   size_t at); /* one that the line does not name; its sets begin at `at` */
struct text_item *line_add_item(struct line *line);
bool line_take_scheme(struct line *line, const struct text_match *match, struct text_item *item);
/* The same, for a scheme with a number of sets: 3x5, not 5,5,4. */
bool line_takes_sets(const struct line *line, const struct text_match *match, struct text_item *item);
unsigned line_sets(const struct text_item *item);

bool line_is_load(const struct line *line, size_t from, size_t to);
/* The longest load that begins at `from`; if there is none, a straight weight before free words. */
bool line_take_load(struct line *line, size_t from, struct text_item *item);

/* A number in the span of the line. */
double text_number(const struct text_log *log, struct text_span span);

#endif
