/* Turns cells that hold sets, or whole sessions, into rows of one set each. */
#ifndef TAUTLINE_READING_TABLE_SET_CELLS_H
#define TAUTLINE_READING_TABLE_SET_CELLS_H

#include "reading/table/made_row.h"

void set_cells_begin(struct maker *maker);
void set_cells_end(struct maker *maker);

/* Reads a cell with sets of the lift that the made row names. */
void set_cell_read(struct maker *maker, size_t column);

/* Reads a cell that names lifts and their sets. */
void session_cell_read(struct maker *maker, size_t column);

#endif
