/* Which column of an export is which: headers to fields. */
#ifndef TAUTLINE_READING_COLUMNS_H
#define TAUTLINE_READING_COLUMNS_H

#include "base/arena.h"
#include "base/unit.h"
#include "model/gear.h"

#include <stdbool.h>
#include <stddef.h>

/* Fields of a log. FIELD(id, name): the name is what [columns] of the gym file takes. */
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
const char *log_field_names(struct arena *arena); /* all of them, with commas between */

enum column_rank /* how sure a header is of its field; of several columns of one field */
{
    COLUMN_BY_WORDS, /* its words are the field's, in some order and next to fillers: taken where nothing better is
                        there */
    COLUMN_EXACT,    /* a synonym of the trade */
    COLUMN_ACTUAL,   /* it says that this was done: "actual reps" leaves out "reps", which may be a plan */
    COLUMN_TOLD      /* the user said so: taken before any other */
};

struct column_use
{
    size_t index; /* of the cell */
    enum column_rank rank;
    bool planned;          /* what was to be done: its column is none of a field */
    bool per_side, plural; /* of chains or bands: each cell says one side's; "chains", not "chain" */
    bool warm_up;          /* of a set's kind: each cell says yes or no */
    bool effort;           /* "effort": an RPE if its numbers are, so it is none of a field before its cells are seen */
    bool unit_said;
    enum mass_unit unit; /* from the header: Weight (lb) */
};

struct column_map
{
    size_t header_cells; /* up to the last header that is not empty */
    /* Columns of each field in order; of doubled headers the first non-empty cell counts. */
    LIST(struct column_use) of[FIELD_COUNT];
    LIST(struct column_use) effort; /* columns headed so, where no column of RPE or RIR is there */
    LIST(const char *) ignored;     /* headers that mean nothing here */
    LIST(size_t) unread;            /* columns among them whose headers name chains or bands, and no plan of some */
};

struct column_gear /* chains, bands or releasers that a header names */
{
    enum log_field field; /* of a column of them; FIELD_COUNT: it names none */
    bool plural;
};
struct column_gear column_gear(const char *header);

/* The field that a header names, by the gym's [columns] and the synonyms of the trade; FIELD_COUNT: none. Case, blanks,
 * punctuation, the order of words, and fillers (session, workout, name, no, number, of, count, training, working ...)
 * do not matter where another word remains; a planned or target column is none. A bracketed or trailing unit is taken
 * off and said through `use`, and so is "per side" next to chains or bands. What the command line says of columns is to
 * be put into gym->columns: all readers ask here. */
enum log_field column_field(const char *header, const struct gym *gym, struct column_use *use);

void columns_map(struct arena *arena, struct column_map *map, const char *const *headers, size_t count,
                 const struct gym *gym);
bool columns_look_like_log(const struct column_map *map); /* a date and a lift column are there */
/* All needed columns but one are there: such a log is refused by that column's name, not read as text. */
bool columns_nearly_log(const struct column_map *map);
/* The needed fields that are missing, as words ("weight, reps"); NULL: none. Date, lift, weight and reps are needed;
 * AR-only or bodyweight logs need a weight column too. */
const char *columns_missing(struct arena *arena, const struct column_map *map);
size_t columns_needed_cells(const struct column_map *map); /* a record with fewer cells lacks a needed field */

/* Takes a column headed "effort" for the RPE; its cells have shown that it is. */
void columns_take_effort(struct arena *arena, struct column_map *map);

/* The field's name, with "per side" where the header says so. */
const char *column_meaning(struct arena *arena, enum log_field field, const struct column_use *use);

/* How each header was understood: "Weight (lb) = weight; Reps = reps; Rest = ignored". For `check`. */
const char *columns_describe(struct arena *arena, const struct column_map *map, const char *const *headers,
                             size_t count);

#endif
