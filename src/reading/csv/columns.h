/* Maps the headers of an export to fields. */
#ifndef TAUTLINE_READING_COLUMNS_H
#define TAUTLINE_READING_COLUMNS_H

#include "base/arena.h"
#include "base/unit.h"
#include "model/gear.h"

#include <stdbool.h>
#include <stddef.h>

/* Fields of a log. FIELD(id, name): the name is the one used in [columns] of the gym file. */
#define LOG_FIELDS(X)                                                                                                  \
    X(DATE, "date")                                                                                                    \
    X(LIFTER, "lifter")                                                                                                \
    X(LIFT, "lift")                                                                                                    \
    X(WEIGHT, "weight")                                                                                                \
    X(UNIT, "unit")                                                                                                    \
    X(REPS, "reps")                                                                                                    \
    X(SETS, "sets")                                                                                                    \
    X(SET_INDEX, "set")                                                                                                \
    X(RPE, "rpe")                                                                                                      \
    X(RIR, "rir")                                                                                                      \
    X(VELOCITY, "velocity")                                                                                            \
    X(CHAIN, "chain")                                                                                                  \
    X(BAND, "band")                                                                                                    \
    X(AR, "ar")                                                                                                        \
    X(NOTE, "note")                                                                                                    \
    X(FOCUS, "focus")                                                                                                  \
    X(KIND, "kind")                                                                                                    \
    X(BODYWEIGHT, "bodyweight")                                                                                        \
    X(DURATION, "duration")                                                                                            \
    X(DISTANCE, "distance")                                                                                            \
    X(SIDE, "side")                                                                                                    \
    X(SUPERSET, "superset")                                                                                            \
    X(WORKOUT, "workout")                                                                                              \
    X(WEEK, "week")                                                                                                    \
    X(WEEKDAY, "weekday")

enum log_field
{
#define X(id, name) FIELD_##id,
    LOG_FIELDS(X)
#undef X
    FIELD_COUNT
};

const char *log_field_name(enum log_field field);
const char *log_field_names(struct arena *arena); /* all of them, separated by commas */

enum column_rank /* how reliably a header names its field, to choose between columns of one field */
{
    COLUMN_BY_WORDS, /* its words are the field's, in some order, perhaps with fillers: used if there is nothing better
                      */
    COLUMN_EXACT,    /* a synonym of the trade */
    COLUMN_ACTUAL,   /* it says that this was done: with "actual reps", "reps" is left out, since it may be a plan */
    COLUMN_TOLD      /* the user said so: comes before any other */
};

struct column_use
{
    size_t index; /* of its cell in a record */
    enum column_rank rank;
    bool planned;          /* what was to be done: not a column of any field */
    bool per_side, plural; /* of chains or bands: each cell is for one side; "chains", not "chain" */
    bool warm_up;          /* of a set's kind: each cell is yes or no */
    bool effort;           /* "effort": an RPE if its numbers fit, so it has no field until its cells were seen */
    bool unit_said;
    enum mass_unit unit; /* from the header: Weight (lb) */
};

struct column_map
{
    size_t header_cells; /* up to the last header that is not empty */
    /* Columns of each field in order; if a header occurs twice, the first non-empty cell counts. */
    LIST(struct column_use) of[FIELD_COUNT];
    LIST(struct column_use) effort; /* columns with this header, if there is no column of RPE or RIR */
    LIST(const char *) ignored;     /* headers that are not recognised */
    LIST(size_t) unread;            /* those of them whose headers name chains or bands, except planned ones */
};

struct column_gear /* chains, bands or releasers that a header names */
{
    enum log_field field; /* field of such a column; FIELD_COUNT: it names none */
    bool plural;
};
struct column_gear column_gear(const char *header);

/* The field that a header names, by the gym's [columns] and the usual synonyms; FIELD_COUNT: none. Case, blanks,
 * punctuation, the order of words, and fillers (session, workout, name, no, number, of, count, training, working ...)
 * do not matter as long as another word remains; a planned or target column has no field. A bracketed or trailing
 * unit is removed and returned in `use`, and so is "per side" next to chains or bands. Columns given on the command
 * line must be put into gym->columns, because all readers look there. */
enum log_field column_field(const char *header, const struct gym *gym, struct column_use *use);

void columns_map(struct arena *arena, struct column_map *map, const char *const *headers, size_t count,
                 const struct gym *gym);
bool columns_look_like_log(const struct column_map *map); /* there is a date column and a lift column */
/* All required columns but one are there: such a log is refused with that column's name, and not read as text. */
bool columns_nearly_log(const struct column_map *map);
/* The required fields that are missing, as words ("weight, reps"); NULL: none. Date, lift, weight and reps are
 * required; logs with only AR or bodyweight need a weight column too. */
const char *columns_missing(struct arena *arena, const struct column_map *map);
size_t columns_needed_cells(const struct column_map *map); /* a record with fewer cells lacks a required field */

/* Uses a column headed "effort" as the RPE, after its cells have shown that it is. */
void columns_take_effort(struct arena *arena, struct column_map *map);

/* The field's name, with "per side" if the header says so. */
const char *column_meaning(struct arena *arena, enum log_field field, const struct column_use *use);

/* How each header was understood: "Weight (lb) = weight; Reps = reps; Rest = ignored". For `check`. */
const char *columns_describe(struct arena *arena, const struct column_map *map, const char *const *headers,
                             size_t count);

#endif
