/* The report as one HTML file: it loads nothing else, runs no script, and can be read in light and dark mode, on a
 * phone and on paper. */
#ifndef TAUTLINE_COMMANDS_REPORT_HTML_H
#define TAUTLINE_COMMANDS_REPORT_HTML_H

#include "analysis/verdict.h"
#include "commands/session/session.h"

/* One run of gnuplot draws its pictures; without gnuplot, tables show their numbers instead. */
void report_html(struct session *session, struct output *output);

struct page;

/* Opens a section with its heading; `lifter` and `title` make up the id. Must be closed with html_close(). */
void page_section(struct page *page, const char *lifter, const char *title);

#endif
