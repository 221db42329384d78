#include "reading/workbook/xlsx_sheet.h"

#include "base/number.h"
#include "reading/workbook/part_reader.h"

#include <stdlib.h>
#include <string.h>

enum cell_type
{
    TYPE_NUMBER,
    TYPE_SHARED, /* the number of a shared string */
    TYPE_TEXT,   /* literally: of a formula, within the cell, an error */
    TYPE_TRUTH,
    TYPE_DATE /* ISO 8601 */
};

struct xlsx_sheet
{
    struct arena *own;
    struct part_reader *part;
    const struct xlsx_tables *tables;
    struct sheet_rows *rows;
    bool epoch_1904, at_end;

    uint32_t row, column; /* of the current cell */
    enum cell_type type;
    bool in_row, in_cell, in_value, in_inline;
    bool has_formula, has_value;
    unsigned phonetic;
    struct number_format format;
    char *value; /* of the cell, as text */
    size_t length, room;
};

/* --- references -------------------------------------------------------------------------------------------------- */

const char *cell_reference(const char *text, uint32_t *column, uint32_t *row)
{
    uint32_t letters = 0, digits = 0;
    *column = *row = 0;
    for (; *text == '$'; text++)
        ;
    for (; *text >= 'A' && *text <= 'Z' && letters < 4; text++, letters++)
        *column = *column * 26 + (uint32_t)(*text - 'A') + 1;
    for (; *text == '$'; text++)
        ;
    for (; *text >= '0' && *text <= '9' && digits < 8; text++, digits++)
        *row = *row * 10 + (uint32_t)(*text - '0');
    return letters && *row ? text : NULL;
}

/* --- cells ------------------------------------------------------------------------------------------------------- */

/* A fault in the rows ends the reading of the part. */
static void check(struct xlsx_sheet *sheet, bool good)
{
    enum diag_id id;
    if (!good) {
        const char *why = sheet_failure(sheet->rows, &id);
        xml_reader_fail(part_xml(sheet->part), id, why);
    }
}

static void fail(struct xlsx_sheet *sheet, const char *what)
{
    xml_reader_fail(part_xml(sheet->part), DIAG_BAD_WORKBOOK, what);
}

static void begin_row(struct xlsx_sheet *sheet, const char *const *attributes)
{
    const char *number = xml_attribute(attributes, "", "r");
    double row = sheet->row + 1;
    if (number && !(number_whole(number, '.', &row) && row >= 1 && row < 4e9))
        fail(sheet, "a row without a number");
    sheet->row = (uint32_t)row;
    sheet->column = 0;
    sheet->in_row = true;
    check(sheet, sheet_begin_row(sheet->rows, sheet->row));
}

static enum cell_type type_of(const char *type)
{
    static const struct
    {
        const char *name;
        enum cell_type type;
    } types[] = {{"s", TYPE_SHARED}, {"str", TYPE_TEXT}, {"inlineStr", TYPE_TEXT},
                 {"e", TYPE_TEXT},   {"b", TYPE_TRUTH},  {"d", TYPE_DATE}};
    for (size_t i = 0; type && i < sizeof types / sizeof *types; i++)
        if (!strcmp(type, types[i].name))
            return types[i].type;
    return TYPE_NUMBER;
}

static size_t whole(const char *text, size_t length)
{
    size_t number = 0;
    for (size_t i = 0; i < length; i++) {
        if (text[i] < '0' || text[i] > '9' || i >= 9)
            return SIZE_MAX;
        number = number * 10 + (size_t)(text[i] - '0');
    }
    return length ? number : SIZE_MAX;
}

static void begin_cell(struct xlsx_sheet *sheet, const char *const *attributes)
{
    const char *place = NULL, *type = NULL, *style = NULL;
    for (; *attributes; attributes += 2) {
        const char *name = attributes[0];
        if (name[1])
            continue;
        if (*name == 'r')
            place = attributes[1];
        else if (*name == 't')
            type = attributes[1];
        else if (*name == 's')
            style = attributes[1];
    }
    uint32_t column = sheet->column + 1, row;
    if (place && !cell_reference(place, &column, &row))
        fail(sheet, "a cell without a place");
    sheet->column = column;
    sheet->type = type_of(type);
    size_t number = style ? whole(style, strlen(style)) : 0;
    sheet->format = number < sheet->tables->formats.count ? sheet->tables->formats.items[number]
                                                          : (struct number_format){0};
    sheet->in_cell = true;
    sheet->has_formula = sheet->has_value = false;
    sheet->length = 0;
}

