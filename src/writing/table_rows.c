#include "writing/table_rows.h"

#include "base/number.h"
#include "writing/escape.h"

#include <string.h>

/* By hand because measured: a million sets make 29 million cells. What a column had in the row before is kept as it was printed, with the
 * comma or the JSON key before it, so that a cell that did not change is two comparisons and a copy; and a row is put together where the
 * output will be written from. */

#define VALUE_BYTES 160 /* of a cell that is kept */
#define COPIED 32       /* at once: most cells are shorter */

struct printed /* a column's cell in the row before */
{
    enum cell_kind kind; /* CELL_TEXT: none is kept */
    union cell_value value;
    size_t before, length; /* of the text: up to the value; all of it */
    char *text;
};

struct table_rows
{
    struct arena *arena;
    struct table_style style;
    size_t count;
    size_t room; /* that a row takes at most, long texts apart */
    struct printed *printed;
    double number; /* printed last: a set without chains and bands has one load at the bottom, at the top and between */
    size_t number_length;
    char number_text[COPIED];
};

double cell_number_in(const struct cell *cell, enum mass_unit unit)
{
    return cell->quantity == QUANTITY_LOAD && unit != UNIT_KG ? kg_to(cell->value.number, unit) : cell->value.number;
}

const char *cell_text_in(struct arena *arena, const struct cell *cell, enum mass_unit unit)
{
    return cell->quantity == QUANTITY_LOAD && unit != UNIT_KG ? name_in_unit(arena, cell->value.text, unit) : cell->value.text;
}

static bool is_json(const struct table_rows *rows)
{
    return rows->style.format == FORMAT_JSON;
}

static void begin(struct table_rows *rows, struct printed *printed, const char *before, size_t length)
{
    size_t room = length + VALUE_BYTES + COPIED;
    printed->kind = CELL_TEXT;
    printed->before = printed->length = length;
    printed->text = arena_alloc(rows->arena, room);
    memcpy(printed->text, before, length);
    rows->room += room;
}

struct table_rows *table_rows_new(struct arena *arena, const char *const *names, size_t count, const struct table_style *style)
{
    struct table_rows *rows = ARENA_NEW(arena, struct table_rows);
    *rows = (struct table_rows){.arena = arena, .style = *style, .count = count, .room = COPIED};
    rows->printed = ARENA_ARRAY(arena, struct printed, count);
    for (size_t i = 0; i < count; i++) {
        struct output *before = output_to_memory(arena);
        output_text(before, i ? "," : is_json(rows) ? "{" : "");
        if (is_json(rows)) {
            escape_json(before, names[i]);
            output_text(before, ":");
        }
        size_t length;
        const char *bytes = output_memory(before, &length);
        begin(rows, &rows->printed[i], bytes, length);
    }
    return rows;
}

struct table_rows *table_rows_copy(struct arena *arena, const struct table_rows *rows)
{
    struct table_rows *copy = ARENA_NEW(arena, struct table_rows);
    *copy = (struct table_rows){.arena = arena, .style = rows->style, .count = rows->count, .room = COPIED};
    copy->printed = ARENA_ARRAY(arena, struct printed, copy->count);
    for (size_t i = 0; i < copy->count; i++)
        begin(copy, &copy->printed[i], rows->printed[i].text, rows->printed[i].before);
    return copy;
}

static char *number_to(struct table_rows *rows, char *to, double number)
{
    if (!rows->number_length || rows->number != number) {
        rows->number = number;
        rows->number_length = (size_t)number_print(rows->number_text, number);
    }
    memcpy(to, rows->number_text, COPIED);
    return to + rows->number_length;
}

static char *date_to(const struct table_rows *rows, char *to, const struct cell *cell)
{
    const char *quote = is_json(rows) ? "\"" : "";
    to = stpcpy(to, quote);
    to += cell->kind == CELL_DAY ? date_print(to, (day_number)cell->value.count) : week_print(to, (week_number)cell->value.count);
    return stpcpy(to, quote);
}

/* NULL: it does not fit into VALUE_BYTES, or must be escaped for JSON. */
static char *text_to(const struct table_rows *rows, char *to, const char *text)
{
    size_t length = strlen(text);
    if (ESCAPED_CSV_BYTES(length) > VALUE_BYTES)
        return NULL;
    if (!is_json(rows))
        return escape_csv_to(to, text, length, rows->style.spreadsheet_safe);
    if (!is_plain_in_json(text, length))
        return NULL;
    *to++ = '"';
    memcpy(to, text, length);
    to[length] = '"';
    return to + length + 1;
}

static bool print(struct table_rows *rows, struct printed *printed, const struct cell *cell)
{
    char *to = printed->text + printed->before, *end = to;
    switch (cell->kind) {
    case CELL_EMPTY: end = is_json(rows) ? stpcpy(to, "null") : to; break;
    case CELL_NUMBER: end = number_to(rows, to, cell_number_in(cell, rows->style.unit)); break;
    case CELL_COUNT: end = to + number_print_whole(to, cell->value.count); break;
    case CELL_DAY:
    case CELL_WEEK: end = date_to(rows, to, cell); break;
    case CELL_NAME: end = text_to(rows, to, cell_text_in(rows->arena, cell, rows->style.unit)); break;
    case CELL_TEXT: end = NULL; break;
    }
    printed->kind = end ? cell->kind : CELL_TEXT;
    printed->value = cell->value;
    printed->length = end ? (size_t)(end - printed->text) : 0;
    return end;
}

/* What is not kept. Returns where the row goes on, NULL: nowhere, an error stands. */
static char *put_text(struct table_rows *rows, struct output *output, char *to, const struct printed *printed, const struct cell *cell)
{
    const char *text = cell_text_in(rows->arena, cell, rows->style.unit);
    memcpy(to, printed->text, printed->before);
    to += printed->before;
    char *end = text_to(rows, to, text);
    if (end)
        return end;
    output_used(output, to);
    if (is_json(rows))
        escape_json(output, text);
    else
        escape_csv(output, text, rows->style.spreadsheet_safe);
    return output_room(output, rows->room);
}

static bool is_kept(const struct printed *printed, const struct cell *cell)
{
    return printed->kind == cell->kind && !memcmp(&printed->value, &cell->value, sizeof cell->value) && cell->kind != CELL_TEXT;
}

void table_rows_put(struct table_rows *rows, struct output *output, const struct cell *cells)
{
    char *to = output_room(output, rows->room);
    for (size_t i = 0; to && i < rows->count; i++) {
        struct printed *printed = &rows->printed[i];
        if (is_kept(printed, &cells[i]) || print(rows, printed, &cells[i])) {
            memcpy(to, printed->text, COPIED);
            if (printed->length > COPIED)
                memcpy(to + COPIED, printed->text + COPIED, printed->length - COPIED);
            to += printed->length;
        } else {
            to = put_text(rows, output, to, printed, &cells[i]);
        }
    }
    if (to)
        output_used(output, stpcpy(to, is_json(rows) ? "}\n" : "\n"));
}
