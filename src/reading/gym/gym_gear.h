/* Values of plates, chains and bands. */
#ifndef TAUTLINE_READING_GYM_GEAR_H
#define TAUTLINE_READING_GYM_GEAR_H

#include "reading/gym/gym_reader.h"

/* Readers for the table of keys. False: the value is bad, already reported; the target keeps what it had. */
gym_value_read read_plates, read_leader, read_strands, read_pin, read_default, read_pair, read_tension,
    read_tension_down, read_measured, read_law;

#endif