static const char *cell_text(struct xlsx_sheet *sheet, char buffer[NUMBER_TEXT_BYTES], size_t *length)
{
    const char *value = sheet->value;
    *length = sheet->length;
    if (sheet->type == TYPE_SHARED) {
        const char *text = xlsx_string(sheet->tables, whole(value, sheet->length), length);
        if (!text)
            fail(sheet, "a cell refers to a text that the workbook lacks");
        return text;
    }
    if (sheet->type == TYPE_TRUTH)
        return *length = *value == '1' ? 4 : 5, *value == '1' ? "TRUE" : "FALSE";
    if (sheet->type == TYPE_NUMBER) {
        size_t bytes = number_as_text(buffer, value, sheet->length, sheet->format, sheet->epoch_1904);
        return bytes ? (*length = bytes, buffer) : value;
    }
    if (sheet->type == TYPE_TEXT && memchr(value, '_', sheet->length))
        *length = xlsx_unescape(sheet->value, sheet->length);
    return value;
}

static void end_cell(struct xlsx_sheet *sheet)
{
    char buffer[NUMBER_TEXT_BYTES];
    size_t length;
    sheet->in_cell = sheet->in_inline = false;
    if (!sheet->length) {
        if (sheet->has_formula &&
            !(sheet->has_value && sheet->type == TYPE_TEXT)) /* a formula may result in an empty text */
            sheet_unknown_value(sheet->rows, sheet->column);
        return;
    }
    const char *text = cell_text(sheet, buffer, &length);
    check(sheet, text && sheet_add_cell(sheet->rows, sheet->column, 1, text, length));
}

/* --- events ------------------------------------------------------------------------------------------------------ */

static void see_start(void *context, const char *name, const char *const *attributes)
{
    struct xlsx_sheet *sheet = context;
    const char *local = xml_local(name);
    if (!sheet->in_row) {
        if (!strcmp(local, "row"))
            begin_row(sheet, attributes);
    } else if (!sheet->in_cell) {
        if (!strcmp(local, "c"))
            begin_cell(sheet, attributes);
    } else if (!strcmp(local, "v")) {
        sheet->in_value = sheet->has_value = true;
        sheet->length = 0;
    } else if (!strcmp(local, "f")) {
        sheet->has_formula = true;
    } else if (!strcmp(local, "is")) {
        sheet->in_inline = true;
    } else if (!strcmp(local, "rPh")) {
        sheet->phonetic++;
    } else if (!strcmp(local, "t")) {
        sheet->in_value = sheet->in_inline && !sheet->phonetic;
    }
}

static void see_end(void *context, const char *name)
{
    struct xlsx_sheet *sheet = context;
    const char *local = xml_local(name);
    if (sheet->in_cell) {
        if (!strcmp(local, "v") || !strcmp(local, "t"))
            sheet->in_value = false;
        else if (!strcmp(local, "rPh") && sheet->phonetic)
            sheet->phonetic--;
        else if (!strcmp(local, "c"))
            end_cell(sheet);
    } else if (sheet->in_row && !strcmp(local, "row")) {
        sheet->in_row = false;
        check(sheet, sheet_end_row(sheet->rows, 1));
        if (sheet_waiting(sheet->rows) > SHEET_WAITING)
            xml_reader_pause(part_xml(sheet->part));
    }
}

static void see_text(void *context, const char *text, size_t length)
{
    struct xlsx_sheet *sheet = context;
    if (!sheet->in_value)
        return;
    size_t wanted = sheet->length + length, room = sheet->room ? sheet->room : 256;
    while (room < wanted)
        room *= 2;
    if (wanted > SHEET_ROW_BYTES) {
        fail(sheet, "a cell with nearly 1 MiB of text");
        return;
    }
    if (room > sheet->room)
        sheet->value = arena_grow(sheet->own, sheet->value, sheet->room, room);
    sheet->room = room;
    memcpy(sheet->value + sheet->length, text, length);
    sheet->length = wanted;
}

/* --- the sheet --------------------------------------------------------------------------------------------------- */

