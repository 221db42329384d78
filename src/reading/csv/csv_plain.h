/* Plain CSV records, split without libcsv: most records of most exports.
 *
 * Written by hand because of measurements: libcsv's state machine visits every byte and would take four fifths of the
 * time for a log. Invariant: libcsv is the authority. Records that are not plain (blanks around a cell, text after a
 * closing quote, a quote within a bare cell, a carriage return, a record that is long or does not end in the
 * available text) are left to it, and plain ones are split exactly as it would split them. */
#ifndef TAUTLINE_READING_CSV_PLAIN_H
#define TAUTLINE_READING_CSV_PLAIN_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define CSV_PLAIN_BYTES 4096 /* a longer record is not plain */
#define CSV_PLAIN_CELLS 256  /* nor is one with more cells */
#define CSV_PLAIN_STEP 64    /* bytes examined together, as a mask with one bit each */

struct csv_plain
{
    char delimiter;
    size_t count;
    const char *cells[CSV_PLAIN_CELLS + CSV_PLAIN_STEP]; /* into `text`, NUL-terminated; a last step may add too many */
    size_t lengths[CSV_PLAIN_CELLS + CSV_PLAIN_STEP];
    uint32_t inner_ends;        /* line ends within quoted cells */
    char text[CSV_PLAIN_BYTES]; /* of the record, each cell at its own offset */
};

/* Splits the record at the start of `text`. Returns its length in bytes, with its line end; 0: there is none that is
 * plain and complete. */
size_t csv_plain_split(struct csv_plain *plain, const char *text, size_t length);

#endif
