/* A series in one line of characters: ▁▂▅▇, or .:-=+*#@ where only ASCII is safe. */
#ifndef TAUTLINE_WRITING_SPARKLINE_H
#define TAUTLINE_WRITING_SPARKLINE_H

#include "base/arena.h"

#include <stdbool.h>
#include <stddef.h>

struct sparkline_style
{
    size_t width;   /* columns at most; a longer series is divided into equal parts, and their means are drawn. 0: one
                       column per value */
    bool from_zero; /* the lowest character means 0 (volumes), not the smallest value */
    bool ascii;
};

/* A value that is not finite becomes a blank. A constant series is drawn at half height. */
char *sparkline(struct arena *arena, const double *values, size_t count, const struct sparkline_style *style);

#endif
