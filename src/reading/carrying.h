/* Applies chains and bands from a note on one set to other sets, and those of the gym file to sets whose log never
 * mentions any. */
#ifndef TAUTLINE_READING_CARRYING_H
#define TAUTLINE_READING_CARRYING_H

#include "reading/log_reader.h"

/* Call this after the last log. Gives later sets of a lift and day the AR of the note on its first work set, marked
 * ar-carried, and sets that mention no AR that of the gym file's ar = lines, marked ar-given; reports how many. */
void carry_ar(struct reading *reading);

#endif
