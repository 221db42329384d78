/* Puts gnuplot's pictures into a page. Each is a document of its own and must become a part of one. */
#ifndef TAUTLINE_WRITING_HTML_SVG_H
#define TAUTLINE_WRITING_HTML_SVG_H

#include "writing/html/html.h"

/* Writes a picture of gnuplot's svg terminal into the page: without its document parts, with ids made unique, and
 * with `label` as its text alternative. False: it holds something that no such picture has, and nothing was written. */
bool html_svg(struct html *html, const char *svg, const char *label);

#endif
