/* What the files of report_html.h share: the page, and its parts from top to bottom. */
#ifndef TAUTLINE_COMMANDS_REPORT_HTML_PARTS_H
#define TAUTLINE_COMMANDS_REPORT_HTML_PARTS_H

#include "commands/pictures/pictures.h"
#include "commands/report/report_text.h"
#include "writing/html/html.h"

struct page_entry /* a section, for those who want to go straight to it */
{
    const char *id, *title;
};

struct page
{
    struct report report; /* whose names leave the lifter out: a heading says whose they are */
    struct html *html;
    struct pictures pictures;
    const char **drawn;         /* by picture: what gnuplot made; NULL: nothing */
    const char *undrawn;        /* why some picture is missing, for the reader; NULL: none is */
    const char *const *lifters; /* those with the gravest findings first */
    size_t lifter_count;
    int level; /* of the headings of a lifter's sections */
    LIST(struct page_entry) entries;
};

/* report_html_drawing.c */
void page_draw(struct page *page);
/* Its title, sentence, picture, and numbers. NULL: nothing. */
void page_figure(struct page *page, const struct picture *picture);
void page_svg(struct page *page, const struct picture *picture); /* the picture alone, or nothing */

/* report_html_lifter.c: the sections of one lifter */
void page_overload(struct page *page, const char *lifter);
void page_waves(struct page *page, const char *lifter);
void page_loads(struct page *page, const char *lifter);
void page_weeks(struct page *page, const char *lifter);
void page_strength(struct page *page, const char *lifter);

/* report_html_findings.c */
size_t page_finding_count(const struct page *page, const char *lifter, enum finding_severity severity);
void page_findings(struct page *page, const char *lifter);

/* report_html_closing.c: what holds for all lifters */
void page_assumed(struct page *page);
void page_refused(struct page *page);
void page_words(struct page *page);
void page_cautions(struct page *page);

/* A section with its heading; the id's words come from `lifter` and `title`. Ends with html_close(). */
void page_section(struct page *page, const char *lifter, const char *title);

#endif
