/* Turns one record into sets. */
#ifndef TAUTLINE_READING_CSV_RECORD_H
#define TAUTLINE_READING_CSV_RECORD_H

#include "reading/csv/csv_log.h"

bool csv_read_record(struct csv_log *log); /* false: refused, already reported */

#endif
