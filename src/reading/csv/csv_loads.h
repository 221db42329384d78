/* Weight, AR and note of a record: one load out of several cells. */
#ifndef TAUTLINE_READING_CSV_LOADS_H
#define TAUTLINE_READING_CSV_LOADS_H

#include "reading/csv/csv_log.h"

/* Weight, AR cells and note to one load; the note and a focus that is none of the five words to one note. */
bool csv_read_load(struct csv_log *log, struct csv_entry *entry);

/* The load as one that is added to the body. */
const struct load *csv_on_body(struct csv_log *log, const struct load *load);

#endif
