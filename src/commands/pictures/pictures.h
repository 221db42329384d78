/* The pictures: which ones a log has, the gnuplot script of each, and the numbers that it draws. */
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
    PICTURE_YEAR,   /* a lifter's year, one strip per lift and focus */
    PICTURE_TEAM,   /* every lifter's newest waves */
    PICTURE_GLANCE, /* the newest wave against the one before, without words: for a page */
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

struct picture_data /* the numbers behind a picture, as a table for people */
{
    const char *const *titles; /* titles of loads include the unit */
    size_t columns;            /* 0: there is no table */
    LIST(const char *) cells;  /* row by row; "": the value does not exist */
};

struct picture
{
    enum picture_theme theme;
    const char *lifter, *lift; /* "": of several */
    enum focus focus;          /* FOCUS_UNSAID: of several */
    const char *name;          /* base name of its files, safe and unique: "oda-squat-speed-waves" */
    const char *title;
    const char *sentence; /* what it shows, for those who cannot see it; "": nothing to add */
    struct gp_script *script;
    struct picture_data data;
};

struct picture_style
{
    enum gp_picture kind;
    unsigned width, height; /* 0: the template's own */
    bool for_page;          /* the page shows title, sentence and data next to it; includes glances */
    bool only_year;         /* only the years */
    bool only_ar;           /* lifts without chain or band get only their glance */
};

struct pictures
{
    struct session *session;
    struct picture_style style;
    LIST(struct picture) list;
    struct names *used;    /* file names */
    struct names *with_ar; /* lifters' lifts with chain or band; NULL: not asked for */
    struct map *places;    /* of each, and of the first of each theme and lifter */
};

/* All pictures of a session's training, sorted by theme, then by lifter and lift. */
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
