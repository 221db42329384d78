/* From a table's rows to its sets. */
#include "reading/table/table.h"

#include "reading/table/layout.h"
#include "reading/table/layout_say.h"
#include "reading/table/sets.h"
#include "reading/years.h"

#include <string.h>

struct table *table_new(struct reading *reading, const struct table_origin *origin)
{
    struct arena *own = arena_new();
    struct table *table = ARENA_NEW(own, struct table);
    table->own = own;
    table->reading = reading;
    table->origin = *origin;
    table->header = NO_COLUMN;
    table->decimal = origin->decimal ? origin->decimal : '.';
    return table;
}

void table_free(struct table *table)
{
    arena_free(table->own);
}

void table_add(struct table *table, const struct table_row *row)
{
    struct arena *own = table->own;
    struct table_row *kept = LIST_ADD(own, &table->rows);
    const char **cells = ARENA_ARRAY(own, const char *, row->count);
    size_t *lengths = row->lengths ? ARENA_ARRAY(own, size_t, row->count) : NULL;
    for (size_t i = 0; i < row->count; i++) {
        cells[i] = *row->cells[i] ? arena_copy(own, row->cells[i]) : "";
        if (lengths)
            lengths[i] = row->lengths[i];
    }
    *kept = *row;
    kept->cells = cells;
    kept->lengths = lengths;
    kept->record = row->record ? arena_copy(own, row->record) : "";
}

bool table_is_log(struct table *table)
{
    return table_find_header(table, SIZE_MAX);
}

/* --- dates in the header ------------------------------------------------------------------------------------------- */

/* The date with its year added, as if it had been written with it. */
static char *with_year(struct arena *arena, const char *text, int year)
{
    struct written_day written = day_read_in_year(text, year);
    char day[16];
    if (written.kind == DAY_SURE) {
        date_print(day, written.day);
        return arena_copy(arena, day);
    }
    size_t length = strlen(text);
    while (length && strchr(" /-.", text[length - 1]))
        length--;
    return arena_printf(arena, "%.*s%c%d", (int)length, text, strchr(text, '/') ? '/' : '-', year);
}

/* Dates without a year get that of the date before them, or of the table's name. False: there is none. */
static bool settle_header_days(struct table *table)
{
    day_number last = NO_DAY;
    int named = year_of_names(table->origin.name, table->origin.path);
    table->header_days = ARENA_ARRAY(table->own, char *, table->heading_count);
    for (size_t i = 0; i < table->heading_count; i++) {
        const char *text = table->headings[i].text;
        if (!table->headings[i].is_day)
            continue;
        struct written_day written = day_read(text);
        if (written.kind == DAY_UNREADABLE) {
            int year = year_after(text, last, named);
            if (!year)
                return false;
            written = day_read_in_year(text, year);
            table->header_days[i] = with_year(table->own, text, year);
            table->header_years_taken = true;
        }
        last = written_any_day(&written);
    }
    return true;
}

/* --- reading ------------------------------------------------------------------------------------------------------- */

static void describe(struct table *table, uint32_t file)
{
    struct log_file *entry = &table->reading->log->files.items[file];
    const struct table_row *last = table->rows.count ? &table->rows.items[table->rows.count - 1] : NULL;
    entry->is_csv = true;
    entry->delimiter = table->origin.delimiter;
    entry->encoding = table->origin.encoding;
    entry->first = entry->last = NO_DAY;
    entry->lines = last ? last->line + last->lines - 1 : 0;
}

static bool refuse(struct table *table, uint32_t file)
{
    struct log_file *entry = &table->reading->log->files.items[file];
    entry->sets = entry->refused = 0;
    return false;
}

static bool say_no_header(struct table *table)
{
    diag_add(table->reading->diags, DIAG_NOT_A_LOG, (struct place){.file = table->origin.path}, NULL, NULL,
             "no header was found");
    return false;
}

static bool say_no_year(struct table *table)
{
    struct place at = {.file = table->origin.path, .line = table->rows.items[table->header].line};
    diag_add(table->reading->diags, DIAG_BAD_DATE, at, table->rows.items[table->header].record,
             "write the year in the first date, or name the file with it: 2026.csv",
             "the dates of the header have no year: its sets were refused");
    return false;
}

bool table_read(struct table *table, uint32_t file)
{
    describe(table, file);
    if (table->header == NO_COLUMN && !table_find_header(table, SIZE_MAX))
        return say_no_header(table);
    if (!table_judge(table))
        return refuse(table, file);
    if (table->dates == DATES_IN_HEADER && !settle_header_days(table))
        return say_no_year(table);
    table->reading->log->files.items[file].columns = layout_describe(table);
    struct csv_log *log = csv_log_of_table(table->reading, table->origin.path, file, table->origin.delimiter);
    log->name = table->origin.name;
    log->decimal = table->decimal;
    log->decimal_open = table->decimal_open;
    table_read_sets(table, log);
    layout_say_unread(table);
    bool good = csv_log_finish(log);
    csv_log_free(log);
    arena_reset(table->reading->scratch);
    return good;
}

size_t table_header_row(const struct table *table)
{
    return table->header;
}

struct table_cells table_cells(const struct table *table)
{
    return table->cells;
}
