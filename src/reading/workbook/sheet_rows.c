#include "reading/workbook/sheet_rows.h"

#include <string.h>

struct sheet_cell /* of the current row */
{
    uint32_t column;
    size_t at, length; /* in the row's text */
};

struct held_value /* of merged cells that extend below their first row */
{
    uint32_t column, last_row;
    const char *text;
    size_t length;
};

struct sheet_rows
{
    struct arena *own;
    const char *name;
    struct diags *diags;
    LIST(struct merged_cells) merged;
    size_t next_merged;
    LIST(struct held_value) held;

    uint32_t row, next_row;  /* the current one; the first that was not written yet */
    uint32_t unknown_column; /* of the row; 0: none */
    uint32_t widest;
    LIST(struct sheet_cell) cells;
    char *text; /* of the cells */
    size_t text_used, text_room;
    uint64_t cell_count, text_count;
    uint32_t refused, filled;

    char *out; /* lines from out_at to out_end are still to be read */
    size_t out_at, out_end, out_room;
    size_t repeat_from;   /* the last line, which is repeated */
    uint32_t repeat_left; /* this many times */
    const char *failure;
    enum diag_id failure_id;
};

struct sheet_rows *sheet_rows_new(const char *name, struct diags *diags)
{
    struct arena *own = arena_new();
    struct sheet_rows *rows = ARENA_NEW(own, struct sheet_rows);
    rows->own = own;
    rows->name = name;
    rows->diags = diags;
    rows->next_row = 1;
    return rows;
}

void sheet_rows_free(struct sheet_rows *rows)
{
    if (rows)
        arena_free(rows->own);
}

static bool fail(struct sheet_rows *rows, enum diag_id id, const char *what)
{
    if (!rows->failure) {
        rows->failure = what;
        rows->failure_id = id;
    }
    return false;
}

const char *sheet_failure(const struct sheet_rows *rows, enum diag_id *id)
{
    *id = rows->failure_id;
    return rows->failure;
}

/* --- the row at hand --------------------------------------------------------------------------------------------- */

bool sheet_begin_row(struct sheet_rows *rows, uint32_t row)
{
    if (row < rows->next_row)
        return fail(rows, DIAG_BAD_WORKBOOK,
                    arena_printf(rows->own, "row %u comes after row %u", row, rows->next_row - 1));
    rows->row = row;
    rows->cells.count = 0;
    rows->text_used = 0;
    rows->unknown_column = 0;
    return true;
}

static char *row_room(struct sheet_rows *rows, size_t length)
{
    size_t room = rows->text_room ? rows->text_room : 4096;
    while (room < rows->text_used + length)
        room *= 2;
    if (room > rows->text_room)
        rows->text = arena_grow(rows->own, rows->text, rows->text_room, room);
    rows->text_room = room;
    return rows->text + rows->text_used;
}

/* Replaces whatever would make a cell span lines: each kind of line end becomes one SHEET_LINE_BREAK. Returns the
 * number of bytes. */
static size_t copy_on_one_line(char *to, const char *text, size_t length)
{
    char *start = to;
    for (size_t i = 0; i < length; i++) {
        if (text[i] == '\r' && i + 1 < length && text[i + 1] == '\n')
            continue;
        if (text[i] == '\n' || text[i] == '\r') {
            memcpy(to, SHEET_LINE_BREAK, sizeof SHEET_LINE_BREAK - 1);
            to += sizeof SHEET_LINE_BREAK - 1;
        } else {
            *to++ = text[i];
        }
    }
    return (size_t)(to - start);
}

static bool put_cell(struct sheet_rows *rows, uint32_t column, const char *text, size_t length)
{
    if (rows->text_used + length > SHEET_ROW_BYTES)
        return fail(rows, DIAG_LIMIT_REACHED,
                    arena_printf(rows->own, "row %u holds nearly 1 MiB of text: this is not a log", rows->row));
    bool breaks = memchr(text, '\n', length) || memchr(text, '\r', length);
    char *to = row_room(rows, breaks ? length * 3 : length);
    size_t bytes = breaks ? copy_on_one_line(to, text, length) : (memcpy(to, text, length), length);
    *LIST_ROOM(rows->own, &rows->cells) = (struct sheet_cell){column, rows->text_used, bytes};
    rows->text_used += bytes;
    return true;
}

static bool is_blank(const char *text, size_t length)
{
    for (size_t i = 0; i < length; i++)
        if (text[i] != ' ' && text[i] != '\t' && text[i] != '\n' && text[i] != '\r')
            return false;
    return true;
}

