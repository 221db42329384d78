/* A series in one line of characters: ▁▂▅▇, or .:-=+*#@ where only ASCII is safe. */
#ifndef TAUTLINE_WRITING_SPARKLINE_H
#define TAUTLINE_WRITING_SPARKLINE_H

#include "base/arena.h"

#include <stdbool.h>
#include <stddef.h>

struct sparkline_style
{
    size_t width;   /* columns at most; a longer series is drawn by the means of equal parts. 0: one column a value */
    bool from_zero; /* the lowest character stands for 0 (volumes), not for the smallest value */
    bool ascii;
};

/* A value that is not finite is a blank. A series that does not vary is drawn at half height. */
char *sparkline(struct arena *arena, const double *values, size_t count, const struct sparkline_style *style);

#endif
