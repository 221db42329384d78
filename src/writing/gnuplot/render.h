/* Draws a gnuplot script with the gnuplot of this machine, if there is one. */
#ifndef TAUTLINE_WRITING_RENDER_H
#define TAUTLINE_WRITING_RENDER_H

#include "base/arena.h"

#include <stddef.h>

enum render_result
{
    RENDER_DONE,       /* gnuplot ended well; its warnings, if any, are in `message` */
    RENDER_NO_GNUPLOT, /* not found on PATH */
    RENDER_FAILED,     /* could not be run, or ended with an error */
    RENDER_TIME_OUT    /* it took longer than allowed and was ended */
};

struct render
{
    enum render_result result;
    const char *message; /* the first lines of gnuplot's messages; "": none */
};

/* The path of gnuplot; NULL: not found. Folders of PATH that are not absolute are skipped. */
const char *render_find_gnuplot(struct arena *arena);

/* Runs gnuplot, without a shell, in the script's folder, where the picture appears. The user's own gnuplot settings
 * are not read. */
struct render render_script(struct arena *arena, const char *script_path, double time_limit_s);
/* Draws one or more scripts of one folder with a single gnuplot, which takes longer to start than to draw most
 * pictures. It stops at the first one that fails: check in the folder which pictures were drawn. */
struct render render_scripts(struct arena *arena, const char *const *script_paths, size_t count, double time_limit_s);

#endif
