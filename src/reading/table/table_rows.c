#include "reading/table/table_rows.h"

#include "base/text.h"
#include "reading/csv/csv_say.h"

#include <string.h>

/* Only blanks, or a single dash. */
static bool is_empty(const char *text)
{
    static const char *const dashes[] = {"-", "\xE2\x80\x93", "\xE2\x80\x94"};
    text = csv_skip_blanks(text);
    if (!*text)
        return true;
    for (size_t i = 0; i < sizeof dashes / sizeof *dashes; i++)
        if (text_starts(text, dashes[i]) && !*csv_skip_blanks(text + strlen(dashes[i])))
            return true;
    return false;
}

const char *table_cell(const struct table *table, size_t row, size_t column)
{
    const struct table_row *cells = &table->rows.items[row];
    if (column >= cells->count || is_empty(cells->cells[column]))
        return "";
    return cells->cells[column];
}

bool table_row_is_blank(const struct table *table, size_t row)
{
    const struct table_row *cells = &table->rows.items[row];
    for (size_t i = 0; i < cells->count; i++)
        if (*csv_skip_blanks(cells->cells[i]) || (cells->lengths && cells->lengths[i] > strlen(cells->cells[i])))
            return false;
    return !cells->open_quote && !cells->too_long;
}

size_t table_date_row(const struct table *table, size_t row)
{
    const struct table_row *cells = &table->rows.items[row];
    size_t column = NO_COLUMN;
    for (size_t i = 0; i < cells->count; i++) {
        if (!*csv_skip_blanks(cells->cells[i]))
            continue;
        if (column != NO_COLUMN)
            return NO_COLUMN;
        column = i;
    }
    const char *text = column == NO_COLUMN ? "" : cells->cells[column];
    bool date = *text && (day_read(text).kind != DAY_UNREADABLE || heading_is_yearless(text));
    return date ? column : NO_COLUMN;
}
