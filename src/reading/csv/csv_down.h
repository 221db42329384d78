/* Values that carry over from the rows above: a date or a lift that is written only once, and years. */
#ifndef TAUTLINE_READING_CSV_DOWN_H
#define TAUTLINE_READING_CSV_DOWN_H

#include "reading/csv/csv_log.h"

/* For a record without a date or a lift: takes those from above. False: there are none, already reported, or the
 * record is a date row. */
bool csv_take_date_above(struct csv_log *log, struct csv_entry *entry);
bool csv_take_lift_above(struct csv_log *log, struct csv_entry *entry);

void csv_keep_date_above(struct csv_log *log, bool year_taken); /* remembers the date that was just read */
void csv_forget_date_above(struct csv_log *log); /* the current date cannot be read: it must not carry over */
void csv_name_lift(struct csv_log *log,
                   const char *lift); /* remembers the lift of a row without sets, for the rows below it */

/* A blank record, or blank lines: the date carries over, the lift does not. */
void csv_pass_blank(struct csv_log *log);

bool csv_is_date_row(const struct csv_log *log); /* the record holds only a date, or a placeholder for one */

/* For a record that was not read as a set: either it is a good date row, or it is refused, and its values do not
 * carry over. */
bool csv_was_date_row(struct csv_log *log);

/* A date without a year. False: there is no year for it, or it is not a date at all; see *is_date. */
bool csv_add_year(struct csv_log *log, const struct csv_cell *cell, struct written_day *written, bool *is_date);

/* The lines above the header, which may contain the year; NULL: there are none. */
const char *csv_titles(struct arena *arena, struct input *input, uint32_t header_line);

void csv_say_above(struct csv_log *log); /* at the end: reports how much was taken from above */

#endif
