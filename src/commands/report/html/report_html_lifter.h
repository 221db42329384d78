/* The page's sections of one lifter. */
#ifndef TAUTLINE_COMMANDS_REPORT_HTML_LIFTER_H
#define TAUTLINE_COMMANDS_REPORT_HTML_LIFTER_H

#include "analysis/verdict.h"

struct page;

/* Class of the element that shows it, in report.css. */
const char *verdict_class(enum verdict_kind kind);

void page_year(struct page *page, const char *lifter);
void page_verdicts(struct page *page, const char *lifter);
void page_waves(struct page *page, const char *lifter);
void page_loads(struct page *page, const char *lifter);
void page_weeks(struct page *page, const char *lifter);
void page_strength(struct page *page, const char *lifter);

#endif
