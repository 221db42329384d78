/* The pictures: which there are for a log, and the gnuplot script of each. */
#ifndef TAUTLINE_COMMANDS_PICTURES_H
#define TAUTLINE_COMMANDS_PICTURES_H

#include "analysis/overload.h"
#include "analysis/slopes.h"
#include "analysis/trend.h"
#include "analysis/waves.h"
#include "commands/session.h"
#include "writing/gnuplot.h"

struct picture
{
    const char *name; /* of its files, safe and unique, without ending: "oda-squat-speed-waves" */
    const char *title;
    const char *sentence; /* what it shows, for those who cannot see it */
    struct gp_script *script;
};

struct pictures
{
    struct session *session;
    LIST(struct picture) list;
    enum gp_picture kind;
    unsigned width, height; /* 0: the template's own */
    struct names *used;     /* file names */
};

/* All pictures of a session's training, by lifter and lift. */
struct pictures pictures_make(struct session *session, enum gp_picture kind, unsigned width, unsigned height);

#endif
