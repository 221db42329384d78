/* The page's pictures: one run of gnuplot draws them in a temporary folder. */
#ifndef TAUTLINE_COMMANDS_REPORT_HTML_DRAWING_H
#define TAUTLINE_COMMANDS_REPORT_HTML_DRAWING_H

#include "commands/report/html/report_html_parts.h"

void page_draw(struct page *page);
void page_end_drawing(struct page *page); /* removes the folder, once no figure is left to write */

/* Writes its title, sentence, picture, and numbers. NULL: nothing. */
void page_figure(struct page *page, const struct picture *picture);
void page_svg(struct page *page, const struct picture *picture); /* only the picture, if there is one */

#endif
