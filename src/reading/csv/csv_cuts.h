/* Where a big export may be cut into chunks: at line ends after which a record seems to begin. Reading the previous
 * chunk proves that one does. */
#ifndef TAUTLINE_READING_CSV_CUTS_H
#define TAUTLINE_READING_CSV_CUTS_H

#include "reading/csv/csv_log.h"

/* The start of the first line after byte `from` that looks like a record; `bytes`, which is the file's end: there is
 * none in reach. */
uint64_t csv_cut_behind(const struct csv_log *log, int file, uint64_t bytes, uint64_t from);

#endif
