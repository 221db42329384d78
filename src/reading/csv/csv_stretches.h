/* One big export, read in stretches by several readers at once.
 *
 * The file is cut at line ends behind which a record seems to begin: so many cells, a date among them. Each reader has one stretch, the
 * whole's own the first; one that comes to its end between two records shows that the cut behind it was right. Then the others' are joined
 * to the first in their order, as if one reader had read on. Whatever one record may tell about others far from it (dates that only the
 * whole file settles, the bodyweight of a lifter, bytes that are not UTF-8, a file that is no log), a record too long to be shown in full
 * wherever its stretch begins, and a cut within quotes, has all readers stop and the file read again as a whole: nothing is kept of the
 * stretches. */
#ifndef TAUTLINE_READING_CSV_STRETCHES_H
#define TAUTLINE_READING_CSV_STRETCHES_H

#include "reading/csv/csv_log.h"

bool csv_worth_stretches(const struct csv_log *log);

bool csv_read_stretches(struct csv_log *log, uint32_t header_end);

#endif
