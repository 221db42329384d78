/* What the files of report_html.h share: the page, and its parts from top to bottom. */
#ifndef TAUTLINE_COMMANDS_REPORT_HTML_PARTS_H
#define TAUTLINE_COMMANDS_REPORT_HTML_PARTS_H

#include "commands/pictures/pictures.h"
#include "commands/report/report_text.h"
#include "writing/html/html.h"
#include "writing/unfinished.h"

struct page_entry /* a section's entry in the list at the top */
{
    const char *id, *title;
};

struct page
{
    struct report report; /* its names leave out the lifter, who is in the heading */
    struct html *html;
    struct pictures pictures;
    const char *folder;            /* where the pictures are drawn, until the page is written; NULL: nowhere */
    struct unfinished *unfinished; /* of the folder */
    bool *drawn;                   /* by picture: gnuplot drew it */
    const char *undrawn;           /* why pictures are missing, for the reader; NULL: none is */
    const char *const *lifters;    /* lifters with the most severe findings first */
    size_t lifter_count;
    int level; /* of the headings of a lifter's sections */
    LIST(struct page_entry) entries;
};

#endif
