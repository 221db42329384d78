/* What an export gives away before it is read: header, delimiter, decimal sign. */
#ifndef TAUTLINE_READING_CSV_DETECT_H
#define TAUTLINE_READING_CSV_DETECT_H

#include "reading/csv/csv_log.h"
#include "reading/log_reader.h"

/* The decimal sign of a file: a comma only where ; or tab separates and the numeric cells of its head use commas so. */
void csv_find_decimal(struct csv_log *log, uint32_t header_line);

/* Is it a CSV log? One of the first 20 lines is a header with a date and a lift column, under one of the delimiters , ;
 * tab |. */
bool csv_log_detect(struct reading *reading, struct input *input, char *delimiter, uint32_t *header_line);

#endif
