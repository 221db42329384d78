/* Scripts of pictures onto the disk, and drawn where gnuplot is found. What goes wrong is said on standard error and
 * kept in the session as unwritten. */
#ifndef TAUTLINE_COMMANDS_DRAWING_H
#define TAUTLINE_COMMANDS_DRAWING_H

#include "commands/session.h"
#include "writing/gnuplot.h"

enum gp_picture drawing_kind(const char *render); /* of --render; NULL: not said, SVG */
bool drawing_wanted(const char *render);          /* --render none: scripts only */

bool drawing_write(struct session *session, const char *path, struct gp_script *script);
/* False: no gnuplot here, so that drawing the next one makes no sense either. */
bool drawing_render(struct session *session, const char *path, size_t *rendered);

#endif
