/* The pictures: which there are for a log, the gnuplot script of each, and the numbers that it draws. */
#ifndef TAUTLINE_COMMANDS_PICTURES_H
#define TAUTLINE_COMMANDS_PICTURES_H

#include "analysis/statistics/slopes.h"
#include "analysis/trend.h"
#include "analysis/verdict.h"
#include "analysis/waves.h"
#include "commands/session/session.h"
#include "writing/gnuplot/gnuplot.h"

enum picture_theme
{
    PICTURE_YEAR,   /* a lifter's year, a strip per lift and focus */
    PICTURE_TEAM,   /* every lifter's newest waves */
    PICTURE_GLANCE, /* the newest wave beside the one before, without words: for a page */
    PICTURE_WAVES,
    PICTURE_PLANNED,       /* a plan beside what was done */
    PICTURE_SPANS,         /* the same weeks of two spans or of two lifters */
    PICTURE_CONTRIBUTIONS, /* straight weight, chain and band, by wave */
    PICTURE_CURVES,        /* load by height of the bar */
    PICTURE_WEEKS,         /* volume and intensity */
    PICTURE_ZONES,
    PICTURE_E1RM,
    PICTURE_VELOCITY
};

struct picture_data /* what a picture draws, as a table for people */
{
    const char *const *titles; /* loads name their unit */
    size_t columns;            /* 0: it has none */
    LIST(const char *) cells;  /* row by row; "": there is no such value */
};

struct picture
{
    enum picture_theme theme;
    const char *lifter, *lift; /* "": of several */
    enum focus focus;          /* FOCUS_UNSAID: of several */
    const char *name;          /* of its files, safe and unique, without ending: "oda-squat-speed-waves" */
    const char *title;
    const char *sentence; /* what it shows, for those who cannot see it; "": nothing to add */
    struct gp_script *script;
    struct picture_data data;
};

struct picture_style
{
    enum gp_picture kind;
    unsigned width, height; /* 0: the template's own */
    bool for_page;          /* title and sentence stand beside it, and its data; glances too */
    bool only_year;         /* the years alone */
    bool only_ar;           /* lifts without chain or band have none but their glance */
};

struct pictures
{
    struct session *session;
    struct picture_style style;
    LIST(struct picture) list;
    struct names *used;    /* file names */
    struct names *with_ar; /* lifters' lifts with chain or band; NULL: nobody asks */
    struct map *places;    /* of each, and of the first of each theme and lifter */
};

/* All pictures of a session's training, by theme and within it by lifter and lift. */
struct pictures pictures_make(struct session *session, const struct picture_style *style);

/* NULL: there is none. */
const struct picture *picture_find(const struct pictures *pictures, enum picture_theme theme, const char *lifter,
                                   const char *lift, enum focus focus);

/* The first of the theme and lifter, and the next one; NULL: there is none. */
const struct picture *picture_first(const struct pictures *pictures, enum picture_theme theme, const char *lifter);
const struct picture *picture_next(const struct pictures *pictures, const struct picture *picture);

/* Does the style ask for pictures of this lift? */
bool lift_wanted(const struct pictures *pictures, const char *lifter, const char *lift);

#endif
