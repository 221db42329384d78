/* Records of a CSV input, through libcsv. Does not know what columns mean. */
#ifndef TAUTLINE_READING_CSV_ROWS_H
#define TAUTLINE_READING_CSV_ROWS_H

#include "reading/input/input.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define CSV_CELL_LIMIT ((size_t)1024 * 1024) /* bytes in one cell: a quote open for longer counts as never closed */
#define CSV_CELLS_LIMIT ((size_t)4096)       /* cells in one record; more is LIMIT_REACHED */

struct csv_row
{
    uint32_t line;         /* first physical line of the record, from 1 */
    uint32_t lines;        /* physical lines it takes */
    size_t count;          /* cells; trailing empty ones included */
    const char **cells;    /* NUL-terminated, blanks around unquoted text stripped; valid during the call only */
    const size_t *lengths; /* bytes; more than strlen where a NUL byte is in the cell */
    bool open_quote;       /* the last record, whose quote never closes: the cells before that quote only */
    bool too_long;         /* `line` is longer than INPUT_LINE_LIMIT: no cells are given, and the record that it ends
                              or belongs to is left out; the next line begins a record */
};

/* Called for each record except blank lines. Returns false to stop. */
typedef bool csv_row_seen(void *context, const struct csv_row *row);

/* Reads all records from physical line `first_line` on (1: all; title lines before it need not be CSV). False: the
 * input failed or a limit was reached, already reported. */
bool csv_rows_read(struct input *input, char delimiter, uint32_t first_line, struct diags *diags, csv_row_seen *seen,
                   void *context);

/* The same for a chunk of an input; `last`: no other chunk follows. False also if a chunk that is not the last ends
 * within a record, which is then not passed on, or if a record is so long that what input_line() still has of it
 * depends on where the input begins. */
bool csv_rows_read_chunk(struct input *input, char delimiter, uint32_t first_line, bool last, struct diags *diags,
                         csv_row_seen *seen, void *context);

/* The same for text in memory, from its line `first_line` on; a cut-off last record is passed on as it is. */
void csv_rows_scan(const char *text, size_t length, char delimiter, uint32_t first_line, csv_row_seen *seen,
                   void *context);

/* Column (characters, from 1) where the text of cell `index` of the row starts, on the record's first physical line;
 * 1 if it starts on a later line or is no longer in the window. */
uint32_t csv_cell_column(struct input *input, struct arena *scratch, const struct csv_row *row, size_t index,
                         char delimiter);

/* The same in the text of that line. */
uint32_t csv_column_in_line(const char *line, size_t index, char delimiter);

/* Splits the record at the start of `text` into cells, as csv_rows_read does, for header detection; cells are owned
 * by the arena. Returns the count, 0 for a blank line. */
size_t csv_split_record(struct arena *arena, const char *text, size_t length, char delimiter,
                        const char *const **cells);

#endif
