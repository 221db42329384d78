/* Checks each block at its start and at its end. */
#ifndef TAUTLINE_READING_GYM_BLOCKS_H
#define TAUTLINE_READING_GYM_BLOCKS_H

#include "reading/gym/gym_reader.h"

void *open_gym(struct gym_reader *reader, const char *label);
void *open_chain(struct gym_reader *reader, const char *label);
void *open_band(struct gym_reader *reader, const char *label);
void *open_setup(struct gym_reader *reader, const char *label);
void *open_lifter(struct gym_reader *reader, const char *label);
void *open_lift(struct gym_reader *reader, const char *label);
bool close_chain(struct gym_reader *reader, void *draft);
bool close_band(struct gym_reader *reader, void *draft);
bool close_setup(struct gym_reader *reader, void *draft);
void drop_chain(struct gym_reader *reader);
void drop_band(struct gym_reader *reader);
void drop_setup(struct gym_reader *reader);

#endif
