#include "writing/table.h"

#include "base/number.h"
#include "writing/escape.h"
#include "writing/table_text.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

struct printed /* a day or week, kept: rows stand in order of time */
{
    long value;
    size_t length; /* 0: nothing yet */
    char text[16];
};

struct table_writer
{
    struct arena *arena;
    struct output *output;
    const struct column *columns;
    size_t count;
    struct table_style style;
    char **keys; /* JSON: `"name":` */
    struct text_table *text; /* only the columns with a title */
    struct printed day, week;
};

void cell_text(struct cell *cell, const char *text)
{
    if (text && *text) {
        cell->kind = CELL_TEXT;
        cell->text = text;
    }
}

void cell_number(struct cell *cell, double value)
{
    if (isfinite(value)) {
        cell->kind = CELL_NUMBER;
        cell->number = value;
    }
}

void cell_count(struct cell *cell, long value)
{
    cell->kind = CELL_COUNT;
    cell->count = value;
}

void cell_day(struct cell *cell, day_number day)
{
    if (day != NO_DAY) {
        cell->kind = CELL_DAY;
        cell->count = day;
    }
}

void cell_week(struct cell *cell, week_number week)
{
    cell->kind = CELL_WEEK;
    cell->count = week;
}

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

static const char *column_word(struct table_writer *writer, const struct column *column, const char *word)
{
    return column->quantity == QUANTITY_LOAD ? name_in_unit(writer->arena, word, writer->style.unit) : word;
}

static void open_csv(struct table_writer *writer)
{
    for (size_t i = 0; i < writer->count; i++) {
        if (i)
            output_put(writer->output, ",", 1);
        escape_csv(writer->output, column_word(writer, &writer->columns[i], writer->columns[i].name), false);
    }
    output_put(writer->output, "\n", 1);
}

static void open_json(struct table_writer *writer)
{
    writer->keys = ARENA_ARRAY(writer->arena, char *, writer->count);
    for (size_t i = 0; i < writer->count; i++) {
        struct output *key = output_to_memory(writer->arena);
        output_put(key, i ? "," : "{", 1);
        escape_json(key, column_word(writer, &writer->columns[i], writer->columns[i].name));
        output_put(key, ":", 1);
        writer->keys[i] = arena_copy(writer->arena, output_memory(key, NULL));
    }
}

static void open_text(struct table_writer *writer)
{
    const char **titles = ARENA_ARRAY(writer->arena, const char *, writer->count);
    size_t shown = 0;
    for (size_t i = 0; i < writer->count; i++)
        if (writer->columns[i].title)
            titles[shown++] = column_word(writer, &writer->columns[i], writer->columns[i].title);
    writer->text = text_table_new(writer->arena, titles, shown);
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
    if (style->format == FORMAT_CSV)
        open_csv(writer);
    else if (style->format == FORMAT_JSON)
        open_json(writer);
    else
        open_text(writer);
    return writer;
}

struct table_writer *table_part(struct arena *arena, struct output *output, const struct table_writer *whole)
{
    struct table_writer *part = ARENA_NEW(arena, struct table_writer);
    *part = *whole;
    part->arena = arena;
    part->output = output;
    return part;
}

/* The cell in the output's unit. */
static struct cell cell_in_unit(struct arena *arena, const struct column *column, const void *row, enum mass_unit unit)
{
    struct cell cell = {.kind = CELL_EMPTY, .quantity = column->quantity, .decimals = -1};
    column->get(row, &cell);
    if (cell.quantity != QUANTITY_LOAD)
        return cell;
    if (cell.kind == CELL_NUMBER)
        cell.number = kg_to(cell.number, unit);
    else if (cell.kind == CELL_TEXT && unit != UNIT_KG)
        cell.text = name_in_unit(arena, cell.text, unit);
    return cell;
}

static struct cell cell_of(struct table_writer *writer, const struct column *column, const void *row)
{
    return cell_in_unit(writer->arena, column, row, writer->style.unit);
}

#define PLAIN_BYTES 32 /* the longest cell that print_plain() writes, and its NUL */

/* Kinds that look alike in CSV and JSON, but for the quotes around dates in JSON. */
static size_t print_plain(struct table_writer *writer, char *buffer, const struct cell *cell)
{
    if (cell->kind == CELL_NUMBER)
        return (size_t)number_print(buffer, cell->number);
    if (cell->kind == CELL_COUNT)
        return (size_t)number_print_whole(buffer, cell->count);
    struct printed *printed = cell->kind == CELL_DAY ? &writer->day : &writer->week;
    if (!printed->length || printed->value != cell->count) {
        printed->value = cell->count;
        printed->length = (size_t)(cell->kind == CELL_DAY ? date_print(printed->text, (day_number)cell->count)
                                                          : week_print(printed->text, (week_number)cell->count));
    }
    memcpy(buffer, printed->text, sizeof printed->text);
    return printed->length;
}

