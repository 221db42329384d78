/* Effort, velocity, kind, bodyweight, repetitions: the small cells of a record. */
#ifndef TAUTLINE_READING_CSV_CELLS_H
#define TAUTLINE_READING_CSV_CELLS_H

#include "reading/csv/csv_log.h"

bool csv_number(struct csv_log *log, const char *text, double *value);
bool csv_cell_number(struct csv_log *log, const struct csv_cell *cell, double *value); /* the same for a whole cell */

/* These two never refuse: a value that cannot be used is reported and left out. */
void csv_read_effort(struct csv_log *log, struct csv_entry *entry);
bool csv_read_kind(struct csv_log *log, struct csv_entry *entry);
bool csv_read_unit(struct csv_log *log, struct csv_entry *entry);
bool csv_read_bodyweight(struct csv_log *log, struct csv_entry *entry); /* unchanged if the cell is empty */

/* *aside: a run, plank or carry, which is not a set. */
bool csv_read_reps(struct csv_log *log, struct csv_entry *entry, bool *aside);

#endif
