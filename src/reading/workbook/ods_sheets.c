#include "reading/workbook/ods_sheets.h"

#include "base/number.h"
#include "base/text.h"
#include "reading/workbook/number_format.h"
#include "reading/workbook/part_reader.h"

#include <ctype.h>
#include <stdio.h>
#include <string.h>
#include <strings.h>

#define TABLE "table:1.0" /* endings of the namespaces' names */
#define OFFICE "office:1.0"
#define STYLE "style:1.0"
#define TEXT "text:1.0"
#define HIDING_STYLES ((size_t)1024)
#define PAST ((uint32_t)1 << 24) /* a row or column beyond all limits */

enum value_type
{
    VALUE_NONE,
    VALUE_TEXT,
    VALUE_NUMBER,
    VALUE_PERCENT,
    VALUE_DATE,
    VALUE_TIME,
    VALUE_TRUTH
};

struct ods_sheets
{
    struct arena *own;
    struct part_reader *part;
    LIST(const char *) hiding_styles; /* of tables that are hidden */
    char style_name[64];              /* of the style whose properties follow; "": none, or one too long to matter */

    struct sheet_rows *rows; /* NULL: the table is skipped */
    const char *name;        /* of the current table; NULL: none yet */
    bool hidden, began, ended, in_row, in_cell;
    bool in_paragraph;          /* one of the cell's own */
    unsigned depth, paragraphs; /* of elements within the cell; number of the cell's own paragraphs so far */
    uint32_t row, column, row_repeat, cell_repeat;
    enum value_type type;
    bool has_formula, told,
        covered; /* told: an attribute gives the text that paragraphs repeat; covered: by the cell it is merged with */
    uint32_t rows_spanned;
    char value[64]; /* the attribute with the value; "" if it is in the text */
    char *text;     /* the cell's visible text */
    size_t length, room;
};

static void check(struct ods_sheets *sheets, bool good)
{
    enum diag_id id;
    if (!good) {
        const char *why = sheet_failure(sheets->rows, &id);
        xml_reader_fail(part_xml(sheets->part), id, why);
    }
}

static uint32_t count_of(const char *const *attributes, const char *local)
{
    const char *text = xml_attribute(attributes, TABLE, local);
    double value;
    if (!text || !number_whole(text, '.', &value) || value < 1)
        return 1;
    return value < PAST ? (uint32_t)value : PAST;
}

/* --- what a cell shows ------------------------------------------------------------------------------------------- */

static void add_text(struct ods_sheets *sheets, const char *text, size_t length)
{
    size_t wanted = sheets->length + length, room = sheets->room ? sheets->room : 256;
    if (wanted > SHEET_ROW_BYTES) {
        xml_reader_fail(part_xml(sheets->part), DIAG_LIMIT_REACHED, "a cell with nearly 1 MiB of text");
        return;
    }
    while (room < wanted)
        room *= 2;
    if (room > sheets->room)
        sheets->text = arena_grow(sheets->own, sheets->text, sheets->room, room);
    sheets->room = room;
    memcpy(sheets->text + sheets->length, text, length);
    sheets->length = wanted;
}

static void add_blanks(struct ods_sheets *sheets, const char *const *attributes)
{
    const char *text = xml_attribute(attributes, TEXT, "c");
    double count = 1;
    if (text && !number_whole(text, '.', &count))
        count = 1;
    for (int i = 0; i < count && i < 100; i++)
        add_text(sheets, " ", 1);
}

/* Counts only the cell's own paragraphs: a comment or a drawing within it has some, too. */
static void begin_within_cell(struct ods_sheets *sheets, const char *name, const char *const *attributes)
{
    const char *local = xml_local(name);
    sheets->depth++;
    if (sheets->depth == 1 && !sheets->told && xml_is(name, TEXT, "p")) {
        if (sheets->paragraphs++)
            add_text(sheets, "\n", 1);
        sheets->in_paragraph = true;
    } else if (!sheets->in_paragraph) {
        return;
    } else if (!strcmp(local, "annotation") || !strcmp(local, "frame") || !strcmp(local, "note")) {
        sheets->in_paragraph = false;
    } else if (!strcmp(local, "s")) {
        add_blanks(sheets, attributes);
    } else if (!strcmp(local, "tab")) {
        add_text(sheets, "\t", 1);
    } else if (!strcmp(local, "line-break")) {
        add_text(sheets, "\n", 1);
    }
}

