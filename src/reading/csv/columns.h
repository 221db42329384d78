/* Which column of an export is which: headers to fields. */
#ifndef TAUTLINE_READING_COLUMNS_H
#define TAUTLINE_READING_COLUMNS_H

#include "base/arena.h"
#include "base/unit.h"
#include "model/gear.h"

#include <stdbool.h>
#include <stddef.h>

/* Fields of a log. FIELD(id, name): the name is what [columns] of the gym file takes. */
#define LOG_FIELDS(X)           \
    X(DATE, "date")             \
    X(LIFTER, "lifter")         \
    X(LIFT, "lift")             \
    X(WEIGHT, "weight")         \
    X(UNIT, "unit")             \
    X(REPS, "reps")             \
    X(SETS, "sets")             \
    X(SET_INDEX, "set")         \
    X(RPE, "rpe")               \
    X(RIR, "rir")               \
    X(VELOCITY, "velocity")     \
    X(CHAIN, "chain")           \
    X(BAND, "band")             \
    X(AR, "ar")                 \
    X(NOTE, "note")             \
    X(FOCUS, "focus")           \
    X(KIND, "kind")             \
    X(BODYWEIGHT, "bodyweight") \
    X(DURATION, "duration")     \
    X(DISTANCE, "distance")     \
    X(SIDE, "side")             \
    X(SUPERSET, "superset")     \
    X(WORKOUT, "workout")

enum log_field
{
#define X(id, name) FIELD_##id,
    LOG_FIELDS(X)
#undef X
        FIELD_COUNT
};

const char *log_field_name(enum log_field field);
const char *log_field_names(struct arena *arena); /* all of them, with commas between */

struct column_use
{
    size_t index; /* of the cell */
    bool unit_said;
    enum mass_unit unit; /* from the header: Weight (lb) */
};

struct column_map
{
    size_t header_cells; /* up to the last header that is not empty */
    /* Columns of each field in order; of doubled headers the first non-empty cell counts. */
    LIST(struct column_use) of[FIELD_COUNT];
    LIST(const char *) ignored; /* headers that mean nothing here */
};

/* The field that a header names, by the synonyms of the trade and the gym's [columns]; FIELD_COUNT: none. Case, blanks,
 * punctuation, and filler words (session, workout, name, no, number, of) do not matter where another word remains. A
 * bracketed or trailing unit is taken off and said through `use`. */
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

/* How each header was understood: "Weight (lb) = weight; Reps = reps; Rest = ignored". For `check`. */
const char *columns_describe(struct arena *arena, const struct column_map *map, const char *const *headers,
                             size_t count);

#endif
