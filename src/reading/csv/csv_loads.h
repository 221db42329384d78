/* Weight, AR and note of a record: combines several cells into one load. */
#ifndef TAUTLINE_READING_CSV_LOADS_H
#define TAUTLINE_READING_CSV_LOADS_H

#include "reading/csv/csv_log.h"

/* Combines weight, AR cells and note into one load; and the note and a focus other than the five words into one
 * note. */
bool csv_read_load(struct csv_log *log, struct csv_entry *entry);

/* The load as one that is added to the body. */
const struct load *csv_on_body(struct csv_log *log, const struct load *weight);

#endif
