/* Draws a gnuplot script with the gnuplot of this machine, if there is one. */
#ifndef TAUTLINE_WRITING_RENDER_H
#define TAUTLINE_WRITING_RENDER_H

#include "base/arena.h"

#include <stddef.h>

enum render_result
{
    RENDER_DONE,       /* gnuplot ended well; whether it warned shows in `message` */
    RENDER_NO_GNUPLOT, /* none on PATH */
    RENDER_FAILED,     /* it could not be run, or ended with an error */
    RENDER_TIME_OUT    /* it took longer than allowed and was ended */
};

struct render
{
    enum render_result result;
    const char *message; /* what gnuplot said, its first lines; "": nothing */
};

/* Where gnuplot is; NULL: nowhere. Folders of PATH that are not absolute are passed over. */
const char *render_find_gnuplot(struct arena *arena);

/* Runs gnuplot, no shell between, in the script's folder, where the picture appears. Nothing of the user's own settings
 * is read. */
struct render render_script(struct arena *arena, const char *script_path, double time_limit_s);
/* Several of one folder, at least one, by one gnuplot, which costs more to start than most pictures do. It ends with
 * the first that fails: which are drawn shows in the folder. */
struct render render_scripts(struct arena *arena, const char *const *script_paths, size_t count, double time_limit_s);

#endif
