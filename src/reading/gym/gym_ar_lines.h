/* The gym file's lines about chains and bands that logs leave out. */
#ifndef TAUTLINE_READING_GYM_AR_LINES_H
#define TAUTLINE_READING_GYM_AR_LINES_H

#include "reading/gym/gym_reader.h"

gym_value_read read_carry_ar; /* of [gym]: the target is gym.ar_stays */
gym_value_read read_ar_line;  /* of [lifter] */

#endif
