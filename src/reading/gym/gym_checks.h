/* Moves the drafts to the gym, after checks that need the whole file. */
#ifndef TAUTLINE_READING_GYM_CHECKS_H
#define TAUTLINE_READING_GYM_CHECKS_H

#include "reading/gym/gym_reader.h"

/* moves the drafts to the gym, after checks that need the whole file. */
void gym_checks(struct gym_reader *reader);

#endif
