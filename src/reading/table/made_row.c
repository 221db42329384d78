#include "reading/table/made_row.h"

#include "base/text.h"
#include "reading/csv/csv_say.h"
#include "reading/table/table_rows.h"

#include <string.h>

static const struct text_span whole_cell = {SIZE_MAX, 0};

void maker_put(struct maker *maker, enum log_field field, const char *text, size_t column, struct text_span span)
{
    maker->cells[field] = text;
    maker->lengths[field] = strlen(text);
    struct csv_origin *origin = &maker->origins[field];
    *origin = (struct csv_origin){.cell = column};
    if (span.at == SIZE_MAX)
        return;
    const char *cell = column < maker->row->count ? maker->row->cells[column] : "";
    origin->at = (uint32_t)text_characters(cell, span.at);
    origin->length = (uint32_t)text_characters(cell + span.at, span.length);
}

void maker_clear(struct maker *maker, enum log_field field)
{
    maker->cells[field] = "";
    maker->lengths[field] = 0;
}

void maker_take_unit(struct maker *maker, enum log_field field, const struct column_use *use)
{
    if (!maker->log->map.of[field].count)
        return;
    struct column_use *made = &maker->log->map.of[field].items[0];
    made->unit_said = use->unit_said;
    made->unit = use->unit;
    made->per_side = use->per_side;
    made->plural = use->plural;
    made->warm_up = use->warm_up;
}

void maker_take(struct maker *maker, enum log_field field, size_t column)
{
    const char *text = table_cell(maker->table, maker->row_number, column);
    maker_put(maker, field, text, column, whole_cell);
    maker_take_unit(maker, field, &maker->table->headings[column].use);
    if (*text && maker->fates[column] == FATE_NONE)
        maker->fates[column] = FATE_READ;
}

/* The field's first column that is not empty. */
void maker_take_field(struct maker *maker, enum log_field field)
{
    const struct column_map *map = &maker->table->map;
    maker_clear(maker, field);
    for (size_t i = 0; i < map->of[field].count; i++) {
        size_t column = map->of[field].items[i].index;
        if (*table_cell(maker->table, maker->row_number, column) || !i)
            maker_take(maker, field, column);
        if (*maker->cells[field])
            return;
    }
}

bool maker_goes_on(const struct maker *maker)
{
    return maker->goes_on && !maker->row_is_lost;
}

enum fate fate_worse(enum fate a, enum fate b)
{
    return a > b ? a : b;
}

void maker_emit(struct maker *maker, size_t column)
{
    struct csv_row made = {.line = maker->row->line,
                           .lines = maker->row->lines,
                           .count = FIELD_COUNT,
                           .cells = maker->cells,
                           .lengths = maker->lengths};
    const struct log_file *file = csv_file(maker->log);
    uint32_t refused = file->refused, aside = file->aside;
    maker->log->source = &maker->source;
    maker->goes_on = csv_see_row(maker->log, &made) && maker->goes_on;
    file = csv_file(maker->log);
    enum fate fate = file->refused > refused ? FATE_REFUSED : file->aside > aside ? FATE_ASIDE : FATE_READ;
    maker->last = fate;
    maker->made++;
    maker->any_read |= fate != FATE_REFUSED;
    bool no_lift = !*maker->cells[FIELD_LIFT] && !maker->log->above.lift;
    maker->row_is_lost |= fate == FATE_REFUSED && maker->table->dates != DATES_IN_HEADER &&
                          (!maker->log->above.date || no_lift);
    if (column != NO_COLUMN)
        maker->fates[column] = fate_worse(maker->fates[column], fate);
}

void maker_refuse(struct maker *maker, size_t column, struct text_span span, enum diag_id id, const char *hint,
                  const char *message)
{
    const char *cell = column < maker->row->count ? maker->row->cells[column] : "";
    struct csv_origin *origin = &maker->origins[FIELD_COUNT];
    *origin = (struct csv_origin){.cell = column};
    if (span.at != SIZE_MAX && span.length) {
        origin->at = (uint32_t)text_characters(cell, span.at);
        origin->length = (uint32_t)text_characters(cell + span.at, span.length);
    }
    maker->log->source = &maker->source;
    csv_refuse(maker->log, id, FIELD_COUNT, hint, "%s", message);
    maker->goes_on = csv_count_refused(maker->log, maker->row->line) && maker->goes_on;
    if (column < maker->table->heading_count)
        maker->fates[column] = FATE_REFUSED;
}
