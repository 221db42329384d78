/* The report as one HTML file: it asks for nothing beside itself, runs no script, and can be read in the light, in the
 * dark, on a telephone and on paper. */
#ifndef TAUTLINE_COMMANDS_REPORT_HTML_H
#define TAUTLINE_COMMANDS_REPORT_HTML_H

#include "analysis/verdict.h"
#include "commands/session/session.h"

/* Its pictures are drawn by one run of gnuplot; without it their numbers stand as tables. */
void report_html(struct session *session, struct output *output);

struct page;

/* A section with its heading; the id's words come from `lifter` and `title`. Ends with html_close(). */
void page_section(struct page *page, const char *lifter, const char *title);

#endif