bool sheet_add_cell(struct sheet_rows *rows, uint32_t column, uint32_t repeated, const char *text, size_t length)
{
    uint32_t before = rows->cells.count ? rows->cells.items[rows->cells.count - 1].column : 0;
    if (is_blank(text, length))
        return true;
    if (column <= before)
        return fail(rows, DIAG_BAD_WORKBOOK,
                    arena_printf(rows->own, "the cells of row %u are not in order", rows->row));
    if (column > SHEET_COLUMNS || repeated > SHEET_COLUMNS - column + 1)
        return fail(rows, DIAG_LIMIT_REACHED,
                    arena_printf(rows->own, "row %u has cells beyond column 4096: no log has", rows->row));
    for (uint32_t i = 0; i < repeated; i++)
        if (!put_cell(rows, column + i, text, length))
            return false;
    return true;
}

void sheet_unknown_value(struct sheet_rows *rows, uint32_t column)
{
    if (!rows->unknown_column)
        rows->unknown_column = column;
}

/* --- merged cells ------------------------------------------------------------------------------------------------ */

void sheet_merge(struct sheet_rows *rows, const struct merged_cells *range)
{
    if (range->last_row > range->first_row)
        *LIST_ADD(rows->own, &rows->merged) = *range;
}

static struct sheet_cell *cell_in(struct sheet_rows *rows, uint32_t column)
{
    for (size_t i = 0; i < rows->cells.count; i++)
        if (rows->cells.items[i].column == column)
            return &rows->cells.items[i];
    return NULL;
}

static void drop_ended(struct sheet_rows *rows)
{
    size_t kept = 0;
    for (size_t i = 0; i < rows->held.count; i++)
        if (rows->held.items[i].last_row >= rows->row)
            rows->held.items[kept++] = rows->held.items[i];
    rows->held.count = kept;
}

/* Inserts a merged cell's value at its place in the row. */
static bool fill_in(struct sheet_rows *rows, const struct held_value *held)
{
    if (!put_cell(rows, held->column, held->text, held->length))
        return false;
    struct sheet_cell *cells = rows->cells.items, added = cells[rows->cells.count - 1];
    size_t place = rows->cells.count - 1;
    for (; place && cells[place - 1].column > added.column; place--)
        cells[place] = cells[place - 1];
    cells[place] = added;
    return true;
}

static bool take_held(struct sheet_rows *rows)
{
    bool filled = false;
    drop_ended(rows);
    for (size_t i = 0; i < rows->held.count; i++)
        if (!cell_in(rows, rows->held.items[i].column)) {
            filled = true;
            if (!fill_in(rows, &rows->held.items[i]))
                return false;
        }
    rows->filled += filled;
    return true;
}

/* The values of ranges that begin in this row. */
static bool hold_first(struct sheet_rows *rows)
{
    for (; rows->next_merged < rows->merged.count && rows->merged.items[rows->next_merged].first_row <= rows->row;
         rows->next_merged++) {
        const struct merged_cells *range = &rows->merged.items[rows->next_merged];
        const struct sheet_cell *cell = range->first_row == rows->row ? cell_in(rows, range->column) : NULL;
        if (!cell)
            continue;
        if (rows->held.count >= SHEET_COLUMNS)
            return fail(rows, DIAG_BAD_WORKBOOK, "its merged cells overlap");
        *LIST_ADD(rows->own, &rows->held) = (struct held_value){
            range->column, range->last_row, arena_text(rows->own, rows->text + cell->at, cell->length), cell->length};
    }
    return true;
}

/* --- the row as a record ----------------------------------------------------------------------------------------- */

static char *out_room(struct sheet_rows *rows, size_t length)
{
    if (rows->out_at && rows->out_at == rows->out_end && !rows->repeat_left)
        rows->out_at = rows->out_end = 0;
    size_t room = rows->out_room ? rows->out_room : 2 * SHEET_WAITING;
    while (room < rows->out_end + length)
        room *= 2;
    if (room > rows->out_room)
        rows->out = arena_grow(rows->own, rows->out, rows->out_room, room);
    rows->out_room = room;
    return rows->out + rows->out_end;
}

