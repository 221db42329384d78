/* The page's sections of one lifter. */
#ifndef TAUTLINE_COMMANDS_REPORT_HTML_LIFTER_H
#define TAUTLINE_COMMANDS_REPORT_HTML_LIFTER_H

#include "analysis/overload.h"

struct page;

/* Of the element that shows it, in report.css. */
const char *overload_verdict_class(enum overload_verdict verdict);

void page_year(struct page *page, const char *lifter);
void page_overload(struct page *page, const char *lifter);
void page_waves(struct page *page, const char *lifter);
void page_loads(struct page *page, const char *lifter);
void page_weeks(struct page *page, const char *lifter);
void page_strength(struct page *page, const char *lifter);

#endif
