/* Aligned text for table.h: cells are collected, row by row, and laid out when all are known. */
#ifndef TAUTLINE_WRITING_TABLE_TEXT_H
#define TAUTLINE_WRITING_TABLE_TEXT_H

#include "base/arena.h"
#include "writing/output.h"

#include <stdbool.h>
#include <stddef.h>

enum text_cell
{
    TEXT_CELL_EMPTY,
    TEXT_CELL_WORDS, /* aligned to the left; may be cut */
    TEXT_CELL_NUMBER /* aligned to the right; never cut */
};

struct text_table;

/* `titles` are borrowed; a line break in a title starts a new line of the header. */
struct text_table *text_table_new(struct arena *arena, const char *const *titles, size_t count);

/* Cells are added row by row, `count` per row. Control characters are made visible. */
void text_table_cell(struct text_table *table, enum text_cell kind, const char *text);

/* These columns may be left out where there is no room, the first one first; text_table_write() names them. */
void text_table_spare(struct text_table *table, const size_t *columns, size_t count);

/* Writes all. `width` columns at most, by cutting the widest columns of words first; 0: no limit. */
void text_table_write(struct text_table *table, struct output *output, size_t width, bool colour);

#endif
