/* What a gym has and what its lifters are: the records that a gym file fills. Plain data; who reads it is not a concern
 * of these.
 *
 * Lengths in metres, masses and pulls in kg. NAN: not said. Strings are owned by the arena that the gym was made in.
 * Names and labels are matched with gym_*() below: case folded, blanks squeezed. */
#ifndef TAUTLINE_MODEL_GEAR_H
#define TAUTLINE_MODEL_GEAR_H

#include "base/arena.h"
#include "base/date.h"
#include "base/unit.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct gym_place /* where the gym file says it */
{
    uint32_t line;
};

struct chain
{
    const char *label;
    bool is_default;
    double mass_kg;             /* of one chain, without its leader; from size where it was never weighed */
    bool mass_estimated;        /* from the nominal size by link geometry, not weighed */
    double length_m;            /* NAN: unknown */
    double longer_m;            /* hung doubled, of its two strands the longer one; 0: they are equal */
    bool pinned;                /* each strand's other end is held by a fixed pin */
    double pin_m, pin_aside_m;  /* its height, and how far to the side of the bar's path it is */
    double link_m;              /* inner length of one link; never NAN (default 0.05) */
    double leader_m, leader_kg; /* one leader; 0 where there is none */
    double size_m;              /* nominal wire diameter; NAN: not said */
    const char *standard;       /* "DIN 766", "DIN 763", ...; NULL */
    struct gym_place at;
};

struct tension_point
{
    double length_m, pull_kg; /* end to end under load; pull of one band, both strands */
};

enum band_law
{
    LAW_MEASURED,     /* Steffen interpolant through (flat, 0) and the points; the default from two points on */
    LAW_NEO_HOOKEAN,  /* T = c1 (λ − λ⁻²); the default for one point */
    LAW_MOONEY_RIVLIN /* T = (λ − λ⁻²)(c1 + c2/λ) */
};

/* One calibration of one band; the same label may have several, by date. */
struct calibration
{
    day_number measured;          /* NO_DAY: undated, the oldest */
    double flat_m;                /* end to end, unstretched */
    struct tension_point *points; /* by rising length */
    size_t point_count;
    struct tension_point *lowering; /* of the band let go, at the same lengths a lower pull; by rising length */
    size_t lowering_count;          /* 0: it was measured while stretched only */
    enum band_law law;
    double c1_kg, c2_kg; /* of a law; fitted to the points where the gym file gives none; NAN for LAW_MEASURED */
    double range_low_m, range_high_m; /* of the points, or as the gym file says */
    bool one_point;                   /* neo-Hookean through a single point */
    struct gym_place at;
};

struct band
{
    const char *label;
    bool pair;                        /* bought and used as a pair of that label */
    const char *partner;              /* pair = LABEL: the label of the other one; NULL */
    double hitch_m;                   /* length lost in a girth hitch; NAN: not said (0.10 is taken and marked) */
    struct calibration *calibrations; /* by date, oldest first; never empty */
    size_t calibration_count;
};

struct setup /* where the bands hang */
{
    const char *name;
    double height_m;     /* anchor above the floor */
    double offset_m;     /* fore-aft from the bar's path */
    double spread_m;     /* sideways, each anchor from its band's place on the bar */
    double pegs_apart_m; /* two pegs in front of and behind the bar's path, centre to centre; 0: one anchor */
    double peg_diameter_m, bar_diameter_m; /* of what the band lies round; 0: of no account */
    struct gym_place at;
};

enum experience
{
    EXPERIENCE_UNSAID,
    EXPERIENCE_NEW,
    EXPERIENCE_SOME,
    EXPERIENCE_SEASONED
};

struct tested_max
{
    const char *lift; /* as the gym file's [lift] or built-in name has it */
    double kg;        /* of a bodyweight lift: with bodyweight */
    day_number day;
};

struct bar_heights
{
    const char *lift;
    double bottom_m, top_m; /* floor to the bar's centre */
};

enum date_order
{
    DATES_UNSAID,
    DATES_ISO,
    DATES_DMY,
    DATES_MDY
};

