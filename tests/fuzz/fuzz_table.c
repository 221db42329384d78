/* A table of any layout, whatever its bytes: judged, read, weighed, audited; each of its cells is counted once. */
#include "fuzz/target.h"

#include "reading/csv/csv_say.h"
#include "reading/same_history.h"
#include "reading/table/table.h"

const char target_name[] = "table";

struct given
{
    struct table *table;
    size_t *cells, rows; /* that are not empty, by row */
    size_t header;       /* its row, as the table finds it */
    struct arena *arena;
};

static bool give_row(void *context, const struct csv_row *row)
{
    struct given *given = context;
    const struct table_row taken = {.line = row->line,
                                    .lines = row->lines,
                                    .count = row->count,
                                    .cells = row->cells,
                                    .lengths = row->lengths,
                                    .record = "a record",
                                    .open_quote = row->open_quote};
    given->cells = arena_grow(given->arena, given->cells, given->rows * sizeof(size_t),
                              (given->rows + 1) * sizeof(size_t));
    given->cells[given->rows] = 0;
    for (size_t i = 0; i < row->count; i++)
        given->cells[given->rows] += *csv_skip_blanks(row->cells[i]) != 0;
    given->rows++;
    table_add(given->table, &taken);
    return true;
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length)
{
    static const char delimiters[] = ",;\t|";
    struct reading *reading = target_reading(target_gym());
    struct arena *arena = arena_new();
    bool sheet = length && bytes[0] & 4;
    struct table_origin origin = {
        .path = "table", .name = "2026", .delimiter = length ? delimiters[bytes[0] & 3] : ',', .sheet = sheet};
    struct given given = {.table = table_new(reading, &origin), .arena = arena};
    reading->options.start_said = length && bytes[0] & 8;
    reading->options.start = 20454; /* 2026-01-01 was a Thursday: any day serves here */
    if (length)
        csv_rows_scan((const char *)bytes + 1, length - 1, origin.delimiter, 1, give_row, &given);
    if (table_is_log(given.table)) {
        *LIST_ADD(reading->log->arena,
                  &reading->log->files) = (struct log_file){.path = "table", .first = NO_DAY, .last = NO_DAY};
        bool read = table_read(given.table, 0);
        struct table_cells cells = table_cells(given.table);
        size_t counted = cells.read + cells.aside + cells.ignored + cells.refused, below = 0;
        for (size_t i = table_header_row(given.table) + 1; i < given.rows; i++)
            below += given.cells[i];
        MUST(!counted || counted == below);
        MUST(!read || counted || !below);
        reading_finish(reading);
        target_analyse(reading);
    }
    reading->options.start_said = false;
    target_print(reading->diags);
    table_free(given.table);
    arena_free(arena);
    return 0;
}