struct xlsx_sheet *xlsx_sheet_open(struct arena *arena, struct archive *archive, const char *part,
                                   const struct xlsx_tables *tables, bool epoch_1904, struct sheet_rows *rows,
                                   const char **why, enum diag_id *id)
{
    static const struct xml_events events = {see_start, see_end, see_text};
    struct arena *own = arena_new();
    struct xlsx_sheet *sheet = ARENA_NEW(own, struct xlsx_sheet);
    *sheet = (struct xlsx_sheet){.own = own, .tables = tables, .rows = rows, .epoch_1904 = epoch_1904};
    sheet->part = part_open(archive, part, &events, sheet);
    if (sheet->part)
        return sheet;
    *why = arena_copy(arena, archive_failure(archive, id));
    arena_free(own);
    return NULL;
}

void xlsx_sheet_close(struct xlsx_sheet *sheet)
{
    if (!sheet)
        return;
    part_close(sheet->part);
    arena_free(sheet->own);
}

bool xlsx_sheet_step(struct xlsx_sheet *sheet, struct arena *arena, const char **why, enum diag_id *id)
{
    bool more = true;
    *why = NULL;
    while (more && sheet_waiting(sheet->rows) < SHEET_WAITING)
        more = part_step(sheet->part);
    if (!more)
        *why = part_failure(sheet->part, arena, id);
    return more;
}

/* --- merged cells ------------------------------------------------------------------------------------------------ */

struct finding_merged
{
    struct arena *arena;
    LIST(struct merged_cells) ranges;
    bool too_many;
};

static void see_merged(void *context, const char *name, const char *const *attributes)
{
    struct finding_merged *finding = context;
    struct merged_cells range;
    uint32_t last_column;
    if (strcmp(xml_local(name), "mergeCell"))
        return;
    const char *reference = xml_attribute(attributes, "", "ref"),
               *colon = reference ? cell_reference(reference, &range.column, &range.first_row) : NULL;
    if (!colon || *colon != ':' || !cell_reference(colon + 1, &last_column, &range.last_row))
        return;
    finding->too_many |= finding->ranges.count >= SHEET_MERGED;
    if (!finding->too_many)
        *LIST_ADD(finding->arena, &finding->ranges) = range;
}

static void pass_end(void *context, const char *name)
{
    (void)context, (void)name;
}

static int by_first_row(const void *left, const void *right)
{
    const struct merged_cells *a = left, *b = right;
    if (a->first_row != b->first_row)
        return a->first_row < b->first_row ? -1 : 1;
    return a->column < b->column ? -1 : a->column > b->column;
}

/* Does the part contain the word at all? Most sheets have no merged cells, and inflating is cheap compared with
 * parsing. In UTF-16 this search does not work, so the answer is then yes. False also on a failure, which the archive
 * keeps. */
static bool may_have_merged(struct archive *archive, const char *part)
{
    static const char word[] = "mergeCell";
    const size_t overlap = sizeof word - 2;
    struct arena *scratch = arena_new();
    char *bytes = arena_alloc(scratch, overlap + PART_BYTES);
    struct member *member = member_open(archive, part);
    bool found = false, first = true;
    memset(bytes, ' ', overlap);
    for (size_t length; member && !found && (length = member_read(member, bytes + overlap, PART_BYTES));
         first = false) {
        found = memmem(bytes, overlap + length, word, sizeof word - 1) ||
                (first && (length < 4 || memchr(bytes + overlap, 0, 4) || (signed char)bytes[overlap] < 0));
        memmove(bytes, bytes + length, overlap);
    }
    member_close(member);
    arena_free(scratch);
    return found;
}

bool xlsx_sheet_find_merged(struct arena *arena, struct archive *archive, const char *part, struct sheet_rows *rows,
                            const char **why, enum diag_id *id)
{
    static const struct xml_events events = {.start = see_merged, .end = pass_end};
    struct finding_merged finding = {.arena = arena_new()};
    bool good = !may_have_merged(archive, part) ? !(*why = archive_failure(archive, id))
                                                : part_read(arena, archive, part, &events, &finding, why, id);
    if (good && finding.too_many) {
        *why = "more than 100000 ranges of merged cells: this is not a log";
        *id = DIAG_LIMIT_REACHED;
        good = false;
    }
    if (good && finding.ranges.count)
        qsort(finding.ranges.items, finding.ranges.count, sizeof *finding.ranges.items, by_first_row);
    for (size_t i = 0; good && i < finding.ranges.count; i++)
        sheet_merge(rows, &finding.ranges.items[i]);
    arena_free(finding.arena);
    return good;
}
