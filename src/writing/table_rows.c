#include "writing/table_rows.h"

#include "base/number.h"
#include "writing/escape.h"

#include <string.h>

/* By hand because measured: a million sets make 29 million cells. A row is put together where the output will be
 * written from, and a value that did not change is copied from where it was printed last: two comparisons and a copy.
 * Without that loads takes 1.16 times as many instructions. All rows since the last forget() still stand there, one
 * behind the other. */

#define COPIED 32                      /* bytes at once: most cells are shorter */
#define VALUES_BYTES (OUTPUT_ROOM / 2) /* for the values of a row, and for a single value: */
#define MOST_VALUE_BYTES 512

struct printed /* a column's cell when its value was last printed: in the row before, or earlier if only other cells
                  came since */
{
    enum cell_kind kind; /* CELL_TEXT: it cannot be copied */
    union cell_value value;
    const char *text; /* in the output buffer */
    size_t length;
};

struct fixed /* fixed text, in at least COPIED bytes */
{
    char *text;
    size_t length;
};

struct table_rows
{
    struct arena *arena;
    struct table_style style;
    size_t count;
    size_t value_bytes; /* longer texts are written separately */
    size_t room;        /* for a row, at most, without longer texts */
    struct printed *printed;
    struct fixed *before; /* a cell: the comma or the JSON key */
    struct fixed
        empty; /* an empty cell; a row's only one must be more than nothing in CSV: readers pass over blank lines */
    const char *end; /* of the row before, in the output; when the next does not begin there, that one was written out
                        or moved */
};

double cell_number_in(const struct cell *cell, enum mass_unit unit)
{
    return cell->quantity == QUANTITY_LOAD && unit != UNIT_KG ? kg_to(cell->value.number, unit) : cell->value.number;
}

const char *cell_text_in(struct arena *arena, const struct cell *cell, enum mass_unit unit)
{
    return cell->quantity == QUANTITY_LOAD && unit != UNIT_KG ? name_in_unit(arena, cell->value.text, unit)
                                                              : cell->value.text;
}

static bool is_json(const struct table_rows *rows)
{
    return rows->style.format == FORMAT_JSON;
}

static struct fixed fixed_of(struct arena *arena, const char *text, size_t length)
{
    struct fixed fixed = {arena_alloc(arena, length + COPIED), length};
    memcpy(fixed.text, text, length);
    return fixed;
}

static struct table_rows *rows_of(struct arena *arena, size_t count, const struct table_style *style)
{
    struct table_rows *rows = ARENA_NEW(arena, struct table_rows);
    size_t share = VALUES_BYTES / (count ? count : 1);
    *rows = (struct table_rows){.arena = arena, .style = *style, .count = count, .room = COPIED};
    rows->value_bytes = share < MOST_VALUE_BYTES ? share : MOST_VALUE_BYTES;
    rows->printed = ARENA_ARRAY(arena, struct printed, count);
    rows->before = ARENA_ARRAY(arena, struct fixed, count);
    const char *empty = is_json(rows) ? "null" : count == 1 ? "\"\"" : "";
    rows->empty = fixed_of(arena, empty, strlen(empty));
    return rows;
}

static void add_column(struct table_rows *rows, size_t column, const char *before, size_t length)
{
    rows->printed[column].kind = CELL_TEXT;
    rows->before[column] = fixed_of(rows->arena, before, length);
    rows->room += length + rows->value_bytes + COPIED;
}

struct table_rows *table_rows_new(struct arena *arena, const char *const *names, size_t count,
                                  const struct table_style *style)
{
    struct table_rows *rows = rows_of(arena, count, style);
    for (size_t i = 0; i < count; i++) {
        struct output *before = output_to_memory(arena);
        output_text(before, i ? "," : is_json(rows) ? "{" : "");
        if (is_json(rows)) {
            escape_json(before, names[i]);
            output_text(before, ":");
        }
        size_t length;
        const char *bytes = output_memory(before, &length);
        add_column(rows, i, bytes, length);
    }
    return rows;
}

struct table_rows *table_rows_copy(struct arena *arena, const struct table_rows *rows)
{
    struct table_rows *copy = rows_of(arena, rows->count, &rows->style);
    for (size_t i = 0; i < rows->count; i++)
        add_column(copy, i, rows->before[i].text, rows->before[i].length);
    return copy;
}

