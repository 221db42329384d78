#include "writing/text/table_text.h"

#include "base/text.h"

#include <string.h>

#define BETWEEN_COLUMNS 2
#define NARROWEST_WORDS ((size_t)8) /* a column of words is never cut to less than this, nor to less than its title */
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
    bool left_out;
    const char *only; /* the text of all its cells so far; NULL: they differ */
};

struct text_table
{
    struct arena *arena;
    struct text_column *columns;
    size_t column_count, title_lines;
    struct output *cells; /* in memory: the kind as one byte, the text, a NUL, cell after cell */
    size_t next_column, rows;
    const size_t *spare;
    size_t spare_count;
};

/* A line that is being built. Blanks are written only before further text, so that no line ends in blanks. */
struct text_line
{
    struct output *output;
    size_t blanks;
    bool colour;
};

/* The `wanted`-th line of `title`, counted upward from its last one; NULL: it has fewer. */
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
    bool first = table->rows == 0;
    table->next_column = (table->next_column + 1) % table->column_count;
    table->rows += table->next_column == 0;
    if (kind != TEXT_CELL_EMPTY)
        text = text_visible(table->arena, text);
    else
        text = "";
    if (first)
        column->only = arena_copy(table->arena, text);
    else if (column->only && strcmp(column->only, text) != 0)
        column->only = NULL;
    size_t width = kind == TEXT_CELL_EMPTY ? 1 : text_width(text);
    if (width > column->width)
        column->width = width;
    column->has_words |= kind == TEXT_CELL_WORDS;
    column->has_numbers |= kind == TEXT_CELL_NUMBER;
    output_put(table->cells, (char[]){(char)kind}, 1);
    output_put(table->cells, text, strlen(text) + 1);
}

void text_table_spare(struct text_table *table, const size_t *columns, size_t count)
{
    table->spare = columns;
    table->spare_count = count;
}

static bool may_be_cut(const struct text_column *column)
{
    return column->has_words && !column->has_numbers && column->width > NARROWEST_WORDS &&
           column->width > column->title_width;
}

static size_t larger(size_t a, size_t b)
{
    return a > b ? a : b;
}

/* Of all columns that are shown; `cut`: with the columns of words as narrow as they may become. */
static size_t total_width(const struct text_table *table, bool cut)
{
    size_t total = 0, shown = 0;
    for (size_t i = 0; i < table->column_count; i++) {
        const struct text_column *column = &table->columns[i];
        if (column->left_out)
            continue;
        total += cut && may_be_cut(column) ? larger(NARROWEST_WORDS, column->title_width) : column->width;
        shown++;
    }
    return total + (shown ? BETWEEN_COLUMNS * (shown - 1) : 0);
}

/* Leaves out what may be, then takes from the widest column of words, one at a time, until the line fits or no column
 * can give more. */
static void fit(struct text_table *table, size_t width)
{
    for (size_t i = 0; i < table->spare_count && total_width(table, true) > width; i++)
        table->columns[table->spare[i]].left_out = true;
    for (size_t total = total_width(table, false); total > width; total--) {
        struct text_column *widest = NULL;
        for (size_t i = 0; i < table->column_count; i++) {
            struct text_column *column = &table->columns[i];
            if (!column->left_out && may_be_cut(column) && (!widest || column->width > widest->width))
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

/* `text` in a field of `width`; `left` is how many of the remaining blanks come before it. */
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
            if (column->left_out)
                continue;
            const char *start = title_line(column->title, row, &length);
            const char *text = start ? arena_text(table->arena, start, length) : "";
            bool right = column->has_numbers && !column->has_words;
            put_field(line, text, column->width, right ? room(column, text) : 0, STYLE_HEADER);
            line->blanks += BETWEEN_COLUMNS;
        }
        end_line(line);
    }
    for (size_t i = 0; i < table->column_count; i++) {
        if (table->columns[i].left_out)
            continue;
        for (size_t k = 0; k < table->columns[i].width; k++)
            put(line, RULE, STYLE_DIM);
        line->blanks += BETWEEN_COLUMNS;
    }
    end_line(line);
}

static void write_cell(struct text_table *table, struct text_line *line, const struct text_column *column,
                       enum text_cell kind, const char *text)
{
    if (column->left_out)
        return;
    if (kind == TEXT_CELL_EMPTY) {
        put_field(line, MIDDLE_DOT, column->width, (column->width - 1) / 2, STYLE_DIM);
    } else if (kind == TEXT_CELL_NUMBER) {
        put_field(line, text, column->width, room(column, text), NULL);
    } else {
        put_field(line, text_cut(table->arena, text, column->width), column->width, 0, NULL);
    }
    line->blanks += BETWEEN_COLUMNS;
}

/* Lines of at most `width` bytes, broken at blanks. */
static void put_wrapped(struct output *output, const char *text, size_t width)
{
    for (const char *end; strlen(text) > width; text = end + (*end == ' ')) {
        end = text + width;
        while (end > text && *end != ' ')
            end--;
        if (end == text)
            end = text + strcspn(text, " ");
        output_printf(output, "%.*s\n", (int)(end - text), text);
    }
    output_printf(output, "%s\n", text);
}

/* "Left out for want of room: lifter (Maren Holtvik), sets. --wide shows all." */
static void write_left_out(struct text_table *table, struct output *output, size_t width)
{
    const char *names = "";
    for (size_t i = 0; i < table->column_count; i++) {
        const struct text_column *column = &table->columns[i];
        if (!column->left_out)
            continue;
        char *title = arena_copy(table->arena, column->title);
        for (char *at = title; (at = strchr(at, '\n'));)
            *at = ' ';
        names = arena_printf(table->arena, "%s%s%s", names, *names ? ", " : "", title);
        if (column->only && *column->only)
            names = arena_printf(table->arena, "%s (%s)", names, column->only);
    }
    if (*names)
        put_wrapped(output, arena_printf(table->arena, "Left out for want of room: %s. --wide shows all.", names),
                    width);
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
    write_left_out(table, output, width);
}