/* --- cells ------------------------------------------------------------------------------------------------------- */

static enum value_type type_of(const char *type)
{
    static const struct
    {
        const char *name;
        enum value_type type;
    } types[] = {{"string", VALUE_TEXT},        {"float", VALUE_NUMBER}, {"currency", VALUE_NUMBER},
                 {"percentage", VALUE_PERCENT}, {"date", VALUE_DATE},    {"time", VALUE_TIME},
                 {"boolean", VALUE_TRUTH}};
    for (size_t i = 0; type && i < sizeof types / sizeof *types; i++)
        if (!strcmp(type, types[i].name))
            return types[i].type;
    return VALUE_NONE;
}

static void begin_cell(struct ods_sheets *sheets, const char *name, const char *const *attributes)
{
    static const char *const values[] = {[VALUE_NUMBER] = "value",
                                         [VALUE_PERCENT] = "value",
                                         [VALUE_DATE] = "date-value",
                                         [VALUE_TIME] = "time-value",
                                         [VALUE_TRUTH] = "boolean-value"};
    sheets->type = type_of(xml_attribute(attributes, OFFICE, "value-type"));
    const char *kept = (size_t)sheets->type < sizeof values / sizeof *values ? values[sheets->type] : NULL;
    const char *value = kept ? xml_attribute(attributes, OFFICE, kept) : NULL;
    snprintf(sheets->value, sizeof sheets->value, "%s", value ? value : "");
    sheets->cell_repeat = count_of(attributes, "number-columns-repeated");
    sheets->rows_spanned = count_of(attributes, "number-rows-spanned");
    sheets->has_formula = xml_attribute(attributes, TABLE, "formula");
    sheets->column = sheets->column < PAST ? sheets->column + 1 : PAST;
    sheets->covered = !strcmp(xml_local(name), "covered-table-cell");
    sheets->in_cell = true;
    sheets->in_paragraph = false;
    sheets->depth = sheets->paragraphs = 0;
    sheets->length = 0;
    const char *text = sheets->type == VALUE_TEXT ? xml_attribute(attributes, OFFICE, "string-value") : NULL;
    sheets->told = text && *text;
    if (sheets->told)
        add_text(sheets, text, strlen(text));
}

/* PT18H30M05S becomes 18:30:05; a duration may have more hours than a day. */
static size_t time_text(char buffer[NUMBER_TEXT_BYTES], const char *value)
{
    double part[3] = {0}; /* hours, minutes, seconds */
    const char *at = strchr(value, 'T');
    for (at = at ? at + 1 : ""; *at;) {
        double number;
        size_t length = number_prefix(at, strlen(at), '.', &number);
        const char *letter = length ? strchr("HMS", at[length]) : NULL;
        if (!letter || !*letter || number > 1e6)
            return 0;
        part[*letter == 'H' ? 0 : *letter == 'M' ? 1 : 2] = number;
        at += length + 1;
    }
    return (size_t)snprintf(buffer, NUMBER_TEXT_BYTES, "%02ld:%02ld:%02ld", (long)part[0], (long)part[1],
                            (long)part[2]);
}

/* If a unit of mass is shown after a number, the cell's format has added it. */
static struct number_format unit_shown(const struct ods_sheets *sheets)
{
    static const struct
    {
        const char *word;
        uint8_t unit;
    } units[] = {{"kg", 1}, {"kgs", 1}, {"lb", 2}, {"lbs", 2}};
    size_t from = sheets->length;
    while (from && isalpha((unsigned char)sheets->text[from - 1]))
        from--;
    size_t letters = sheets->length - from;
    for (size_t i = 0; from && i < sizeof units / sizeof *units; i++)
        if (letters == strlen(units[i].word) && !strncasecmp(sheets->text + from, units[i].word, letters))
            return (struct number_format){.unit = units[i].unit};
    return (struct number_format){0};
}

