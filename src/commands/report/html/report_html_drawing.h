/* The page's pictures: drawn by one run of gnuplot in a folder that is gone afterwards. */
#ifndef TAUTLINE_COMMANDS_REPORT_HTML_DRAWING_H
#define TAUTLINE_COMMANDS_REPORT_HTML_DRAWING_H

#include "commands/report/html/report_html_parts.h"

void page_draw(struct page *page);

/* Its title, sentence, picture, and numbers. NULL: nothing. */
void page_figure(struct page *page, const struct picture *picture);
void page_svg(struct page *page, const struct picture *picture); /* the picture alone, or nothing */

#endif
