/* The page's sections of one lifter. */
#ifndef TAUTLINE_COMMANDS_REPORT_HTML_LIFTER_H
#define TAUTLINE_COMMANDS_REPORT_HTML_LIFTER_H

#include "analysis/verdict.h"

struct page;

/* Class of the element that shows it, in report.css. */
const char *verdict_class(enum verdict_kind kind);

/* Puts one of many lifters, in an arena of its own: what it takes to write is not kept for thousands of them. */
void page_one_of_many(const struct page *page, const char *lifter, void (*put)(struct page *, const char *lifter));

void page_year(struct page *page, const char *lifter);
void page_verdicts(struct page *page, const char *lifter);
void page_waves(struct page *page, const char *lifter);
void page_loads(struct page *page, const char *lifter);
void page_weeks(struct page *page, const char *lifter);
void page_strength(struct page *page, const char *lifter);

#endif
