/* The report as one HTML file: it asks for nothing beside itself, runs no script, and can be read in the light, in the
 * dark, on a telephone and on paper. */
#ifndef TAUTLINE_COMMANDS_REPORT_HTML_H
#define TAUTLINE_COMMANDS_REPORT_HTML_H

#include "analysis/overload.h"
#include "commands/session/session.h"

/* Its pictures are drawn by one run of gnuplot; without it their numbers stand as tables. */
void report_html(struct session *session, struct output *output);

/* Of the element that shows it, in report.css. */
const char *overload_verdict_class(enum overload_verdict verdict);

#endif
