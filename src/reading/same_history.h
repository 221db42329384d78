/* The same history twice: a new export next to last month's, a log kept on paper and on the phone.
 *
 * Sets of one lifter, day and lift that are in two files alike count once, from the newer file; where they differ,
 * both count and it is said. Alike: the same loads, repetitions and kinds, in any order. */
#ifndef TAUTLINE_READING_SAME_HISTORY_H
#define TAUTLINE_READING_SAME_HISTORY_H

#include "reading/log_reader.h"

/* After the last LOG: corrections that match nothing are said; where two files hold the same lifter, day and lift with
 * the same sets, those of the older file are dropped; then notes on first sets are carried to later ones (carrying.h).
 */
void reading_finish(struct reading *reading);

#endif
