/* Rows of CSV and JSON. */
#ifndef TAUTLINE_WRITING_TABLE_ROWS_H
#define TAUTLINE_WRITING_TABLE_ROWS_H

#include "writing/table.h"

struct table_rows;

/* `names`: the columns' names, as they are written. */
struct table_rows *table_rows_new(struct arena *arena, const char *const *names, size_t count,
                                  const struct table_style *style);
/* A copy that is used independently. */
struct table_rows *table_rows_copy(struct arena *arena, const struct table_rows *rows);
void table_rows_put(struct table_rows *rows, struct output *output, const struct cell *cells);

double cell_number_in(const struct cell *cell, enum mass_unit unit);
const char *cell_text_in(struct arena *arena, const struct cell *cell, enum mass_unit unit);

#endif