/* The cell's value as an export would write it. */
static const char *cell_text(const struct ods_sheets *sheets, char buffer[NUMBER_TEXT_BYTES], size_t *length)
{
    size_t given = strlen(sheets->value);
    struct number_format format = unit_shown(sheets);
    *length = 0;
    if (sheets->type == VALUE_PERCENT)
        format = (struct number_format){.kind = NUMBER_PERCENT};
    if (sheets->type == VALUE_NUMBER || sheets->type == VALUE_PERCENT)
        *length = number_as_text(buffer, sheets->value, given, format, false);
    else if (sheets->type == VALUE_TIME)
        *length = time_text(buffer, sheets->value);
    else if (sheets->type == VALUE_TRUTH)
        *length = (size_t)snprintf(buffer, NUMBER_TEXT_BYTES, "%s", !strcmp(sheets->value, "true") ? "TRUE" : "FALSE");
    else if (sheets->type == VALUE_DATE)
        return *length = given, sheets->value;
    return *length ? buffer : (*length = sheets->length, sheets->text ? sheets->text : "");
}

static void end_cell(struct ods_sheets *sheets)
{
    char buffer[NUMBER_TEXT_BYTES];
    size_t length;
    uint32_t column = sheets->column, repeat = sheets->cell_repeat;
    sheets->in_cell = false;
    sheets->column = column + repeat - 1 < PAST ? column + repeat - 1 : PAST;
    if (!sheets->rows || sheets->covered)
        return;
    if (sheets->has_formula && sheets->type == VALUE_NONE && !sheets->length)
        sheet_unknown_value(sheets->rows, column);
    const char *text = cell_text(sheets, buffer, &length);
    check(sheets, sheet_add_cell(sheets->rows, column, repeat, text, length));
    if (length && sheets->rows_spanned > 1)
        sheet_merge(sheets->rows, &(struct merged_cells){sheets->row, sheets->row + sheets->rows_spanned - 1, column});
}

/* --- rows and tables --------------------------------------------------------------------------------------------- */

static void begin_row(struct ods_sheets *sheets, const char *const *attributes)
{
    sheets->row_repeat = count_of(attributes, "number-rows-repeated");
    sheets->row = sheets->row < PAST ? sheets->row + 1 : PAST;
    sheets->column = 0;
    sheets->in_row = true;
    if (sheets->rows)
        check(sheets, sheet_begin_row(sheets->rows, sheets->row));
}

static void end_row(struct ods_sheets *sheets)
{
    sheets->in_row = false;
    if (sheets->rows)
        check(sheets, sheet_end_row(sheets->rows, sheets->row_repeat));
    uint32_t last = sheets->row + sheets->row_repeat - 1;
    sheets->row = last < PAST ? last : PAST;
    if (sheets->rows && sheet_waiting(sheets->rows) > SHEET_WAITING)
        xml_reader_pause(part_xml(sheets->part));
}

static bool is_hiding(const struct ods_sheets *sheets, const char *style)
{
    for (size_t i = 0; style && i < sheets->hiding_styles.count; i++)
        if (!strcmp(style, sheets->hiding_styles.items[i]))
            return true;
    return false;
}

static void begin_table(struct ods_sheets *sheets, const char *const *attributes)
{
    const char *name = xml_attribute(attributes, TABLE, "name");
    sheets->name = arena_copy(sheets->own, name ? name : "");
    sheets->hidden = is_hiding(sheets, xml_attribute(attributes, TABLE, "style-name"));
    sheets->began = true;
    sheets->ended = false;
    sheets->rows = NULL;
    sheets->row = 0;
    xml_reader_pause(part_xml(sheets->part));
}

