/* A text file whose records are a table of some layout. */
#ifndef TAUTLINE_READING_TABLE_TABLE_LOG_H
#define TAUTLINE_READING_TABLE_TABLE_LOG_H

#include "reading/log_reader.h"

/* Is it a table other than an export with one row per set? One of the first 20 records must be its header, and rows
 * below it must fit. */
bool table_detect(struct reading *reading, struct input *input, char *delimiter, uint32_t *header_line);

/* Must the cells of this CSV log be looked at, because of its header? */
bool table_wanted(struct reading *reading, struct input *input, char delimiter, uint32_t header_line);

/* Reads the whole open input and adds to reading->log. `file` is its number in log->files. */
bool read_table_log(struct reading *reading, struct input *input, uint32_t file, char delimiter, uint32_t header_line);

#endif
