/* The same history twice: a new export next to last month's, a log kept on paper and on the phone.
 *
 * Sets of one lifter, day and lift that are identical in two files count once, from the newer file; if they differ,
 * both count and this is reported. Identical means: the same loads, repetitions and kinds, in any order. */
#ifndef TAUTLINE_READING_SAME_HISTORY_H
#define TAUTLINE_READING_SAME_HISTORY_H

#include "reading/log_reader.h"

/* Call this after the last LOG: reports corrections that match nothing; if two files hold the same sets of a lifter,
 * day and lift, drops those of the older file; then carries notes on first sets to later ones (carrying.h). */
void reading_finish(struct reading *reading);

#endif
