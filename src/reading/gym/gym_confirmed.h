/* Lines of logs whose weight looks mistyped but is right. */
#ifndef TAUTLINE_READING_GYM_CONFIRMED_H
#define TAUTLINE_READING_GYM_CONFIRMED_H

#include "reading/gym/gym_reader.h"

/* For the table of keys. False: the value is invalid, already reported. */
gym_value_read read_confirmed;

#endif
