#include "reading/csv/csv_rows.h"

#include "base/text.h"
#include "reading/csv/csv_plain.h"

#include <csv.h>
#include <stdalign.h>
#include <string.h>

#define PARSER_BLOCK_BYTES                                                                                             \
    ((size_t)32 * 1024) /* libcsv's cell grows in steps of this: large enough for the arena to extend it in place */

#define LONG_BYTES                                                                                                     \
    (INPUT_BLOCK_BYTES / 4) /* a shorter record is still in the input's window when it ends, wherever blocks begin */

struct rows
{
    struct arena *own; /* owns libcsv's cell, the record's text and the lists below */
    struct csv_parser parser;
    char delimiter;
    csv_row_seen *seen;
    void *context;
    bool stopped;
    bool too_large;      /* the record at hand: its cells are no longer kept */
    bool failed;         /* it was too large when it ended */
    bool line_too_long;  /* the line at hand: libcsv gets no more of it */
    bool breaks_marked;  /* a line break within a cell may be written as U+2028: in sheets, and where only the head is
                            looked at */
    bool between;        /* libcsv holds no part of a record */
    bool seen_long;      /* a record of more than LONG_BYTES */
    size_t fed;          /* bytes of the record that libcsv holds */
    size_t line_fed;     /* bytes of the line at hand among them */
    uint32_t lines_fed;  /* line ends among them */
    uint32_t line;       /* first physical line of the record being read */
    uint32_t inner_ends; /* line ends within its quoted cells so far */
    char *text;          /* of the record's cells, each followed by a NUL */
    size_t text_used, text_room;
    const char **cells; /* pointers into `text` */
    size_t *lengths, count, room;
    struct csv_plain plain;
};

/* libcsv allocates its cell through this, from the arena, because its callback has no context. The size is stored
 * before the block. */
static _Thread_local struct arena *parser_arena;

static void *parser_memory(void *old, size_t size)
{
    const size_t before = alignof(max_align_t);
    char *piece = old ? (char *)old - before : NULL;
    size_t held = 0;
    if (piece)
        memcpy(&held, piece, sizeof held);
    piece = arena_grow(parser_arena, piece, piece ? held + before : 0, size + before);
    memcpy(piece, &size, sizeof size);
    return piece + before;
}

static void parser_memory_kept(void *piece)
{
    (void)piece; /* freed together with the arena */
}

static int is_space_only(unsigned char byte)
{
    return byte == ' ';
}

static struct rows *rows_new(char delimiter, csv_row_seen *seen, void *context)
{
    struct arena *own = arena_new();
    struct rows *rows = ARENA_NEW(own, struct rows);
    rows->own = own;
    rows->delimiter = delimiter;
    rows->seen = seen;
    rows->context = context;
    rows->line = 1;
    rows->between = true;
    rows->plain.delimiter = delimiter;
    csv_init(&rows->parser, CSV_APPEND_NULL | CSV_REPALL_NL);
    csv_set_realloc_func(&rows->parser, parser_memory);
    csv_set_free_func(&rows->parser, parser_memory_kept);
    csv_set_blk_size(&rows->parser, PARSER_BLOCK_BYTES);
    csv_set_delim(&rows->parser, (unsigned char)delimiter);
    if (delimiter == '\t') /* by default libcsv strips tabs as blanks before it looks for the delimiter */
        csv_set_space_func(&rows->parser, is_space_only);
    return rows;
}

static void rows_free(struct rows *rows)
{
    csv_free(&rows->parser);
    arena_free(rows->own);
}

static void grow_text(struct rows *rows, size_t wanted)
{
    size_t room = rows->text_room ? rows->text_room : PARSER_BLOCK_BYTES;
    while (room < wanted)
        room *= 2;
    char *text = arena_alloc(rows->own, room);
    if (rows->text_used)
        memcpy(text, rows->text, rows->text_used);
    for (size_t i = 0; i < rows->count; i++)
        rows->cells[i] = text + (rows->cells[i] - rows->text);
    rows->text = text;
    rows->text_room = room;
}

