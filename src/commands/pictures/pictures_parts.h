/* What the files of pictures.h share: a picture is begun, then filled block by block. What goes through both_...() is
 * drawn and also goes into the picture's table; loads are given in kg and come out in the session's unit. */
#ifndef TAUTLINE_COMMANDS_PICTURES_PARTS_H
#define TAUTLINE_COMMANDS_PICTURES_PARTS_H

#include "commands/pictures/pictures.h"

struct drawn /* a picture being filled */
{
    struct pictures *pictures;
    struct picture *picture; /* good until the next one is begun */
    struct gp_script *script;
};

struct picture_of
{
    enum picture_theme theme;
    const char *lifter, *lift;
    enum focus focus;
    const char *template_name;
    const char *file; /* the last words of its file name */
    const char *what; /* of its title: "speed waves" */
    const char *sentence;
};

struct drawn picture_begin(struct pictures *pictures, const struct picture_of *of);

/* Titles of the table; "kg" in them becomes the session's unit. They must outlive the pictures. */
void data_titles(struct drawn *drawn, const char *const *titles, size_t count);

double picture_load(const struct pictures *pictures, double kg);
const char *picture_load_words(const struct pictures *pictures, double kg);     /* "102.5 kg" */
const char *picture_gear(const struct pictures *pictures, const char *ar);      /* in the session's unit */
const char *picture_day_words(const struct pictures *pictures, day_number day); /* "9 Sep 2026" */
/* What changed in the set-up between two weeks: "2 → 3 chains/side", "straight → 2 chains/side". */
const char *setup_change_words(const struct pictures *pictures, const struct wave_week *from,
                               const struct wave_week *to);

void both_day(struct drawn *drawn, day_number day);
void both_text(struct drawn *drawn, const char *text);
void both_load(struct drawn *drawn, double kg, int decimals);
void both_number(struct drawn *drawn, double value, int decimals);
void both_share(struct drawn *drawn, double fraction, int decimals); /* shown in per cent */
void both_end(struct drawn *drawn);

/* Goes into the table only. */
void only_text(struct drawn *drawn, const char *text);
void only_load(struct drawn *drawn, double kg, int decimals);

#define DATA_TITLES(drawn, ...)                                                                                        \
    data_titles((drawn), (const char *const[]){__VA_ARGS__},                                                           \
                sizeof((const char *const[]){__VA_ARGS__}) / sizeof(const char *))

#endif
