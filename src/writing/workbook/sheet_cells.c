#include "writing/workbook/sheet_cells.h"

#include "base/text.h"
#include "writing/table_rows.h"

#include <ctype.h>
#include <string.h>

static lxw_format *format_new(lxw_workbook *book, const char *code)
{
    lxw_format *format = workbook_add_format(book);
    if (!format)
        arena_out_of_memory(0);
    if (code)
        format_set_num_format(format, code);
    return format;
}

void sheet_formats_make(struct sheet_formats *formats, lxw_workbook *book)
{
    static const char *const codes[SHEET_DECIMALS + 1] = {"0", "0.0", "0.00", "0.000", "0.0000"};
    formats->header = format_new(book, NULL);
    format_set_bold(formats->header);
    format_set_bottom(formats->header, LXW_BORDER_THIN);
    formats->heading = format_new(book, NULL);
    format_set_bold(formats->heading);
    format_set_font_size(formats->heading, 13);
    formats->paragraph = format_new(book, NULL);
    format_set_text_wrap(formats->paragraph);
    format_set_align(formats->paragraph, LXW_ALIGN_VERTICAL_TOP);
    formats->day = format_new(book, "yyyy-mm-dd");
    formats->share = format_new(book, "0.0%");
    for (int i = 0; i <= SHEET_DECIMALS; i++)
        formats->number[i] = format_new(book, codes[i]);
}

/* --- titles ------------------------------------------------------------------------------------------------------ */

static const struct
{
    const char *name, *title;
} titles[] = {
    {"rpe", "RPE"},    {"rir", "RIR"},       {"ar", "AR"}, {"inol", "INOL"},         {"velocity", "Velocity (m/s)"},
    {"id", "Finding"}, {"kind", "Set type"}, {"p", "p"},   {"lifts", "Repetitions"},
};

/* Writes "one rm" and "e1rm" within a title as 1RM and e1RM. */
static void raise_one_rm(char *title)
{
    char *at = strstr(title, "ne rm");
    if (at > title && (at[-1] == 'o' || at[-1] == 'O')) {
        memcpy(at - 1, "1RM", 3);
        memmove(at + 2, at + 5, strlen(at + 5) + 1);
    }
    if ((at = strstr(title, "1rm")))
        memcpy(at, "1RM", 3);
}

char *sheet_title(struct arena *arena, const struct column *column, enum mass_unit unit)
{
    if (!strcmp(column->name, "straight_kg")) /* includes bodyweight; a log's column of that title would not */
        return arena_printf(arena, "Total straight (%s)", mass_unit_name(unit));
    for (size_t i = 0; i < sizeof titles / sizeof *titles; i++)
        if (!strcmp(column->name, titles[i].name))
            return arena_copy(arena, titles[i].title);
    char *name = arena_copy(arena, column->name);
    size_t length = strlen(name);
    bool in_kg = length > 3 && !strcmp(name + length - 3, "_kg");
    if (in_kg)
        name[length - 3] = 0;
    for (char *at = name; (at = strchr(at, '_'));)
        *at = ' ';
    raise_one_rm(name);
    if (name[0] != 'e' || name[1] != '1')
        name[0] = (char)toupper((unsigned char)name[0]);
    if (in_kg || (column->quantity == QUANTITY_LOAD && !strcmp(column->name, "strain")))
        return arena_printf(arena, "%s (%s)", name, mass_unit_name(unit));
    return name;
}

/* --- cells ------------------------------------------------------------------------------------------------------- */

#define MOST_CHARACTERS 32767 /* that a cell may hold */

size_t sheet_put_text(lxw_worksheet *sheet, uint32_t row, lxw_col_t at, const char *text, lxw_format *format)
{
    struct arena *scratch = NULL;
    size_t length = strlen(text);
    if (length > MOST_CHARACTERS) {
        size_t cut = MOST_CHARACTERS - 3; /* a text has at least as many bytes as characters */
        while (((unsigned char)text[cut] & 0xC0) == 0x80)
            cut--;
        scratch = arena_new();
        text = arena_printf(scratch, "%.*s\xE2\x80\xA6", (int)cut, text);
    }
    worksheet_write_string(sheet, row, at, text, format);
    arena_free(scratch);
    return length < 100 ? text_width(text) : 100;
}

static size_t put_number(lxw_worksheet *sheet, const struct sheet_formats *formats, uint32_t row, lxw_col_t at,
                         const struct column *column, const struct cell *cell, enum mass_unit unit)
{
    int decimals = cell->decimals >= 0 ? cell->decimals : column->decimals;
    lxw_format *format = cell->quantity == QUANTITY_SHARE
                             ? formats->share
                             : formats->number[decimals < SHEET_DECIMALS ? decimals : SHEET_DECIMALS];
    worksheet_write_number(sheet, row, at, cell_number_in(cell, unit), format);
    return 9;
}

static size_t put_day(lxw_worksheet *sheet, const struct sheet_formats *formats, uint32_t row, lxw_col_t at,
                      day_number day)
{
    worksheet_write_number(sheet, row, at, (double)day + 25569,
                           formats->day); /* from days since 1970 to days since 1900, as spreadsheets count */
    return 10;
}

size_t sheet_put_cell(lxw_worksheet *sheet, const struct sheet_formats *formats, uint32_t row, lxw_col_t at,
                      const struct column *column, const struct cell *cell, enum mass_unit unit)
{
    switch (cell->kind) {
    case CELL_EMPTY:
        break;
    case CELL_TEXT:
    case CELL_NAME: {
        struct arena *scratch = arena_new();
        size_t width = sheet_put_text(sheet, row, at, cell_text_in(scratch, cell, unit), NULL);
        arena_free(scratch);
        return width;
    }
    case CELL_NUMBER:
        return put_number(sheet, formats, row, at, column, cell, unit);
    case CELL_COUNT:
        worksheet_write_number(sheet, row, at, (double)cell->value.count, formats->number[0]);
        return 6;
    case CELL_DAY:
        return put_day(sheet, formats, row, at, (day_number)cell->value.count);
    case CELL_WEEK:
        return put_day(sheet, formats, row, at, week_monday((week_number)cell->value.count));
    }
    return 0;
}
