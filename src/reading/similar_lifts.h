/* For `check`: lift names that are one slip from another. */
#ifndef TAUTLINE_READING_SIMILAR_LIFTS_H
#define TAUTLINE_READING_SIMILAR_LIFTS_H

#include "reading/log_reader.h"

/* After the last log, where all sets are at hand: each lift that is one slip from another with five times its sets or
 * more is offered as its alias. */
void say_similar_lifts(struct reading *reading);

#endif
