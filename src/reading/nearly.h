/* For `check`: notes that nearly say chains or bands. */
#ifndef TAUTLINE_READING_NEARLY_H
#define TAUTLINE_READING_NEARLY_H

#include "reading/log_reader.h"

/* After the last log, where all sets are at hand: each such note of a set without AR, once a file, with what is
 * missing. */
void say_nearly_ar(struct reading *reading);

#endif
