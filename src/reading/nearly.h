/* For `check`: notes that nearly name chains or bands. */
#ifndef TAUTLINE_READING_NEARLY_H
#define TAUTLINE_READING_NEARLY_H

#include "reading/log_reader.h"

/* Call this after the last log, when all sets are available: reports each such note of a set without AR, once per
 * file, with what is missing. */
void say_nearly_ar(struct reading *reading);

#endif
