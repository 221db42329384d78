/* One function for each language that a user's text may enter. Invariant: nothing that a user wrote gets there in any
 * other way.
 *
 * NULL counts as "". Bytes that are not UTF-8: CSV keeps them, as it keeps all of a text; JSON replaces them with
 * U+FFFD; elsewhere they are made visible (\xHH), like control characters. */
#ifndef TAUTLINE_WRITING_ESCAPE_H
#define TAUTLINE_WRITING_ESCAPE_H

#include "base/arena.h"
#include "writing/output.h"

#include <stdbool.h>

/* Quoted where RFC 4180 requires it: if the text has a comma, a quote, CR or LF; and also if it begins or ends with a
 * blank, which many readers would strip. `spreadsheet_safe`: a text that begins with = + - @ (fullwidth ones too),
 * tab, CR or LF, which a spreadsheet would take for a formula, gets an apostrophe in front; so does one that begins
 * with apostrophes and then such a sign. */
void escape_csv(struct output *output, const char *text, bool spreadsheet_safe);
/* The same for a text of `length` bytes, written to memory that holds ESCAPED_CSV_BYTES(length). Returns where it
 * ends. */
#define ESCAPED_CSV_BYTES(length) (2 * (length) + 3)
char *escape_csv_to(char *to, const char *text, size_t length, bool spreadsheet_safe);

/* The text of a cell that was written `spreadsheet_safe` and is unquoted by now: without that apostrophe. */
const char *escape_csv_undone(const char *cell);

/* An RFC 8259 string, with its quotes. */
void escape_json(struct output *output, const char *text);
bool is_plain_in_json(const char *text, size_t length); /* it needs only quotes around it */

/* A gnuplot 5.4 double-quoted string, with its quotes, in which everything but letters, digits and space is octal:
 * nothing can run, and nothing can end the string early. Control characters are made visible (text_visible), so the
 * text stays on its line. Markup such as {/Bold x} is harmless only because our scripts choose their terminal with
 * `noenhanced`. */
char *escape_gnuplot(struct arena *arena, const char *text);

/* A cell of a gnuplot data block: like escape_gnuplot, and always one field of one line, whatever the text holds. */
char *escape_gnuplot_cell(struct arena *arena, const char *text);

/* Text or a quoted attribute value of HTML. Control characters are made visible. */
void escape_html(struct output *output, const char *text);

/* A safe file name: letters, digits, '-' and '_' are kept (UTF-8 letters too), each run of other characters becomes
 * one '-'. Never empty, never begins with '-' or '.', at most 80 bytes. Different texts may give the same name: the
 * caller must tell them apart. */
char *escape_file_name(struct arena *arena, const char *text);

#endif
