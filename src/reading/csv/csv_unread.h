/* Columns whose headers name chains or bands, and that are nevertheless none of a log: their cells are counted and
 * said, so that no load is lost in silence. */
#ifndef TAUTLINE_READING_CSV_UNREAD_H
#define TAUTLINE_READING_CSV_UNREAD_H

#include "reading/csv/csv_log.h"

void csv_find_unread(struct csv_log *log);  /* when the header is read */
void csv_count_unread(struct csv_log *log); /* of the row at hand */
void csv_say_unread(struct csv_log *log);

/* Says that `cells` of a column were not read; nothing where there are none. */
void say_unread_column(struct reading *reading, struct place at, const char *excerpt, const char *header,
                       uint32_t cells);

#endif
