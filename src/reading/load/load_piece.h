/* load_piece.h */
#ifndef TAUTLINE_READING_LOAD_PIECE_H
#define TAUTLINE_READING_LOAD_PIECE_H

#include "reading/load/load_slots.h"

/* The piece that the slots make; false: they contradict each other or leave it open, and the fault says so. */
bool slots_piece(struct phrase *phrase, struct piece *piece);

#endif
