/* Columns whose headers name chains or bands, but which are not used: their cells are counted and reported, so that
 * no load is lost silently. */
#ifndef TAUTLINE_READING_CSV_UNREAD_H
#define TAUTLINE_READING_CSV_UNREAD_H

#include "reading/csv/csv_log.h"

void csv_find_unread(struct csv_log *log);  /* call it when the header is read */
void csv_count_unread(struct csv_log *log); /* of the current row */
void csv_say_unread(struct csv_log *log);

/* Reports that `cells` cells of a column were not read; nothing if that is 0. */
void say_unread_column(struct reading *reading, struct place at, const char *excerpt, const char *header,
                       uint32_t cells);

#endif