static void grow_cells(struct rows *rows)
{
    size_t room = rows->room ? rows->room * 2 : 32;
    rows->cells = arena_grow(rows->own, rows->cells, rows->room * sizeof *rows->cells, room * sizeof *rows->cells);
    rows->lengths = arena_grow(rows->own, rows->lengths, rows->room * sizeof *rows->lengths,
                               room * sizeof *rows->lengths);
    rows->room = room;
}

static void cell_ended(void *cell, size_t length, void *context)
{
    struct rows *rows = context;
    if (rows->count >= CSV_CELLS_LIMIT || length > CSV_CELL_LIMIT)
        rows->too_large = true;
    if (rows->stopped || rows->too_large || rows->line_too_long)
        return;
    if (rows->text_used + length + 1 > rows->text_room)
        grow_text(rows, rows->text_used + length + 1);
    if (rows->count == rows->room)
        grow_cells(rows);
    char *to = rows->text + rows->text_used;
    memcpy(to, cell, length);
    to[length] = 0;
    rows->cells[rows->count] = to;
    rows->lengths[rows->count++] = length;
    rows->text_used += length + 1;
    rows->inner_ends += (uint32_t)text_count(to, length, '\n');
}

/* Restores the line breaks in a sheet's cells, in place: the memory is the rows' own. */
static void restore_breaks(const char *const *cells, size_t *lengths, size_t count)
{
    static const char mark[] = "\xE2\x80\xA8";
    const size_t bytes = sizeof mark - 1;
    for (size_t i = 0; i < count; i++) {
        char *cell = (char *)(uintptr_t)cells[i];
        for (char *at = cell; (at = memmem(at, lengths[i] - (size_t)(at - cell), mark, bytes));) {
            *at++ = '\n';
            memmove(at, at + bytes - 1, lengths[i] - (size_t)(at - cell) - bytes + 2);
            lengths[i] -= bytes - 1;
        }
    }
}

static void give_row(struct rows *rows, bool open_quote)
{
    if (rows->breaks_marked)
        restore_breaks(rows->cells, rows->lengths, rows->count);
    struct csv_row row = {
        .line = rows->line,
        .lines = rows->inner_ends + 1,
        .count = rows->count,
        .cells = rows->cells,
        .lengths = rows->lengths,
        .open_quote = open_quote,
    };
    rows->failed |= rows->too_large && !rows->stopped;
    if ((row.count || open_quote) && !rows->stopped && !rows->failed)
        rows->stopped = !rows->seen(rows->context, &row);
}

static void begin_row(struct rows *rows)
{
    rows->line += rows->inner_ends + 1;
    rows->inner_ends = 0;
    rows->text_used = rows->count = 0;
}

/* libcsv reports each line end outside quotes, including those of blank lines, so counting these and those within
 * cells gives the line number. */
static void row_ended(int by, void *context)
{
    struct rows *rows = context;
    rows->between = by == '\n';
    if (rows->line_too_long) /* what libcsv holds of it is dropped */
        return;
    give_row(rows, false);
    begin_row(rows);
}

/* Passes on the plain records at the start of the text; returns their length in bytes. */
static size_t give_plain_rows(struct rows *rows, const char *text, size_t length)
{
    size_t at = 0, used;
    while (!rows->stopped && (used = csv_plain_split(&rows->plain, text + at, length - at))) {
        if (rows->breaks_marked)
            restore_breaks(rows->plain.cells, rows->plain.lengths, rows->plain.count);
        struct csv_row row = {
            .line = rows->line,
            .lines = rows->plain.inner_ends + 1,
            .count = rows->plain.count,
            .cells = rows->plain.cells,
            .lengths = rows->plain.lengths,
        };
        rows->stopped = !rows->seen(rows->context, &row);
        rows->line += row.lines;
        at += used;
    }
    return at;
}

