/* What holds from the rows above: a date or a lift that is said once, and years. */
#ifndef TAUTLINE_READING_CSV_DOWN_H
#define TAUTLINE_READING_CSV_DOWN_H

#include "reading/csv/csv_log.h"

/* The record names no date or no lift: what holds from above. False: nothing does, already reported, or the record is a
 * date row. */
bool csv_take_date_above(struct csv_log *log, struct csv_entry *entry);
bool csv_take_lift_above(struct csv_log *log, struct csv_entry *entry);

void csv_keep_date_above(struct csv_log *log, bool year_taken); /* the date that was just read */
void csv_forget_date_above(struct csv_log *log); /* the date at hand cannot be read: it holds for nothing below */
void csv_name_lift(struct csv_log *log,
                   const char *lift); /* a row without sets that names one, for the rows below it */

/* A blank record, or blank lines: the date holds through them, the lift does not. */
void csv_pass_blank(struct csv_log *log);

bool csv_is_date_row(const struct csv_log *log); /* the record holds nothing but a date, or what stands for one */

/* The record was not read for a set: it is a date row, and good, or it is refused, and what it says holds for nothing
 * below. */
bool csv_was_date_row(struct csv_log *log);

/* A date without its year. False: there is no year for it, or it is not a date either; *is_date tells. */
bool csv_add_year(struct csv_log *log, const struct csv_cell *cell, struct written_day *written, bool *is_date);

/* The lines above the header, which may hold the year; NULL: there are none. */
const char *csv_titles(struct arena *arena, struct input *input, uint32_t header_line);

void csv_say_above(struct csv_log *log); /* at the end: how much was taken from above */

#endif
