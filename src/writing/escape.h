/* One function for each language that a user's text may enter. Nothing a user wrote gets there by another way. */
#ifndef TAUTLINE_WRITING_ESCAPE_H
#define TAUTLINE_WRITING_ESCAPE_H

#include "base/arena.h"
#include "writing/output.h"

#include <stdbool.h>

void escape_csv(struct output *output, const char *text, bool spreadsheet_safe); /* quoted where RFC 4180 wants it */
void escape_json(struct output *output, const char *text);                       /* with its quotes; bad UTF-8 becomes U+FFFD */
/* A gnuplot 5.4 double-quoted string in which all but letters, digits and space is octal, so that nothing runs and no markup counts. With its quotes. */
char *escape_gnuplot(struct arena *arena, const char *text);
/* A cell of a gnuplot data block: as escape_gnuplot, one field. */
char *escape_gnuplot_cell(struct arena *arena, const char *text);
char *escape_html(struct arena *arena, const char *text);
/* A safe file name: letters, digits, '-' and '_' kept (UTF-8 letters too), the rest '-'; never empty, never a dot file, at most 80 bytes. */
char *escape_file_name(struct arena *arena, const char *text);

#endif
