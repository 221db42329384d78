/* The end of the page: what was assumed, what was refused, the glossary, and safety. */
#ifndef TAUTLINE_COMMANDS_REPORT_HTML_CLOSING_H
#define TAUTLINE_COMMANDS_REPORT_HTML_CLOSING_H

#include "commands/report/html/report_html_parts.h"

/* those that hold for all lifters */
void page_assumed(struct page *page);
void page_refused(struct page *page);
void page_words(struct page *page);
void page_cautions(struct page *page);

#endif
