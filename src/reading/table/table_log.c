#include "reading/table/table_log.h"

#include "reading/csv/csv_down.h"
#include "reading/csv/csv_rows.h"
#include "reading/csv/csv_say.h"
#include "reading/table/layout.h"
#include "reading/table/table.h"

#include <string.h>

struct text_table
{
    struct table *table;
    struct input *input;
    struct arena *scratch;
    size_t most; /* rows to read at most */
};

static bool take_record(void *context, const struct csv_row *row)
{
    struct text_table *text = context;
    struct table_row taken = {.line = row->line,
                              .lines = row->lines,
                              .count = row->count,
                              .cells = row->cells,
                              .lengths = row->lengths,
                              .open_quote = row->open_quote,
                              .too_long = row->too_long};
    taken.record = text->input ? csv_record_text(text->input, text->scratch, row) : NULL;
    table_add(text->table, &taken);
    arena_reset(text->scratch);
    return text->table->rows.count < text->most;
}

bool table_detect(struct reading *reading, struct input *input, char *delimiter, uint32_t *header_line)
{
    static const char delimiters[] = {',', ';', '\t', '|'};
    size_t length, best = 0;
    const char *text = input_head(input, &length);
    for (size_t i = 0; i < sizeof delimiters; i++) {
        struct table_origin origin = {.path = input_name(input), .delimiter = delimiters[i]};
        struct table *table = table_new(reading, &origin);
        struct text_table rows = {.table = table, .scratch = reading->scratch, .most = 27};
        if (memchr(text, delimiters[i], length))
            csv_rows_scan(text, length, delimiters[i], 1, take_record, &rows);
        if (table_find_header(table, SIZE_MAX) && table->heading_count > best) {
            best = table->heading_count;
            *delimiter = delimiters[i];
            *header_line = table->rows.items[table->header].line;
        }
        table_free(table);
    }
    return best > 1;
}

bool table_wanted(struct reading *reading, struct input *input, char delimiter, uint32_t header_line)
{
    size_t length;
    const char *text = input_head(input, &length);
    struct table_origin origin = {.path = input_name(input), .delimiter = delimiter};
    struct table *table = table_new(reading, &origin);
    struct text_table rows = {.table = table, .scratch = reading->scratch, .most = 1};
    csv_rows_scan(text, length, delimiter, header_line, take_record, &rows);
    bool whole = table->rows.count && !table->rows.items[0].open_quote && table->rows.items[0].line == header_line;
    bool wanted = whole && table_map_header(table, 0) &&
                  headings_need_table(table->headings, table->heading_count, &table->map);
    table_free(table);
    return wanted;
}

bool read_table_log(struct reading *reading, struct input *input, uint32_t file, char delimiter, uint32_t header_line)
{
    struct table_origin origin = {.path = input_name(input),
                                  .name = csv_titles(reading->arena, input, header_line),
                                  .sheet = input_is_sheet(input),
                                  .delimiter = delimiter};
    struct table *table = table_new(reading, &origin);
    struct text_table rows = {.table = table, .input = input, .scratch = arena_new(), .most = SIZE_MAX};
    bool readable = csv_rows_read(input, delimiter, header_line, reading->diags, take_record, &rows);
    table->origin.encoding = input_encoding(input);
    bool good = readable && table->rows.count && table_map_header(table, 0) && table_read(table, file);
    if (!readable)
        reading->log->files.items[file].first = reading->log->files.items[file].last = NO_DAY;
    arena_free(rows.scratch);
    table_free(table);
    return good;
}
