/* For `check`: lift names that are one slip apart. */
#ifndef TAUTLINE_READING_SIMILAR_LIFTS_H
#define TAUTLINE_READING_SIMILAR_LIFTS_H

#include "reading/log_reader.h"

/* Call this after the last log, when all sets are available: each lift that is one slip from another one with at
 * least five times as many sets is offered as its alias. */
void say_similar_lifts(struct reading *reading);

#endif
