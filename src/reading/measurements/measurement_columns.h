/* Headers of measurements: what each column means, and its unit. */
#ifndef TAUTLINE_READING_MEASUREMENT_COLUMNS_H
#define TAUTLINE_READING_MEASUREMENT_COLUMNS_H

#include "base/arena.h"
#include "model/measured_band.h"
#include "reading/input/input.h"

#include <stdbool.h>
#include <stddef.h>

enum measurement_field
{
    MEASURED_NOTHING, /* the header is not recognised */
    MEASURED_LENGTH,
    MEASURED_EXTENSION,
    MEASURED_FLAT,
    MEASURED_PULL,
    MEASURED_BAND,
    MEASURED_SIDE,
    MEASURED_WAY,
    MEASURED_DATE,
    MEASURED_NOTE,
    MEASURED_FIELDS
};

enum unit_kind
{
    UNIT_OF_NOTHING,
    UNIT_OF_LENGTH,
    UNIT_OF_PULL
};

struct measurement_column
{
    enum measurement_field field;
    enum band_side side; /* of a pull column */
    double unit;         /* metres or kg per unit; NAN: the header has no unit */
    bool wrong_unit;     /* has a unit of the wrong kind */
};

/* Case, blanks, punctuation and a trailing number do not matter; the unit is at the end, with or without brackets. */
struct measurement_column measurement_column(struct arena *scratch, const char *header);

/* The unit's size in metres or kg. */
enum unit_kind measurement_unit(const char *word, size_t length, double *size);
enum unit_kind measurement_kind(enum measurement_field field); /* of its values */
bool band_side_read(const char *text, enum band_side *side);   /* left, l, right, r; "" is unsaid */
bool band_way_read(const char *text, enum band_way *way);      /* up, down; "" is unsaid */

struct measurement_header
{
    char delimiter, decimal;
    uint32_t line;            /* 0: there is none */
    size_t columns;           /* number of columns that are recognised */
    bool length, pull, whole; /* there is a column for each; both */
};

/* The first line with both columns, else the one that comes nearest. Resets the scratch arena. */
struct measurement_header measurement_header(struct input *input, struct arena *scratch);

#endif
