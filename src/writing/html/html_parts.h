/* What the files of html.h share. */
#ifndef TAUTLINE_WRITING_HTML_PARTS_H
#define TAUTLINE_WRITING_HTML_PARTS_H

#include "base/names.h"
#include "writing/html/html.h"

#define HTML_DEEPEST 64

struct html
{
    struct arena *arena;
    struct output *output;
    const char *open[HTML_DEEPEST];
    size_t depth;
    bool tag_open; /* of the innermost element: attributes can still be added */
    struct names *ids;
    unsigned pictures;
    const struct column *columns; /* of the open table */
    size_t column_count;
    struct row_cells *cells; /* of its rows */
    enum mass_unit unit;
};

#endif
