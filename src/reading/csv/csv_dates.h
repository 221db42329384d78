/* The date of a record, and the order of day and month, which only the whole file settles. */
#ifndef TAUTLINE_READING_CSV_DATES_H
#define TAUTLINE_READING_CSV_DATES_H

#include "reading/csv/csv_log.h"

bool csv_read_date(struct csv_log *log, struct csv_entry *entry);

/* Remembers the entry's sets until the whole file has settled their day. */
void csv_settle_later(struct csv_log *log, const struct csv_entry *entry, size_t first, size_t count);

/* At the end: gives the pending sets their days. False: the file does not settle it, already reported. */
bool csv_settle_dates(struct csv_log *log);

#endif
