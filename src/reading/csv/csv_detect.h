/* What can be found out about an export before it is read: header, delimiter, decimal sign. */
#ifndef TAUTLINE_READING_CSV_DETECT_H
#define TAUTLINE_READING_CSV_DETECT_H

#include "reading/csv/csv_log.h"
#include "reading/log_reader.h"

/* The decimal sign of a file: a comma only if the delimiter is ; or tab and the numbers at the start of the file have
 * decimal commas. */
void csv_find_decimal(struct csv_log *log, uint32_t header_line);

struct signs /* how often each sign was found where it can only be a decimal sign */
{
    size_t comma, point;
};

void csv_count_sign(const char *text, struct signs *signs);

struct efforts /* cells of a column headed "effort" */
{
    size_t numbers, good; /* good: from 5 to 10, like an RPE */
};

void csv_count_effort(const char *text, struct efforts *efforts);

/* Uses a column headed "effort" as the RPE, if the numbers at the start of the file fit. */
void csv_find_effort(struct csv_log *log, uint32_t header_line);

/* Is it a CSV log? One of the first 20 lines must be a header with a date and a lift column, with one of the
 * delimiters , ; tab |. */
bool csv_log_detect(struct reading *reading, struct input *input, char *delimiter, uint32_t *header_line);

#endif