/* While a row is passed on, other rows may be read inside the callback: they use their own arena, and then ours is
 * restored. */
static void feed(struct rows *rows, const char *text, size_t length)
{
    struct arena *outer = parser_arena;
    parser_arena = rows->own;
    rows->between = false;
    csv_parse(&rows->parser, text, length, cell_ended, row_ended, rows);
    parser_arena = outer;
    rows->fed += length;
    rows->seen_long |= rows->fed > LONG_BYTES;
    bool line_ended = text[length - 1] == '\n';
    rows->line_fed = line_ended ? 0 : rows->line_fed + length;
    rows->lines_fed += line_ended;
    if (rows->between)
        rows->fed = rows->lines_fed = 0;
}

/* The line's end, or the text's. Whether its quotes closed is not known: the next line begins a record, as most do. */
static void end_long_line(struct rows *rows)
{
    struct csv_row row = {.line = rows->line + rows->lines_fed, .lines = 1, .too_long = true};
    struct arena *outer = parser_arena;
    parser_arena = rows->own;
    csv_fini(&rows->parser, cell_ended, row_ended, rows);
    parser_arena = outer;
    rows->line_too_long = rows->too_large = false;
    rows->seen_long = rows->between = true;
    rows->fed = rows->line_fed = rows->lines_fed = 0;
    if (!rows->stopped)
        rows->stopped = !rows->seen(rows->context, &row);
    rows->inner_ends = 0;
    rows->line = row.line;
    begin_row(rows);
}

/* Plain records are split here; any other record goes to libcsv line by line until it ends. */
static void parse(struct rows *rows, const char *text, size_t length)
{
    while (length && !rows->stopped) {
        size_t plain = rows->between ? give_plain_rows(rows, text, length) : 0;
        text += plain;
        length -= plain;
        const char *line_end = memchr(text, '\n', length);
        size_t line = line_end ? (size_t)(line_end - text) + 1 : length;
        rows->line_too_long |= rows->line_fed + line > INPUT_LINE_LIMIT + (line_end ? 1 : 0);
        if (rows->line_too_long && line_end)
            end_long_line(rows);
        else if (line && !rows->line_too_long && !rows->stopped)
            feed(rows, text, line);
        text += line;
        length -= line;
    }
}

/* In strict mode libcsv refuses to finish within quotes, which reveals an open quote. The record is then passed on as
 * it is. */
static void finish(struct rows *rows)
{
    if (rows->line_too_long) {
        end_long_line(rows);
        return;
    }
    struct arena *outer = parser_arena;
    parser_arena = rows->own;
    csv_set_opts(&rows->parser, CSV_APPEND_NULL | CSV_REPALL_NL | CSV_STRICT | CSV_STRICT_FINI);
    if (csv_fini(&rows->parser, cell_ended, row_ended, rows))
        give_row(rows, true);
    parser_arena = outer;
}

/* Skips the lines before `first_line`; true: the text at `*text` is on that line or after it. */
static bool skip_lines(struct rows *rows, uint32_t first_line, const char **text, size_t *length)
{
    while (rows->line < first_line) {
        const char *end = memchr(*text, '\n', *length);
        if (!end)
            return false;
        *length -= (size_t)(end + 1 - *text);
        *text = end + 1;
        rows->line++;
    }
    return true;
}

static bool read_rows(struct rows *rows, struct input *input, uint32_t first_line, struct diags *diags, bool goes_on)
{
    const char *text;
    bool open_too_long = false;
    for (size_t length; !rows->stopped && !rows->failed && !open_too_long && (length = input_read(input, &text));) {
        if (!skip_lines(rows, first_line, &text, &length))
            continue;
        parse(rows, text, length);
        open_too_long = csv_get_buffer_size(&rows->parser) > CSV_CELL_LIMIT + PARSER_BLOCK_BYTES;
    }
    bool cut = goes_on && !rows->between && !rows->stopped;
    if (open_too_long && !cut)
        give_row(rows, true);
    else if (!input_failed(input) && !cut)
        finish(rows);
    if (rows->failed)
        diag_add(diags, DIAG_LIMIT_REACHED, (struct place){.file = input_name(input), .line = rows->line}, NULL, NULL,
                 "a record of more than %zu cells, or a cell of more than 1 MiB: this is not a log", CSV_CELLS_LIMIT);
    return !rows->failed && !input_failed(input) && !cut;
}

