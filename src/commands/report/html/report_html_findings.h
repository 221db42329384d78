/* The page's findings of one lifter, by what to do about them, the most severe first; one entry per cause. */
#ifndef TAUTLINE_COMMANDS_REPORT_HTML_FINDINGS_H
#define TAUTLINE_COMMANDS_REPORT_HTML_FINDINGS_H

#include "commands/report/html/report_html_parts.h"

size_t page_finding_count(const struct page *page, const char *lifter, enum finding_severity severity);
void page_findings(struct page *page, const char *lifter);

#endif