struct ar_line /* ar = LIFT DAY..DAY [FOCUS] : EXPRESSION: chains or bands of sets whose log never says them */
{
    const char *lift;
    day_number first, last;
    uint8_t focus; /* enum focus; 0: any */
    const char *expression;
    struct gym_place at;
};

struct lifter
{
    const char *name;
    const char **logs; /* patterns, relative to the gym file's folder */
    size_t log_count;
    enum experience experience;
    double stature_m;
    double bodyweight_kg;
    enum date_order dates;
    struct tested_max *maxes;
    size_t max_count;
    struct bar_heights *heights;
    size_t height_count;
    struct ar_line *ar_lines;
    size_t ar_line_count;
    struct gym_place at;
};

struct lift
{
    const char *name;
    const char **aliases;
    size_t alias_count;
    const char *setup; /* NULL: none */
    bool bodyweight;   /* a lift of the body: its weight is added weight */
    bool per_hand;     /* per = hand: the logged weight is one hand's */
    struct gym_place at;
};

struct confirmed_line /* [gym] confirmed = FILE:LINE: what is written there is so */
{
    const char *file; /* a log's path or the end of one */
    uint32_t line;
};

struct finding_limit /* [limits] FINDING-ID = number or off */
{
    const char *id;
    double value; /* NAN when off */
    bool off;
};

struct column_synonyms /* [columns] FIELD = header, header */
{
    const char *field;
    const char **headers;
    size_t header_count;
    struct gym_place at;
};

struct map;

struct gym
{
    const char *path;   /* NULL: no gym file */
    const char *folder; /* of the path; "." where none */
    bool unit_said;
    enum mass_unit unit; /* of bare numbers in logs */
    double bar_kg;       /* 20 unless said */
    double *plates_kg;   /* one side's choice, heaviest first */
    int *plate_pairs;    /* pairs at hand of each; -1: as many as wanted */
    size_t plate_count;
    const char *formula; /* of the e1RM; NULL: Epley */
    enum date_order dates;
    bool ar_stays;               /* carry-ar = no: the note on a first set is not a word on later ones */
    double u_height_m;           /* standard uncertainty of a bar height, 0.01 */
    double u_mass, u_mass_sized; /* relative, of a chain weighed (0.01) and from its size (0.05) */
    double u_tension;            /* relative, 0.03 */
    struct chain *chains;
    size_t chain_count;
    struct band *bands;
    size_t band_count;
    struct setup *setups;
    size_t setup_count;
    struct lifter *lifters;
    size_t lifter_count;
    struct lift *lifts;
    size_t lift_count;
    const struct map *lift_keys;  /* of their names: reading/lift_names.c's; NULL: each name is compared */
    const struct map *lift_names; /* gym_index_lifts()'s, of a gym with many; likewise */
    struct finding_limit *limits;
    size_t limit_count;
    bool start_said;
    int32_t start; /* the Monday of week 1, in days since 1970-01-01 */
    struct column_synonyms *columns;
    size_t column_count;
    struct confirmed_line *confirmed;
    size_t confirmed_count;
};

struct gym *gym_new(struct arena *arena); /* empty: the defaults above */

/* Lookups; all borrow from the gym and return NULL where it has none. */
const struct chain *gym_chain(const struct gym *gym, const char *label);
const struct chain *gym_default_chain(const struct gym *gym); /* default = yes; else the only one; else NULL */
/* Of a leader like the chain's, of that length: as heavy per metre. A shackle without length is as heavy as ever. */
double chain_leader_of_kg(const struct chain *chain, double leader_m);
const struct band *gym_band(const struct gym *gym, const char *label);
const struct setup *gym_setup(const struct gym *gym, const char *name);
const struct lifter *gym_lifter(const struct gym *gym, const char *name);
/* When all lifts are known: of thousands, each name would be compared with each. */
void gym_index_lifts(struct arena *arena, struct gym *gym);
const struct lift *gym_lift(const struct gym *gym, const char *name_or_alias);
const struct bar_heights *lifter_heights(const struct lifter *lifter, const char *lift); /* lifter may be NULL */

/* The calibration in force on a day: the newest on or before it, else the first. */
const struct calibration *band_calibration(const struct band *band, day_number day);

#endif
