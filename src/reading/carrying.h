/* Chains and bands that a note on one set says for others, and those that the gym file gives to sets that never say
 * any. */
#ifndef TAUTLINE_READING_CARRYING_H
#define TAUTLINE_READING_CARRYING_H

#include "reading/log_reader.h"

/* After the last log: gives later sets of a lift and day the AR of the note on its first work set, marked ar-carried,
 * and sets that say nothing that of the gym file's ar = lines, marked ar-given; says how many. */
void carry_ar(struct reading *reading);

#endif
