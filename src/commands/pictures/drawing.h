/* Writes the scripts of pictures, and draws them where gnuplot is installed. Failures are reported on standard error
 * and kept in the session as unwritten. */
#ifndef TAUTLINE_COMMANDS_DRAWING_H
#define TAUTLINE_COMMANDS_DRAWING_H

#include "commands/session/session.h"
#include "writing/gnuplot/gnuplot.h"

enum gp_picture drawing_kind(const char *render); /* of --render; NULL: not given, so SVG */
bool drawing_wanted(const char *render);          /* --render none: scripts only */

/* Draws all of them, several at a time where the session's jobs allow it. Counts what was written and what was
 * drawn. */
struct drawing_job
{
    const char *path;
    struct gp_script *script;
};

struct drawing_counts
{
    size_t written, rendered;
};

struct drawing_counts drawing_all(struct session *session, const struct drawing_job *drawings, size_t count,
                                  bool render);

bool drawing_write(struct session *session, const char *path, struct gp_script *script);
/* False: no gnuplot here, so that drawing the next one makes no sense either. */
bool drawing_render(struct session *session, const char *path, struct gp_script *script, size_t *rendered);

#endif
