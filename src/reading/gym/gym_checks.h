/* Drafts to the gym, with what only the whole file can tell. */
#ifndef TAUTLINE_READING_GYM_CHECKS_H
#define TAUTLINE_READING_GYM_CHECKS_H

#include "reading/gym/gym_reader.h"

/* drafts to the gym, with what only the whole file can tell. */
void gym_checks(struct gym_reader *reader);

#endif
