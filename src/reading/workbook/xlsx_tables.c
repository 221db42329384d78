#include "reading/workbook/xlsx_tables.h"

#include "base/number.h"
#include "reading/workbook/part_reader.h"

#include <ctype.h>
#include <string.h>

struct own_format
{
    uint32_t number;
    struct number_format format;
};

struct reading_tables
{
    struct arena *arena;
    struct xlsx_tables *tables;
    struct xml_reader *xml;
    bool too_much;
    bool in_text;      /* within <t> of a string */
    unsigned phonetic; /* nesting of <rPh>, which gives the pronunciation of the text */
    size_t string_from;
    LIST(struct own_format) own_formats;
    bool in_cell_styles;
};

/* --- shared strings ---------------------------------------------------------------------------------------------- */

static int hex_value(const char *digits)
{
    int value = 0;
    for (int i = 0; i < 4; i++) {
        if (!isxdigit((unsigned char)digits[i]))
            return -1;
        int digit = isdigit((unsigned char)digits[i]) ? digits[i] - '0' : tolower((unsigned char)digits[i]) - 'a' + 10;
        value = value * 16 + digit;
    }
    return value;
}

size_t xlsx_unescape(char *text, size_t length)
{
    size_t to = 0;
    for (size_t at = 0; at < length;) {
        int value = text[at] == '_' && at + 7 <= length && text[at + 1] == 'x' && text[at + 6] == '_'
                        ? hex_value(text + at + 2)
                        : -1;
        if (value < 0 || value >= 0x80) {
            text[to++] = text[at++];
            continue;
        }
        if (value >= ' ' || value == '\n' || value == '\r' || value == '\t')
            text[to++] = (char)value;
        at += 7;
    }
    return to;
}

static void begin_string(void *context, const char *name, const char *const *attributes)
{
    struct reading_tables *reading = context;
    const char *local = xml_local(name);
    (void)attributes;
    if (!strcmp(local, "si"))
        reading->string_from = reading->tables->text.used;
    else if (!strcmp(local, "rPh"))
        reading->phonetic++;
    else if (!strcmp(local, "t"))
        reading->in_text = !reading->phonetic;
}

static void end_string(void *context, const char *name)
{
    struct reading_tables *reading = context;
    struct xlsx_tables *tables = reading->tables;
    const char *local = xml_local(name);
    if (!strcmp(local, "t")) {
        reading->in_text = false;
    } else if (!strcmp(local, "rPh")) {
        reading->phonetic--;
    } else if (!strcmp(local, "si")) {
        size_t length = tables->text.used - reading->string_from;
        if (length && memchr(tables->text.bytes + reading->string_from, '_', length))
            length = xlsx_unescape(tables->text.bytes + reading->string_from, length);
        tables->text.used = reading->string_from + length;
        *LIST_ROOM(reading->arena, &tables->ends) = (uint32_t)tables->text.used;
        reading->too_much |= tables->ends.count > XLSX_STRINGS;
    }
}

static void take_string_text(void *context, const char *text, size_t length)
{
    struct reading_tables *reading = context;
    struct xlsx_tables *tables = reading->tables;
    if (!reading->in_text || reading->too_much)
        return;
    size_t wanted = tables->text.used + length, room = tables->text.room ? tables->text.room : 4096;
    reading->too_much = wanted > XLSX_STRING_BYTES;
    while (room < wanted)
        room *= 2;
    if (room > tables->text.room)
        tables->text.bytes = arena_grow(reading->arena, tables->text.bytes, tables->text.room, room);
    tables->text.room = room;
    memcpy(tables->text.bytes + tables->text.used, text, length);
    tables->text.used = wanted;
}

const char *xlsx_string(const struct xlsx_tables *tables, size_t number, size_t *length)
{
    if (number >= tables->ends.count)
        return NULL;
    uint32_t from = number ? tables->ends.items[number - 1] : 0;
    *length = tables->ends.items[number] - from;
    return *length ? tables->text.bytes + from : "";
}

/* --- number formats ---------------------------------------------------------------------------------------------- */

static uint32_t whole_attribute(const char *const *attributes, const char *local)
{
    const char *text = xml_attribute(attributes, "", local);
    double value;
    return text && number_whole(text, '.', &value) && value >= 0 && value < 1e9 ? (uint32_t)value : 0;
}

static struct number_format format_of(const struct reading_tables *reading, uint32_t number)
{
    for (size_t i = 0; i < reading->own_formats.count; i++)
        if (reading->own_formats.items[i].number == number)
            return reading->own_formats.items[i].format;
    return number_format_built_in(number);
}

/* <cellXfs> lists the styles that cells refer to by index; <cellStyleXfs>, before it, those that styles are based
 * on. */
static void begin_style(void *context, const char *name, const char *const *attributes)
{
    struct reading_tables *reading = context;
    const char *local = xml_local(name);
    const char *code = !strcmp(local, "numFmt") ? xml_attribute(attributes, "", "formatCode") : NULL;
    if (code && reading->own_formats.count < 512)
        *LIST_ADD(reading->arena, &reading->own_formats) = (struct own_format){whole_attribute(attributes, "numFmtId"),
                                                                               number_format_read(code)};
    else if (!strcmp(local, "cellXfs"))
        reading->in_cell_styles = true;
    else if (reading->in_cell_styles && !strcmp(local, "xf") && reading->tables->formats.count < XLSX_STYLES)
        *LIST_ADD(reading->arena, &reading->tables->formats) = format_of(reading,
                                                                         whole_attribute(attributes, "numFmtId"));
}

static void end_style(void *context, const char *name)
{
    struct reading_tables *reading = context;
    if (!strcmp(xml_local(name), "cellXfs"))
        reading->in_cell_styles = false;
}

/* --- both -------------------------------------------------------------------------------------------------------- */

bool xlsx_tables_read(struct arena *arena, struct archive *archive, const struct xlsx_parts *parts,
                      struct xlsx_tables *tables, const char **why, enum diag_id *id)
{
    static const struct xml_events strings = {begin_string, end_string, take_string_text};
    static const struct xml_events styles = {.start = begin_style, .end = end_style};
    struct reading_tables reading = {.arena = arena, .tables = tables};
    *tables = (struct xlsx_tables){0};
    *why = NULL;
    if (parts->styles && archive_has(archive, parts->styles) &&
        !part_read(arena, archive, parts->styles, &styles, &reading, why, id))
        return false;
    if (parts->strings && archive_has(archive, parts->strings) &&
        !part_read(arena, archive, parts->strings, &strings, &reading, why, id))
        return false;
    if (reading.too_much) {
        *why = "more than 32 MiB of text, or 2 million pieces of it: this is not a log";
        *id = DIAG_LIMIT_REACHED;
    }
    return !reading.too_much;
}