bool csv_rows_read(struct input *input, char delimiter, uint32_t first_line, struct diags *diags, csv_row_seen *seen,
                   void *context)
{
    struct rows *rows = rows_new(delimiter, seen, context);
    rows->breaks_marked = input_is_sheet(input);
    bool good = read_rows(rows, input, first_line, diags, false);
    rows_free(rows);
    return good;
}

bool csv_rows_read_chunk(struct input *input, char delimiter, uint32_t first_line, bool last, struct diags *diags,
                         csv_row_seen *seen, void *context)
{
    struct rows *rows = rows_new(delimiter, seen, context);
    bool good = read_rows(rows, input, first_line, diags, !last) && !rows->seen_long;
    rows_free(rows);
    return good;
}

void csv_rows_scan(const char *text, size_t length, char delimiter, uint32_t first_line, csv_row_seen *seen,
                   void *context)
{
    struct rows *rows = rows_new(delimiter, seen, context);
    rows->breaks_marked = true;
    if (skip_lines(rows, first_line, &text, &length)) {
        parse(rows, text, length);
        finish(rows);
    }
    rows_free(rows);
}

/* The number of bytes of `line` before the text of cell `index`, including its opening quote. 0: the line ends before
 * the cell. */
static size_t bytes_before(const char *line, size_t index, char delimiter)
{
    const char stop[] = {delimiter, 0};
    size_t at = 0;
    for (size_t cell = 0;; cell++, at++) {
        at += strspn(line + at, delimiter == '\t' ? " " : " \t");
        bool quoted = line[at] == '"';
        at += quoted;
        if (cell == index)
            return at;
        while (quoted && line[at] && (line[at] != '"' || line[at + 1] == '"'))
            at += line[at] == '"' ? 2 : 1;
        at += strcspn(line + at, stop);
        if (!line[at])
            return 0;
    }
}

uint32_t csv_cell_column(struct input *input, struct arena *scratch, const struct csv_row *row, size_t index,
                         char delimiter)
{
    const char *line = input_line(input, scratch, row->line);
    return line ? csv_column_in_line(line, index, delimiter) : 1;
}

uint32_t csv_column_in_line(const char *line, size_t index, char delimiter)
{
    return (uint32_t)text_characters(line, bytes_before(line, index, delimiter)) + 1;
}

struct split
{
    struct arena *arena;
    const char **cells;
    size_t count;
};

static bool keep_cells(void *context, const struct csv_row *row)
{
    struct split *split = context;
    split->count = row->count;
    split->cells = ARENA_ARRAY(split->arena, const char *, row->count);
    for (size_t i = 0; i < row->count; i++)
        split->cells[i] = arena_copy(split->arena, row->cells[i]);
    return false;
}

size_t csv_split_record(struct arena *arena, const char *text, size_t length, char delimiter, const char *const **cells)
{
    struct split split = {.arena = arena};
    struct rows *rows = rows_new(delimiter, keep_cells, &split);
    rows->breaks_marked = true;
    const char *end = text + length;
    while (!rows->stopped && text < end) { /* a line at a time: a record is rarely longer */
        const char *line_end = memchr(text, '\n', (size_t)(end - text));
        const char *next = line_end ? line_end + 1 : end;
        parse(rows, text, (size_t)(next - text));
        if (rows->line > 1)
            break; /* a blank line, or the record is complete */
        text = next;
    }
    if (!rows->stopped)
        finish(rows);
    rows_free(rows);
    *cells = split.cells;
    return split.count;
}
