/* gnuplot's pictures put into a page: what is one document among many there must become a part of one. */
#ifndef TAUTLINE_WRITING_HTML_SVG_H
#define TAUTLINE_WRITING_HTML_SVG_H

#include "writing/html/html.h"

/* A picture as gnuplot's svg terminal makes it, put into the page: no document of its own, its ids its own, `label` for
 * those who cannot see it. False: it holds what no such picture has, and nothing was written. */
bool html_svg(struct html *html, const char *svg, const char *label);

#endif
