/* The files of plots/, unchanged, embedded in the program. plots/embed.sh makes plots_embedded.c when the program is
 * built. */
#ifndef TAUTLINE_WRITING_PLOTS_EMBEDDED_H
#define TAUTLINE_WRITING_PLOTS_EMBEDDED_H

#include <stddef.h>

struct plot_text
{
    const char *name;          /* file name; templates without .gp */
    const unsigned char *text; /* not NUL-terminated */
    size_t length;
};

extern const struct plot_text plots_embedded[];
extern const size_t plots_embedded_count;

#endif
