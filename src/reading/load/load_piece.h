/* Makes a piece from the slots of a phrase. */
#ifndef TAUTLINE_READING_LOAD_PIECE_H
#define TAUTLINE_READING_LOAD_PIECE_H

#include "reading/load/load_slots.h"

/* Makes a piece from the slots; false: they contradict each other or leave something open, as the fault says. */
bool slots_piece(struct phrase *phrase, struct piece *piece);

#endif
