#include "writing/text/table_text.h"

#include "base/text.h"

#include <string.h>

#define BETWEEN_COLUMNS 2
#define NARROWEST_WORDS ((size_t)8) /* a column of words is never cut below this, nor below its title */
#define MIDDLE_DOT "\xC2\xB7"
#define RULE "\xE2\x94\x80"

#define STYLE_HEADER "\033[1m"
#define STYLE_DIM "\033[2m"
#define STYLE_END "\033[0m"

struct text_column
{
    const char *title;
    size_t title_width;
    size_t width;
    bool has_words, has_numbers;
};

struct text_table
{
    struct arena *arena;
    struct text_column *columns;
    size_t column_count, title_lines;
    struct output *cells; /* in memory: the kind as one byte, the text, a NUL, cell after cell */
    size_t next_column;
};

/* One line in the making. Blanks are written only once something follows, so that no line ends in blanks. */
struct text_line
{
    struct output *output;
    size_t blanks;
    bool colour;
};

/* The `wanted`-th line of `title`, counted from its last one upward; NULL: it has fewer. */
static const char *title_line(const char *title, size_t wanted, size_t *length)
{
    const char *end = title + strlen(title);
    for (;; wanted--) {
        const char *start = end;
        while (start > title && start[-1] != '\n')
            start--;
        if (!wanted) {
            *length = (size_t)(end - start);
            return start;
        }
        if (start == title)
            return NULL;
        end = start - 1;
    }
}

static void measure_title(struct text_table *table, struct text_column *column, const char *title)
{
    size_t length, lines = 0;
    column->title = title;
    for (const char *line; (line = title_line(title, lines, &length)); lines++) {
        size_t width = text_width(arena_text(table->arena, line, length));
        if (width > column->title_width)
            column->title_width = width;
    }
    column->width = column->title_width;
    if (lines > table->title_lines)
        table->title_lines = lines;
}

struct text_table *text_table_new(struct arena *arena, const char *const *titles, size_t count)
{
    struct text_table *table = ARENA_NEW(arena, struct text_table);
    table->arena = arena;
    table->columns = ARENA_ARRAY(arena, struct text_column, count);
    table->column_count = count;
    table->cells = output_to_memory(arena);
    for (size_t i = 0; i < count; i++)
        measure_title(table, &table->columns[i], titles[i]);
    return table;
}

void text_table_cell(struct text_table *table, enum text_cell kind, const char *text)
{
    struct text_column *column = &table->columns[table->next_column];
    table->next_column = (table->next_column + 1) % table->column_count;
    if (kind != TEXT_CELL_EMPTY)
        text = text_visible(table->arena, text);
    else
        text = "";
    size_t width = kind == TEXT_CELL_EMPTY ? 1 : text_width(text);
    if (width > column->width)
        column->width = width;
    column->has_words |= kind == TEXT_CELL_WORDS;
    column->has_numbers |= kind == TEXT_CELL_NUMBER;
    output_put(table->cells, (char[]){(char)kind}, 1);
    output_put(table->cells, text, strlen(text) + 1);
}

/* Takes columns from the widest column of words, one at a time, until the line fits or no column can give more. */
static void fit(struct text_table *table, size_t width)
{
    size_t total = BETWEEN_COLUMNS * (table->column_count - 1);
    for (size_t i = 0; i < table->column_count; i++)
        total += table->columns[i].width;
    for (; total > width; total--) {
        struct text_column *widest = NULL;
        for (size_t i = 0; i < table->column_count; i++) {
            struct text_column *column = &table->columns[i];
            if (column->has_words && !column->has_numbers && column->width > NARROWEST_WORDS &&
                column->width > column->title_width && (!widest || column->width > widest->width))
                widest = column;
        }
        if (!widest)
            return;
        widest->width--;
    }
}

static void put(struct text_line *line, const char *text, const char *style)
{
    for (; line->blanks; line->blanks--)
        output_put(line->output, " ", 1);
    if (line->colour && style)
        output_text(line->output, style);
    output_text(line->output, text);
    if (line->colour && style)
        output_text(line->output, STYLE_END);
}

/* `text` in a field of `width`: `left` of the blanks that remain come before it. */
static void put_field(struct text_line *line, const char *text, size_t width, size_t left, const char *style)
{
    size_t taken = text_width(text), after = width > taken + left ? width - taken - left : 0;
    line->blanks += left;
    if (*text)
        put(line, text, style);
    line->blanks += after;
}

static size_t room(const struct text_column *column, const char *text)
{
    size_t taken = text_width(text);
    return column->width > taken ? column->width - taken : 0;
}

static void end_line(struct text_line *line)
{
    line->blanks = 0;
    output_put(line->output, "\n", 1);
}

static void write_header(struct text_table *table, struct text_line *line)
{
    for (size_t row = table->title_lines; row-- > 0;) {
        for (size_t i = 0; i < table->column_count; i++) {
            const struct text_column *column = &table->columns[i];
            size_t length;
            const char *start = title_line(column->title, row, &length);
            const char *text = start ? arena_text(table->arena, start, length) : "";
            bool right = column->has_numbers && !column->has_words;
            put_field(line, text, column->width, right ? room(column, text) : 0, STYLE_HEADER);
            line->blanks += BETWEEN_COLUMNS;
        }
        end_line(line);
    }
    for (size_t i = 0; i < table->column_count; i++) {
        for (size_t k = 0; k < table->columns[i].width; k++)
            put(line, RULE, STYLE_DIM);
        line->blanks += BETWEEN_COLUMNS;
    }
    end_line(line);
}

static void write_cell(struct text_table *table, struct text_line *line, const struct text_column *column,
                       enum text_cell kind, const char *text)
{
    if (kind == TEXT_CELL_EMPTY) {
        put_field(line, MIDDLE_DOT, column->width, (column->width - 1) / 2, STYLE_DIM);
    } else if (kind == TEXT_CELL_NUMBER) {
        put_field(line, text, column->width, room(column, text), NULL);
    } else {
        put_field(line, text_cut(table->arena, text, column->width), column->width, 0, NULL);
    }
    line->blanks += BETWEEN_COLUMNS;
}

void text_table_write(struct text_table *table, struct output *output, size_t width, bool colour)
{
    struct text_line line = {.output = output, .colour = colour};
    size_t length, column = 0;
    const char *cell = output_memory(table->cells, &length);
    const char *end = cell + length;
    if (!table->column_count)
        return;
    if (width)
        fit(table, width);
    write_header(table, &line);
    for (; cell < end; cell += strlen(cell) + 1) {
        enum text_cell kind = (enum text_cell)(unsigned char)*cell++;
        write_cell(table, &line, &table->columns[column], kind, cell);
        if (++column == table->column_count) {
            end_line(&line);
            column = 0;
        }
    }
}
