/* What an SVG says to those who cannot see it: the picture's heading as its title and the sentence as its description,
 * where gnuplot writes its own name. */
#ifndef TAUTLINE_WRITING_DESCRIBE_H
#define TAUTLINE_WRITING_DESCRIBE_H

#include "base/arena.h"

#include <stdbool.h>

/* False: it cannot be read or written, and stays as gnuplot made it. */
bool describe_svg(struct arena *arena, const char *path, const char *title, const char *description);

#endif
