#include "reading/csv/csv_unread.h"

#include "base/text.h"
#include "reading/csv/csv_say.h"

#include <string.h>

void say_unread_column(struct reading *reading, struct place at, const char *excerpt, const char *header,
                       uint32_t cells)
{
    const char quote = strchr(header, '\'') ? '"' : '\'', *field = log_field_name(column_gear(header).field);
    if (!cells)
        return;
    diag_add(reading->diags, DIAG_UNREAD_COLUMN, at, excerpt,
             arena_printf(reading->scratch,
                          "if its cells are loads in all, pass --column %s=%c%s%c; where they are of one side, head it "
                          "'%s per side'",
                          field, quote, header, quote, field),
             "column '%s' names chains or bands and was not read: %u %s", header, cells, cells == 1 ? "cell" : "cells");
}

void csv_find_unread(struct csv_log *log)
{
    const struct csv_row *row = log->row;
    for (size_t i = 0; i < log->map.unread.count; i++) {
        size_t column = log->map.unread.items[i];
        const char *header = row->cells[column];
        struct csv_unread *unread = LIST_ADD(log->own, &log->unread);
        unread->header = arena_copy(log->own, header);
        unread->excerpt = arena_copy(log->own, csv_record_text(log->input, log->reading->scratch, row));
        unread->at = (struct place){.file = log->path, .line = row->line, .sheet = input_is_sheet(log->input)};
        unread->at.column = (uint32_t)column + 1;
        if (unread->at.sheet)
            continue;
        unread->at.column = csv_cell_column(log->input, log->reading->scratch, row, column, log->delimiter);
        unread->at.length = (uint32_t)text_characters(header, strcspn(header, "\n"));
    }
}

void csv_count_unread(struct csv_log *log)
{
    for (size_t i = 0; i < log->unread.count; i++) {
        size_t column = log->map.unread.items[i];
        if (column < log->row->count && !csv_is_empty(log->row->cells[column]))
            log->unread.items[i].cells++;
    }
}

void csv_say_unread(struct csv_log *log)
{
    for (size_t i = 0; i < log->unread.count; i++) {
        const struct csv_unread *unread = &log->unread.items[i];
        say_unread_column(log->reading, unread->at, unread->excerpt, unread->header, unread->cells);
    }
}
