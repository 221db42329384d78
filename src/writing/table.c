#include "writing/table.h"

#include "base/number.h"
#include "base/pounds.h"
#include "writing/escape.h"
#include "writing/table_rows.h"
#include "writing/text/table_text.h"

#include <stdio.h>
#include <string.h>

struct table_writer
{
    struct arena *arena;
    struct output *output;
    const struct column *columns;
    size_t count;
    struct table_style style;
    struct row_cells *cells;
    struct table_rows *rows;   /* for CSV and JSON */
    struct cell *chosen_cells; /* for one row, where columns are chosen */
    struct text_table *text;   /* has only the columns with a title */
};

static bool is_word_character(char c)
{
    return (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
}

char *name_in_unit(struct arena *arena, const char *name, enum mass_unit unit)
{
    char *renamed = arena_copy(arena, name);
    for (char *at = renamed; (at = strstr(at, "kg")); at += 2)
        if ((at == renamed || !is_word_character(at[-1])) && !is_word_character(at[2]))
            memcpy(at, mass_unit_name(unit), 2); /* both units' names have two letters */
    return renamed;
}

static const char *word_in_unit(struct arena *arena, const struct column *column, const char *word, enum mass_unit unit)
{
    return column->quantity == QUANTITY_LOAD ? name_in_unit(arena, word, unit) : word;
}

const char *column_name(struct arena *arena, const struct column *column, enum mass_unit unit)
{
    return word_in_unit(arena, column, column->name, unit);
}

static void open_rows(struct table_writer *writer)
{
    const size_t *chosen = writer->style.chosen;
    size_t count = chosen ? writer->style.chosen_count : writer->count;
    const char **names = ARENA_ARRAY(writer->arena, const char *, count);
    for (size_t i = 0; i < count; i++)
        names[i] = column_name(writer->arena, &writer->columns[chosen ? chosen[i] : i], writer->style.unit);
    writer->rows = table_rows_new(writer->arena, names, count, &writer->style);
    writer->chosen_cells = ARENA_ARRAY(writer->arena, struct cell, writer->style.chosen_count);
    for (size_t i = 0; writer->style.format == FORMAT_CSV && i < count; i++) {
        output_text(writer->output, i ? "," : "");
        escape_csv(writer->output, names[i], false);
    }
    output_text(writer->output, writer->style.format == FORMAT_CSV ? "\n" : "");
}

static void open_text(struct table_writer *writer)
{
    const char **titles = ARENA_ARRAY(writer->arena, const char *, writer->count);
    size_t shown = 0;
    for (size_t i = 0; i < writer->count; i++)
        if (writer->columns[i].title)
            titles[shown++] = word_in_unit(writer->arena, &writer->columns[i], writer->columns[i].title,
                                           writer->style.unit);
    writer->text = text_table_new(writer->arena, titles, shown);
    size_t *spare = ARENA_ARRAY(writer->arena, size_t, writer->style.spare_count);
    for (size_t i = 0; i < writer->style.spare_count; i++)
        for (size_t k = 0; k < writer->style.spare[i]; k++)
            spare[i] += writer->columns[k].title != NULL;
    text_table_spare(writer->text, spare, writer->style.spare_count);
}

struct table_writer *table_open(struct arena *arena, struct output *output, const struct column *columns, size_t count,
                                const struct table_style *style)
{
    struct table_writer *writer = ARENA_NEW(arena, struct table_writer);
    writer->arena = arena;
    writer->output = output;
    writer->columns = columns;
    writer->count = count;
    writer->style = *style;
    writer->cells = row_cells_new(arena, columns, count);
    if (style->sink)
        style->sink->begin(style->sink->context, columns, count, style->unit);
    else if (style->format == FORMAT_TEXT)
        open_text(writer);
    else
        open_rows(writer);
    return writer;
}

struct table_writer *table_part(struct arena *arena, struct output *output, const struct table_writer *whole)
{
    struct table_writer *part = ARENA_NEW(arena, struct table_writer);
    *part = *whole;
    part->arena = arena;
    part->output = output;
    part->cells = row_cells_new(arena, part->columns, part->count);
    part->rows = table_rows_copy(arena, whole->rows);
    part->chosen_cells = ARENA_ARRAY(arena, struct cell, part->style.chosen_count);
    return part;
}

struct row_cells
{
    const struct column *columns;
    size_t count;
    struct cell *empty, *cells;
};

struct row_cells *row_cells_new(struct arena *arena, const struct column *columns, size_t count)
{
    struct row_cells *cells = ARENA_NEW(arena, struct row_cells);
    *cells = (struct row_cells){columns, count, ARENA_ARRAY(arena, struct cell, count),
                                ARENA_ARRAY(arena, struct cell, count)};
    for (size_t i = 0; i < count; i++)
        cells->empty[i] = (struct cell){.kind = CELL_EMPTY, .quantity = columns[i].quantity, .decimals = -1};
    return cells;
}

const struct cell *row_cells_get(struct row_cells *cells, const void *row)
{
    memcpy(cells->cells, cells->empty, cells->count * sizeof *cells->cells);
    for (size_t i = 0; i < cells->count; i++)
        if (!i || cells->columns[i].get != cells->columns[i - 1].get)
            cells->columns[i].get(row, &cells->cells[i]);
    return cells->cells;
}

static void put_fixed(char *buffer, size_t size, const struct column *column, const struct cell *cell,
                      enum mass_unit unit)
{
    bool share = cell->quantity == QUANTITY_SHARE;
    int decimals = cell->decimals >= 0 ? cell->decimals : column->decimals;
    double number = cell_number_in(cell, unit);
    int length = number_fixed(buffer, size - 1, share ? number * 100 : number, decimals);
    if (share)
        memcpy(buffer + length, "%", 2);
}

const char *cell_for_people(struct arena *arena, const struct column *column, const struct cell *cell,
                            enum mass_unit unit, char buffer[CELL_BYTES], bool *is_number)
{
    *is_number = cell->kind == CELL_COUNT || cell->kind == CELL_NUMBER;
    *buffer = 0;
    switch (cell->kind) {
    case CELL_EMPTY:
        break;
    case CELL_TEXT:
    case CELL_NAME:
        return column->quantity == QUANTITY_GEAR ? load_in_unit(arena, cell->value.text, unit)
                                                 : cell_text_in(arena, cell, unit);
    case CELL_DAY:
        date_print(buffer, (day_number)cell->value.count);
        break;
    case CELL_WEEK:
        week_print(buffer, (week_number)cell->value.count);
        break;
    case CELL_COUNT:
        snprintf(buffer, CELL_BYTES, "%ld", cell->value.count);
        break;
    case CELL_NUMBER:
        put_fixed(buffer, CELL_BYTES, column, cell, unit);
        break;
    }
    return buffer;
}

static void row_text(struct table_writer *writer, const struct cell *cells)
{
    for (size_t i = 0; i < writer->count; i++) {
        char buffer[CELL_BYTES];
        bool is_number;
        if (!writer->columns[i].title)
            continue;
        const char *text = cell_for_people(writer->arena, &writer->columns[i], &cells[i], writer->style.unit, buffer,
                                           &is_number);
        is_number = is_number || (*text && writer->columns[i].quantity == QUANTITY_SERIES);
        text_table_cell(writer->text, is_number ? TEXT_CELL_NUMBER : *text ? TEXT_CELL_WORDS : TEXT_CELL_EMPTY, text);
    }
}

void table_row(struct table_writer *writer, const void *row)
{
    const struct cell *cells = row_cells_get(writer->cells, row);
    if (writer->style.sink) {
        writer->style.sink->row(writer->style.sink->context, cells);
        return;
    }
    if (writer->text) {
        row_text(writer, cells);
        return;
    }
    for (size_t i = 0; i < writer->style.chosen_count; i++)
        writer->chosen_cells[i] = cells[writer->style.chosen[i]];
    table_rows_put(writer->rows, writer->output, writer->style.chosen ? writer->chosen_cells : cells);
}

void table_close(struct table_writer *writer)
{
    if (writer->text)
        text_table_write(writer->text, writer->output, writer->style.width, writer->style.colour);
}
