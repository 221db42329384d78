/* A text file whose records are a table of some layout. */
#ifndef TAUTLINE_READING_TABLE_TABLE_LOG_H
#define TAUTLINE_READING_TABLE_TABLE_LOG_H

#include "reading/log_reader.h"

/* Is it a table that is not an export of one row per set? One of the first 20 records is a header of one, and rows
 * below it agree. */
bool table_detect(struct reading *reading, struct input *input, char *delimiter, uint32_t *header_line);

/* Does the header of this CSV log ask for a look at its cells? */
bool table_wanted(struct reading *reading, struct input *input, char delimiter, uint32_t header_line);

/* Reads the open input whole and adds to reading->log. `file` is its number in log->files. */
bool read_table_log(struct reading *reading, struct input *input, uint32_t file, char delimiter, uint32_t header_line);

#endif