struct line /* cells put together, so that the output is called once a row and not once a cell */
{
    struct output *output;
    size_t used;
    double number; /* printed last */
    size_t number_length;
    char number_text[PLAIN_BYTES];
    char bytes[1024];
};

static void line_flush(struct line *line)
{
    output_put(line->output, line->bytes, line->used);
    line->used = 0;
}

static void line_text(struct line *line, const char *text, bool spreadsheet_safe)
{
    size_t length;
    if (!spreadsheet_safe && escape_csv_plain(text, &length) && length < sizeof line->bytes - line->used - PLAIN_BYTES) {
        memcpy(line->bytes + line->used, text, length);
        line->used += length;
    } else {
        line_flush(line);
        escape_csv(line->output, text, spreadsheet_safe);
    }
}

/* A set without chains and bands has one load at the bottom, at the top and between: what was printed last is copied. */
static void line_number(struct line *line, double number)
{
    if (!line->number_length || line->number != number) {
        line->number = number;
        line->number_length = (size_t)number_print(line->number_text, number);
    }
    memcpy(line->bytes + line->used, line->number_text, PLAIN_BYTES);
    line->used += line->number_length;
}

static void row_csv(struct table_writer *writer, const void *row)
{
    struct line line;
    line.output = writer->output;
    line.used = line.number_length = 0;
    for (size_t i = 0; i < writer->count; i++) {
        struct cell cell = cell_of(writer, &writer->columns[i], row);
        if (sizeof line.bytes - line.used < 2 * PLAIN_BYTES)
            line_flush(&line);
        if (i)
            line.bytes[line.used++] = ',';
        if (cell.kind == CELL_TEXT)
            line_text(&line, cell.text, writer->style.spreadsheet_safe);
        else if (cell.kind == CELL_NUMBER)
            line_number(&line, cell.number);
        else if (cell.kind != CELL_EMPTY)
            line.used += print_plain(writer, line.bytes + line.used, &cell);
    }
    line.bytes[line.used++] = '\n';
    line_flush(&line);
}

static void row_json(struct table_writer *writer, const void *row)
{
    char buffer[PLAIN_BYTES];
    for (size_t i = 0; i < writer->count; i++) {
        struct cell cell = cell_of(writer, &writer->columns[i], row);
        bool quoted = cell.kind == CELL_DAY || cell.kind == CELL_WEEK;
        output_text(writer->output, writer->keys[i]);
        if (quoted)
            output_put(writer->output, "\"", 1);
        if (cell.kind == CELL_EMPTY)
            output_put(writer->output, "null", 4);
        else if (cell.kind == CELL_TEXT)
            escape_json(writer->output, cell.text);
        else
            output_put(writer->output, buffer, print_plain(writer, buffer, &cell));
        if (quoted)
            output_put(writer->output, "\"", 1);
    }
    output_put(writer->output, "}\n", 2);
}

static void put_fixed(char *buffer, size_t size, const struct column *column, const struct cell *cell)
{
    bool share = cell->quantity == QUANTITY_SHARE;
    int decimals = cell->decimals >= 0 ? cell->decimals : column->decimals;
    int length = number_fixed(buffer, size - 1, share ? cell->number * 100 : cell->number, decimals);
    if (share)
        memcpy(buffer + length, "%", 2);
}

const char *cell_for_people(struct arena *arena, const struct column *column, const void *row, enum mass_unit unit,
                            char buffer[CELL_BYTES], bool *is_number)
{
    struct cell cell = cell_in_unit(arena, column, row, unit);
    *is_number = cell.kind == CELL_COUNT || cell.kind == CELL_NUMBER;
    *buffer = 0;
    switch (cell.kind) {
    case CELL_EMPTY: break;
    case CELL_TEXT: return cell.text;
    case CELL_DAY: date_print(buffer, (day_number)cell.count); break;
    case CELL_WEEK: week_print(buffer, (week_number)cell.count); break;
    case CELL_COUNT: snprintf(buffer, CELL_BYTES, "%ld", cell.count); break;
    case CELL_NUMBER: put_fixed(buffer, CELL_BYTES, column, &cell); break;
    }
    return buffer;
}

static void row_text(struct table_writer *writer, const void *row)
{
    for (size_t i = 0; i < writer->count; i++) {
        char buffer[CELL_BYTES];
        bool is_number;
        if (!writer->columns[i].title)
            continue;
        const char *text =
            cell_for_people(writer->arena, &writer->columns[i], row, writer->style.unit, buffer, &is_number);
        text_table_cell(writer->text, is_number ? TEXT_CELL_NUMBER : *text ? TEXT_CELL_WORDS : TEXT_CELL_EMPTY, text);
    }
}

void table_row(struct table_writer *writer, const void *row)
{
    if (writer->style.format == FORMAT_CSV)
        row_csv(writer, row);
    else if (writer->style.format == FORMAT_JSON)
        row_json(writer, row);
    else
        row_text(writer, row);
}

void table_close(struct table_writer *writer)
{
    if (writer->text)
        text_table_write(writer->text, writer->output, writer->style.width, writer->style.colour);
}
