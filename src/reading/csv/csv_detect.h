/* What an export gives away before it is read: header, delimiter, decimal sign. */
#ifndef TAUTLINE_READING_CSV_DETECT_H
#define TAUTLINE_READING_CSV_DETECT_H

#include "reading/csv/csv_log.h"
#include "reading/log_reader.h"

/* The decimal sign of a file: a comma only where ; or tab separates and the numeric cells of its head use commas so. */
void csv_find_decimal(struct csv_log *log, uint32_t header_line);

struct signs /* how often each sign was found where only a decimal sign can be */
{
    size_t comma, point;
};

void csv_count_sign(const char *text, struct signs *signs);

struct efforts /* cells of a column headed "effort" */
{
    size_t numbers, good; /* good: from 5 to 10, as an RPE */
};

void csv_count_effort(const char *text, struct efforts *efforts);

/* Takes a column headed "effort" for the RPE, if the numbers of the file's head are. */
void csv_find_effort(struct csv_log *log, uint32_t header_line);

/* Is it a CSV log? One of the first 20 lines is a header with a date and a lift column, under one of the delimiters , ;
 * tab |. */
bool csv_log_detect(struct reading *reading, struct input *input, char *delimiter, uint32_t *header_line);

#endif
