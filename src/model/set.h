/* A set as logged, and the log: everything read from all files, in the order read. */
#ifndef TAUTLINE_MODEL_SET_H
#define TAUTLINE_MODEL_SET_H

#include "base/arena.h"
#include "base/date.h"
#include "base/names.h"
#include "base/unit.h"
#include "model/load.h"

#include <stdbool.h>
#include <stdint.h>

enum set_kind
{
    SET_WORK,
    SET_WARM_UP,
    SET_MISSED
};

enum focus
{
    FOCUS_UNSAID,
    FOCUS_SPEED,
    FOCUS_STRENGTH,
    FOCUS_VOLUME,
    FOCUS_SKILL,
    FOCUS_TEST
};

const char *set_kind_name(enum set_kind kind);        /* work, warm-up, missed */
const char *focus_name(enum focus focus);             /* "" for unsaid */
bool focus_read(const char *word, enum focus *focus); /* the five words, folded; false: another word */

enum ar_said /* where the log speaks of the chains and bands of a set */
{
    AR_UNSAID,
    AR_SAID_IN_NOTE, /* the note of its record, in a table, hangs them; the first set of the record */
    AR_SAID_BEFORE,  /* the same, a later set of the record */
    AR_SAID          /* any other way: a cell, the lift's name, a text log; or a note that names them and hangs none */
};

/* What a note limits its chains or bands to; AR_LIMIT_FIRST + n: to the first n sets. */
enum ar_limit
{
    AR_LIMIT_NONE,
    AR_LIMIT_NOT_LAST,
    AR_LIMIT_TOP_SET,
    AR_LIMIT_OTHER, /* in words that are not read */
    AR_LIMIT_FIRST
};

struct set
{
    const struct load *weight; /* without AR; of log->loads */
    const struct load *ar;     /* without a weight, likewise */
    const char *note;          /* as written; NULL: none. Owned by the log's arena */
    double rpe, rir;           /* as logged; NAN: not */
    double velocity_ms;        /* mean velocity, m/s; NAN: not logged */
    double bodyweight_kg;      /* as logged; NAN: not */
    day_number day;
    uint32_t file;    /* index in log->files */
    uint32_t line;    /* first physical line of its record, from 1 */
    uint32_t lifter;  /* number in log->lifters */
    uint32_t lift;    /* number in log->lifts */
    uint16_t assumed; /* enum assumption: UNIT, DATE_ORDER; the rest is found in the model */
    uint16_t reps;
    uint8_t kind;  /* enum set_kind */
    uint8_t focus; /* enum focus, as the log says */
    bool to_failure;
    bool drop;        /* a drop set: work, but no e1RM */
    uint8_t ar_said;  /* enum ar_said */
    uint8_t ar_limit; /* enum ar_limit */
    bool focus_noted; /* the focus, or that it is light, is from the note of its record */
    bool light;       /* the log calls it a deload: an easy week */
};

struct log_file
{
    const char *path;   /* as the user named it */
    const char *lifter; /* whose pattern in the gym file matches; NULL */
    int64_t modified_ns;
    uint32_t lines, sets, refused, aside; /* aside: read, but no set (runs, planks) */
    uint32_t corrected;                   /* records that were read as corrections have them, or left out */
    bool is_csv, is_sheet;                /* a sheet of a workbook is one of both kinds, too */
    char delimiter;                       /* of a CSV */
    const char *encoding;                 /* "UTF-8", "UTF-16LE", "ISO-8859-1" */
    const char *columns; /* of a CSV: how its header was understood, "Weight (lb) = weight; Reps = reps"; NULL */
    enum mass_unit unit; /* of bare numbers */
    bool unit_assumed;
    day_number first, last; /* of its sets; NO_DAY: none */
};

struct lift_name
{
    const char *name;
    bool names_chain, names_band, names_reverse_band; /* "banded squat": AR of unknown gear unless a cell says more */
};

struct aside /* what was read and is not a set: runs, planks, carries; counted by lift */
{
    uint32_t lift;
    uint32_t count;
};

struct percent_use /* a set whose load is in % of 1RM: kept so that it can be refused later with its place */
{
    size_t set; /* index in log->sets */
    bool sheet; /* the place is one in a sheet: struct place */
    uint32_t column, length;
    const char *excerpt;
};

struct log
{
    struct arena *arena;
    struct loads *loads;
    struct names *lifters;
    struct names *lifts;
    LIST(struct lift_name) lift_names; /* by number in `lifts` */
    LIST(struct log_file) files;
    LIST(struct set) sets;
    LIST(struct aside) asides;
    LIST(struct percent_use) percents;
    struct set_store *set_store; /* where sets are kept small, those that are not in `sets`; NULL: all are in `sets` */
};

struct set_store;
struct log *log_new(struct arena *arena);

#endif
