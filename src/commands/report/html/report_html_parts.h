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

#endif