static void see_style(struct ods_sheets *sheets, const char *name, const char *const *attributes)
{
    if (xml_is(name, STYLE, "style")) {
        const char *style = xml_attribute(attributes, STYLE, "name");
        snprintf(sheets->style_name, sizeof sheets->style_name, "%s",
                 style && strlen(style) < sizeof sheets->style_name ? style : "");
    } else if (*sheets->style_name && xml_is(name, STYLE, "table-properties")) {
        const char *display = xml_attribute(attributes, TABLE, "display");
        if (display && !strcmp(display, "false") && sheets->hiding_styles.count < HIDING_STYLES)
            *LIST_ADD(sheets->own, &sheets->hiding_styles) = arena_copy(sheets->own, sheets->style_name);
    }
}

static bool in_table(const struct ods_sheets *sheets)
{
    return sheets->name && !sheets->ended;
}

static void see_start(void *context, const char *name, const char *const *attributes)
{
    struct ods_sheets *sheets = context;
    if (sheets->in_cell) {
        begin_within_cell(sheets, name, attributes);
    } else if (sheets->in_row) {
        if (xml_is(name, TABLE, "table-cell") || xml_is(name, TABLE, "covered-table-cell"))
            begin_cell(sheets, name, attributes);
    } else if (in_table(sheets)) {
        if (xml_is(name, TABLE, "table-row"))
            begin_row(sheets, attributes);
    } else if (xml_is(name, TABLE, "table")) {
        begin_table(sheets, attributes);
    } else {
        see_style(sheets, name, attributes);
    }
}

static void end_within_cell(struct ods_sheets *sheets)
{
    if (!sheets->depth)
        end_cell(sheets);
    else if (!--sheets->depth)
        sheets->in_paragraph = false;
}

static void see_end(void *context, const char *name)
{
    struct ods_sheets *sheets = context;
    if (sheets->in_cell) {
        end_within_cell(sheets);
    } else if (sheets->in_row) {
        if (xml_is(name, TABLE, "table-row"))
            end_row(sheets);
    } else if (in_table(sheets) && xml_is(name, TABLE, "table")) {
        sheets->ended = true;
        xml_reader_pause(part_xml(sheets->part)); /* the rows of the next sheet go somewhere else */
    } else if (xml_is(name, STYLE, "style")) {
        *sheets->style_name = 0;
    }
}

static void see_text(void *context, const char *text, size_t length)
{
    struct ods_sheets *sheets = context;
    if (sheets->in_cell && sheets->in_paragraph)
        add_text(sheets, text, length);
}

/* --- the sheets -------------------------------------------------------------------------------------------------- */

struct ods_sheets *ods_sheets_open(struct arena *arena, struct archive *archive, const char **why, enum diag_id *id)
{
    static const struct xml_events events = {see_start, see_end, see_text};
    struct arena *own = arena_new();
    struct ods_sheets *sheets = ARENA_NEW(own, struct ods_sheets);
    sheets->own = own;
    sheets->part = part_open(archive, "content.xml", &events, sheets);
    if (sheets->part)
        return sheets;
    *why = arena_copy(arena, archive_failure(archive, id));
    arena_free(own);
    return NULL;
}

void ods_sheets_close(struct ods_sheets *sheets)
{
    if (!sheets)
        return;
    part_close(sheets->part);
    arena_free(sheets->own);
}

bool ods_sheets_next(struct ods_sheets *sheets, struct arena *arena, const char **name, bool *hidden, const char **why,
                     enum diag_id *id)
{
    sheets->rows = NULL;
    sheets->began = false;
    while (!sheets->began)
        if (!part_step(sheets->part)) {
            *why = part_failure(sheets->part, arena, id);
            return false;
        }
    *why = NULL;
    *name = arena_copy(arena, sheets->name);
    *hidden = sheets->hidden;
    return true;
}

void ods_sheets_fill(struct ods_sheets *sheets, struct sheet_rows *rows)
{
    sheets->rows = rows;
}

bool ods_sheets_step(struct ods_sheets *sheets, struct arena *arena, const char **why, enum diag_id *id)
{
    *why = NULL;
    while (!sheets->ended && sheet_waiting(sheets->rows) < SHEET_WAITING)
        if (!part_step(sheets->part)) {
            *why = part_failure(sheets->part, arena, id);
            return false;
        }
    return !sheets->ended;
}