static char *put_quoted(char *to, const char *text, size_t length)
{
    if (!memchr(text, ',', length) && !memchr(text, '"', length))
        return (char *)memcpy(to, text, length) + length;
    *to++ = '"';
    for (size_t i = 0; i < length; i++) {
        if (text[i] == '"')
            *to++ = '"';
        *to++ = text[i];
    }
    *to++ = '"';
    return to;
}

/* Space for the record: each byte may be a quote, each cell has two quotes and a comma. */
static size_t record_bytes(const struct sheet_rows *rows)
{
    return 2 * rows->text_used + 3 * SHEET_COLUMNS + 2;
}

static char *put_record(const struct sheet_rows *rows, char *to)
{
    uint32_t column = 1, padded = rows->widest < SHEET_PADDED ? rows->widest : SHEET_PADDED;
    for (size_t i = 0; i < rows->cells.count; i++) {
        const struct sheet_cell *cell = &rows->cells.items[i];
        for (; column < cell->column; column++)
            *to++ = ',';
        to = put_quoted(to, rows->text + cell->at, cell->length);
    }
    for (; column < padded; column++)
        *to++ = ',';
    return to;
}

static void refuse_unknown(struct sheet_rows *rows)
{
    struct arena *scratch = arena_new();
    char *record = arena_alloc(scratch, record_bytes(rows));
    *put_record(rows, record) = 0;
    struct place at = {.file = rows->name, .line = rows->row, .column = rows->unknown_column, .sheet = true};
    diag_add(rows->diags, DIAG_UNKNOWN_VALUE, at, record, NULL, "a formula whose value is not in the workbook");
    rows->refused++;
    arena_free(scratch);
}

/* Empty lines for the rows that were skipped. */
static void put_gap(struct sheet_rows *rows)
{
    size_t gap = rows->row - rows->next_row;
    memset(out_room(rows, gap), '\n', gap);
    rows->out_end += gap;
}

static bool put_row(struct sheet_rows *rows, uint32_t repeated)
{
    uint32_t last = rows->cells.items[rows->cells.count - 1].column;
    if (last > rows->widest)
        rows->widest = last;
    rows->cell_count += (uint64_t)rows->cells.count * repeated;
    if (rows->cell_count > SHEET_CELLS)
        return fail(rows, DIAG_LIMIT_REACHED, "more than 16 million cells: this is not a log");
    put_gap(rows);
    char *from = out_room(rows, record_bytes(rows)), *to = from;
    if (rows->unknown_column)
        refuse_unknown(rows);
    else
        to = put_record(rows, from);
    *to++ = '\n';
    rows->text_count += (uint64_t)(to - from) * repeated;
    if (rows->text_count > SHEET_TEXT_BYTES)
        return fail(rows, DIAG_LIMIT_REACHED, "more than 256 MiB of text: this is not a log");
    rows->repeat_from = rows->out_end;
    rows->repeat_left = repeated - 1;
    rows->out_end += (size_t)(to - from);
    rows->next_row = rows->row + repeated;
    return true;
}

bool sheet_end_row(struct sheet_rows *rows, uint32_t repeated)
{
    if (!rows->cells.count && !rows->unknown_column)
        return true;
    if (!rows->cells.count && !put_cell(rows, rows->unknown_column, "?", 1))
        return false;
    if (rows->row > SHEET_ROWS || repeated > SHEET_ROWS - rows->row + 1)
        return fail(rows, DIAG_LIMIT_REACHED, "it has rows beyond 1048576: no sheet of a log has");
    return take_held(rows) && hold_first(rows) && put_row(rows, repeated);
}

/* --- reading ----------------------------------------------------------------------------------------------------- */

size_t sheet_waiting(const struct sheet_rows *rows)
{
    return rows->repeat_left ? SIZE_MAX : rows->out_end - rows->out_at;
}

size_t sheet_take(struct sheet_rows *rows, char *to, size_t room)
{
    size_t taken = 0;
    while (taken < room && (rows->out_at < rows->out_end || rows->repeat_left)) {
        if (rows->out_at == rows->out_end) {
            rows->out_at = rows->repeat_from;
            rows->repeat_left--;
        }
        size_t bytes = rows->out_end - rows->out_at;
        if (bytes > room - taken)
            bytes = room - taken;
        memcpy(to + taken, rows->out + rows->out_at, bytes);
        rows->out_at += bytes;
        taken += bytes;
    }
    return taken;
}

uint32_t sheet_refused(const struct sheet_rows *rows)
{
    return rows->refused;
}

uint32_t sheet_filled(const struct sheet_rows *rows)
{
    return rows->filled;
}
