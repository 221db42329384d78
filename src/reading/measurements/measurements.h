/* Measurements of bands: a CSV with a column of lengths (or extensions) and one or more columns of pulls, in any unit
 * given in header or cell.
 *
 * Columns are found by their header, in any order: length, stretch, end to end; extension; pull, force, tension,
 * load; flat; band, label; side; date, measured. A pull column may name its side (left, right) or its number (pull 1,
 * pull 2). A line whose first cell begins with # is a comment. A line that cannot be read is refused with its place,
 * and the rest is used. */
#ifndef TAUTLINE_READING_MEASUREMENTS_H
#define TAUTLINE_READING_MEASUREMENTS_H

#include "base/diag.h"
#include "model/measured_band.h"
#include "reading/input/input.h"

struct measurement_options
{
    double flat_m;       /* of bands whose flat length is not in the file; NAN */
    const char *label;   /* of readings that do not name a band; NULL: the file's name without ending */
    double pull_unit_kg; /* of bare pulls below a header without a unit; NAN: they are refused */
    enum date_order dates;
};

struct pull_readings
{
    LIST(struct pull_reading) list;
};

/* Adds the readings of one file. False: nothing in it was used, already reported. */
bool measurements_read(struct arena *arena, struct input *input, const struct measurement_options *options,
                       struct diags *diags, struct pull_readings *readings);

/* Lengths closer than this are one length, measured twice. */
#define SAME_LENGTH_M 0.0005
/* Flat lengths of one band may differ by this much before they contradict each other. */
#define SAME_FLAT 0.01
#define MOST_LENGTHS 1000 /* of one band, side and day */

struct measured_bands
{
    LIST(struct measured_band) list; /* sorted by label in the order of first use, then day, then side */
};

#endif