static void forget(struct table_rows *rows)
{
    for (size_t i = 0; i < rows->count; i++)
        rows->printed[i].kind = CELL_TEXT;
}

static inline char *copy(char *to, const char *text, size_t length)
{
    char bytes[COPIED];
    memcpy(bytes, text, COPIED); /* bytes after `length` are overwritten; a short row's `text` may be `to` */
    memcpy(to, bytes, COPIED);
    if (length > COPIED)
        memcpy(to + COPIED, text + COPIED, length - COPIED);
    return to + length;
}

static inline char *put_fixed(char *to, const struct fixed *fixed)
{
    return copy(to, fixed->text, fixed->length);
}

static char *put_date(const struct table_rows *rows, char *to, const struct cell *cell)
{
    const char *quote = is_json(rows) ? "\"" : "";
    to = stpcpy(to, quote);
    to += cell->kind == CELL_DAY ? date_print(to, (day_number)cell->value.count)
                                 : week_print(to, (week_number)cell->value.count);
    return stpcpy(to, quote);
}

/* A text that is too long, or must be escaped for JSON, is written to the output separately. NULL: there was an
 * error. */
static char *put_text_alone(struct table_rows *rows, struct output *output, char *to, const char *text)
{
    output_used(output, to);
    if (is_json(rows))
        escape_json(output, text);
    else
        escape_csv(output, text, rows->style.spreadsheet_safe);
    forget(rows);
    return output_room(output, rows->room);
}

static char *put_text(struct table_rows *rows, struct output *output, char *to, const char *text)
{
    size_t length = strlen(text);
    if (ESCAPED_CSV_BYTES(length) > rows->value_bytes || (is_json(rows) && !is_plain_in_json(text, length)))
        return put_text_alone(rows, output, to, text);
    if (!is_json(rows))
        return escape_csv_to(to, text, length, rows->style.spreadsheet_safe);
    *to++ = '"';
    memcpy(to, text, length);
    to[length] = '"';
    return to + length + 1;
}

/* Copies the value if it is the same as in the row before; else prints it and remembers it. */
static char *put_kept(struct table_rows *rows, struct output *output, char *to, struct printed *printed,
                      const struct cell *cell)
{
    if (printed->kind == cell->kind && !memcmp(&printed->value, &cell->value, sizeof cell->value)) {
        const char *text = printed->text;
        printed->text = to;
        return copy(to, text, printed->length);
    }
    *printed = (struct printed){cell->kind, cell->value, to, 0};
    char *end = cell->kind == CELL_NUMBER ? to + number_print(to, cell_number_in(cell, rows->style.unit))
                : cell->kind == CELL_NAME
                    ? put_text(rows, output, to, cell_text_in(rows->arena, cell, rows->style.unit))
                    : put_date(rows, to, cell);
    if (printed->kind != CELL_TEXT) /* not forgotten in between, either */
        printed->length = (size_t)(end - to);
    return end;
}

static inline char *put_cell(struct table_rows *rows, struct output *output, char *to, size_t column,
                             const struct cell *cell)
{
    to = put_fixed(to, &rows->before[column]);
    switch (cell->kind) {
    case CELL_EMPTY:
        return put_fixed(to, &rows->empty);
    case CELL_COUNT:
        return to + number_print_whole(to, cell->value.count);
    case CELL_NUMBER:
    case CELL_NAME:
    case CELL_DAY:
    case CELL_WEEK:
        return put_kept(rows, output, to, &rows->printed[column], cell);
    case CELL_TEXT:
        break;
    }
    return put_text(rows, output, to, cell_text_in(rows->arena, cell, rows->style.unit));
}

void table_rows_put(struct table_rows *rows, struct output *output, const struct cell *cells)
{
    char *to = output_room(output, rows->room);
    if (to != rows->end)
        forget(rows);
    for (size_t i = 0; to && i < rows->count; i++)
        to = put_cell(rows, output, to, i, &cells[i]);
    rows->end = to ? stpcpy(to, is_json(rows) ? "}\n" : "\n") : NULL;
    if (to)
        output_used(output, rows->end);
}
