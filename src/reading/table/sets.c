/* Turns a row of a table into rows of one set each. */
#include "reading/table/sets.h"

#include "base/text.h"
#include "reading/csv/csv_down.h"
#include "reading/csv/csv_say.h"
#include "reading/load/note_reader.h"
#include "reading/table/row_dates.h"
#include "reading/table/set_cells.h"
#include "reading/table/table_rows.h"

#include <string.h>

static const struct text_span whole_cell = {SIZE_MAX, 0};

/* --- rows of each layout ------------------------------------------------------------------------------------------- */

bool table_uses_field(const struct table *table, enum log_field field)
{
    enum layout_kind kind = table->layout.kind;
    bool rows = kind == LAYOUT_ROWS, groups = kind == LAYOUT_GROUPS;
    bool has_lift = kind != LAYOUT_LIFTS_ACROSS && kind != LAYOUT_SESSIONS;
    switch (field) {
    case FIELD_DATE:
        return table->dates == DATES_IN_COLUMN;
    case FIELD_LIFT:
        return has_lift;
    case FIELD_WEIGHT:
        return rows || groups || kind == LAYOUT_REPS_ACROSS;
    case FIELD_REPS:
        return rows || groups;
    case FIELD_SETS:
    case FIELD_SET_INDEX:
    case FIELD_DURATION:
    case FIELD_DISTANCE:
        return rows;
    case FIELD_SIDE:
    case FIELD_SUPERSET:
    case FIELD_WEEK:
    case FIELD_WEEKDAY:
        return false;
    default:
        return true;
    }
}

/* Fields of the whole row that belong to none of the several lifts or days in it. */
static bool is_of_one(enum log_field field)
{
    return field == FIELD_NOTE || field == FIELD_CHAIN || field == FIELD_BAND || field == FIELD_AR ||
           field == FIELD_RPE || field == FIELD_RIR || field == FIELD_VELOCITY || field == FIELD_KIND;
}

static size_t sets_in_row(const struct maker *maker)
{
    const struct layout *layout = &maker->table->layout;
    size_t count = 0;
    for (size_t i = 0; i < layout->columns.count; i++)
        count += *table_cell(maker->table, maker->row_number, layout->columns.items[i]) != 0;
    return count;
}

/* A note next to several lifts: `check` lists those that name gear, and the rest are counted. */
static void leave_out(struct maker *maker, enum log_field field)
{
    const struct table *table = maker->table;
    for (size_t i = 0; i < table->map.of[field].count; i++) {
        size_t column = table->map.of[field].items[i].index;
        const char *text = table_cell(table, maker->row_number, column);
        struct load_fault fault;
        struct load_style style = {maker->log->unit, table->decimal};
        if (!*text)
            continue;
        maker->fates[column] = FATE_ASIDE;
        const struct note_ar *ar = note_read(table->reading->loads, text, style, &fault);
        bool gear = field == FIELD_CHAIN || field == FIELD_BAND || field == FIELD_AR || !ar || ar->ar || ar->unread;
        if (!gear) {
            tally_add(&maker->notes_of_several, 1, maker->row->line);
            continue;
        }
        maker->origins[FIELD_COUNT] = (struct csv_origin){.cell = column};
        maker->log->source = &maker->source;
        csv_say(maker->log, DIAG_UNREAD_CLAUSE, FIELD_COUNT, "write what belongs to a lift into its own cell",
                "'%s' is in a row of several lifts or days and was assigned to none of them",
                text_cut(maker->scratch, text, 60));
    }
}

static void take_row_fields(struct maker *maker)
{
    enum layout_kind kind = maker->table->layout.kind;
    bool across = kind == LAYOUT_LIFTS_ACROSS || kind == LAYOUT_DATES_ACROSS || kind == LAYOUT_SESSIONS;
    bool several = across && (kind == LAYOUT_SESSIONS || sets_in_row(maker) > 1);
    for (int field = 0; field < FIELD_COUNT; field++) {
        if (field == FIELD_DATE)
            continue;
        maker_clear(maker, (enum log_field)field);
        bool taken = table_uses_field(maker->table, (enum log_field)field);
        bool is_column = kind == LAYOUT_SESSIONS && maker->table->map.of[field].count &&
                         maker->table->map.of[field].items[0].index == maker->table->layout.columns.items[0];
        if (taken && !is_column && several && is_of_one((enum log_field)field))
            leave_out(maker, (enum log_field)field);
        else if (taken && !is_column)
            maker_take_field(maker, (enum log_field)field);
    }
}

static void read_groups(struct maker *maker)
{
    const struct layout *layout = &maker->table->layout;
    const char *row_cells[FIELD_COUNT];
    struct csv_origin row_origins[FIELD_COUNT];
    memcpy(row_cells, maker->cells, sizeof row_cells);
    memcpy(row_origins, maker->origins, sizeof row_origins);
    for (size_t i = 0; i < layout->groups.count && maker_goes_on(maker); i++) {
        const size_t *of = layout->groups.items[i].of;
        size_t first = NO_COLUMN;
        for (int field = 0; field < FIELD_COUNT; field++) {
            maker->cells[field] = row_cells[field];
            maker->lengths[field] = strlen(row_cells[field]);
            maker->origins[field] = row_origins[field];
            if (of[field] == NO_COLUMN)
                continue;
            bool empty = !*table_cell(maker->table, maker->row_number, of[field]);
            if (!empty || !*maker->cells[field] || field == FIELD_REPS)
                maker_take(maker, (enum log_field)field, of[field]);
            if (!empty && first == NO_COLUMN)
                first = of[field];
        }
        if (first == NO_COLUMN)
            continue;
        maker_emit(maker, NO_COLUMN);
        enum fate fate = maker->last;
        for (int field = 0; field < FIELD_COUNT; field++)
            if (of[field] != NO_COLUMN && *table_cell(maker->table, maker->row_number, of[field]))
                maker->fates[of[field]] = fate_worse(maker->fates[of[field]], fate);
    }
}

static void read_reps_across(struct maker *maker)
{
    const struct layout *layout = &maker->table->layout;
    for (size_t i = 0; i < layout->columns.count && maker_goes_on(maker); i++) {
        size_t column = layout->columns.items[i];
        if (!*table_cell(maker->table, maker->row_number, column))
            continue;
        maker_take(maker, FIELD_REPS, column);
        maker_emit(maker, column);
    }
}

/* The lift or the date that a column's header gives. */
static void take_header(struct maker *maker, size_t column)
{
    const struct table *table = maker->table;
    const struct column_heading *heading = &table->headings[column];
    if (table->layout.kind == LAYOUT_LIFTS_ACROSS)
        maker_put(maker, FIELD_LIFT, heading->lift ? heading->lift : heading->text, column, whole_cell);
    if (heading->ar)
        maker_put(maker, FIELD_AR, heading->ar, column, whole_cell);
    else if (!table->map.of[FIELD_AR].count)
        maker_clear(maker, FIELD_AR);
    if (table->layout.kind != LAYOUT_DATES_ACROSS)
        return;
    maker->source.year_taken = table->header_years_taken;
    if (heading->week)
        maker_put(maker, FIELD_DATE,
                  row_day_text(maker, table_first_monday(table) + 7 * ((day_number)heading->week - 1)), column,
                  whole_cell);
    else
        maker_put(maker, FIELD_DATE, table->header_days[column] ? table->header_days[column] : heading->text, column,
                  whole_cell);
}

static void read_columns(struct maker *maker)
{
    const struct layout *layout = &maker->table->layout;
    for (size_t i = 0; i < layout->columns.count && maker_goes_on(maker); i++) {
        size_t column = layout->columns.items[i];
        if (!*table_cell(maker->table, maker->row_number, column))
            continue;
        take_header(maker, column);
        if (layout->kind == LAYOUT_SESSIONS)
            session_cell_read(maker, column);
        else
            set_cell_read(maker, column);
    }
}

/* --- rows ---------------------------------------------------------------------------------------------------------- */

/* Counts each cell that is not empty exactly once. */
static void count_cells(struct maker *maker, bool all_refused)
{
    struct table_cells *cells = &maker->table->cells;
    for (size_t i = 0; i < maker->row->count; i++) {
        if (!*csv_skip_blanks(maker->row->cells[i]))
            continue;
        enum fate fate = all_refused || i >= maker->table->heading_count ? FATE_REFUSED : maker->fates[i];
        ++*(fate == FATE_READ      ? &cells->read
            : fate == FATE_ASIDE   ? &cells->aside
            : fate == FATE_REFUSED ? &cells->refused
                                   : &cells->ignored);
    }
}

static bool refuse_long_line(struct maker *maker)
{
    maker->source.record = NULL;
    maker->log->source = &maker->source;
    csv_refuse(maker->log, DIAG_LONG_LINE, CSV_WHOLE_ROW, NULL,
               "a line of more than 1 MiB cannot be a set: it is left out");
    maker->goes_on = csv_count_refused(maker->log, maker->row->line) && maker->goes_on;
    return false;
}

/* The same as for a record of an export. */
static bool check_shape(struct maker *maker)
{
    const struct table_row *row = maker->row;
    if (row->too_long)
        return refuse_long_line(maker);
    for (size_t i = 0; i < row->count; i++) {
        if (row->lengths && row->lengths[i] > strlen(row->cells[i])) {
            maker_refuse(maker, i, whole_cell, DIAG_NUL_BYTE, NULL, "a NUL byte within the cell");
            return false;
        }
        if (i >= maker->table->heading_count && *csv_skip_blanks(row->cells[i])) {
            maker_refuse(maker, i, whole_cell, DIAG_EXTRA_CELLS, NULL,
                         arena_printf(maker->scratch, "a cell beyond the header's %zu columns: '%s'",
                                      maker->table->heading_count, text_cut(maker->scratch, row->cells[i], 60)));
            return false;
        }
    }
    if (!row->open_quote)
        return true;
    maker_refuse(maker, row->count, whole_cell, DIAG_OPEN_QUOTE, NULL,
                 "a quote that opens here never closes: the rest of the file would be one cell");
    return false;
}

static void clear_all(struct maker *maker)
{
    for (int field = 0; field < FIELD_COUNT; field++)
        maker_clear(maker, (enum log_field)field);
}

static void pass_date_row(struct maker *maker, size_t column)
{
    clear_all(maker);
    maker_take(maker, FIELD_DATE, column);
    maker_emit(maker, column);
    maker->lift = NULL;
}

static void read_sets_of_row(struct maker *maker)
{
    switch (maker->table->layout.kind) {
    case LAYOUT_ROWS:
        maker_emit(maker, NO_COLUMN);
        break;
    case LAYOUT_GROUPS:
        read_groups(maker);
        break;
    case LAYOUT_REPS_ACROSS:
        read_reps_across(maker);
        break;
    default:
        read_columns(maker);
    }
}

static void remember_lift(struct maker *maker)
{
    if (*maker->cells[FIELD_LIFT])
        maker->lift = arena_copy(maker->table->own, maker->cells[FIELD_LIFT]);
}

/* A row without sets may still give a date or a lift for those below it. */
static void keep_above(struct maker *maker, const char *date, struct csv_origin origin, const char *lift)
{
    if (*date) {
        clear_all(maker);
        maker->cells[FIELD_DATE] = date;
        maker->lengths[FIELD_DATE] = strlen(date);
        maker->origins[FIELD_DATE] = origin;
        maker_emit(maker, NO_COLUMN);
    }
    if (*lift)
        csv_name_lift(maker->log, lift);
}

/* False: its cells are refused. */
static bool read_row(struct maker *maker)
{
    size_t date_row = maker->table->dates == DATES_IN_COLUMN || maker->table->dates == DATES_IN_ROWS
                          ? table_date_row(maker->table, maker->row_number)
                          : NO_COLUMN;
    if (!check_shape(maker))
        return false;
    if (date_row != NO_COLUMN) {
        pass_date_row(maker, date_row);
        return true;
    }
    if (!row_take_date(maker))
        return false;
    take_row_fields(maker);
    remember_lift(maker);
    const char *date = maker->cells[FIELD_DATE], *lift = maker->cells[FIELD_LIFT];
    struct csv_origin origin = maker->origins[FIELD_DATE];
    read_sets_of_row(maker);
    if (!maker->made)
        keep_above(maker, date, origin, lift);
    return maker->any_read || !maker->made;
}

static void begin_row(struct maker *maker, size_t number)
{
    const struct table_row *row = &maker->table->rows.items[number];
    arena_reset(maker->scratch);
    maker->row = row;
    maker->row_number = number;
    maker->any_read = maker->row_is_lost = false;
    maker->made = 0;
    maker->fates = ARENA_ARRAY(maker->scratch, enum fate, maker->table->heading_count + 1);
    maker->source = (struct csv_source){.record = row->record,
                                        .line = row->line,
                                        .lines = row->lines,
                                        .count = row->count,
                                        .cells = row->cells,
                                        .origins = maker->origins,
                                        .sheet = maker->table->origin.sheet};
}

/* The map of made rows: each field has a column of its own, if the table has something for it. */
static void map_made_rows(struct maker *maker)
{
    const struct table *table = maker->table;
    const struct layout *layout = &table->layout;
    struct column_map *map = &maker->log->map;
    map->header_cells = FIELD_COUNT;
    for (int field = 0; field < FIELD_COUNT; field++) {
        bool in_cells = layout->kind != LAYOUT_ROWS && layout->kind != LAYOUT_GROUPS &&
                        (field == FIELD_RPE || field == FIELD_RIR || field == FIELD_VELOCITY || field == FIELD_NOTE ||
                         field == FIELD_KIND);
        bool there = table->map.of[field].count && table_uses_field(table, (enum log_field)field);
        for (size_t i = 0; i < layout->columns.count; i++)
            there |= field == FIELD_AR && table->headings[layout->columns.items[i]].ar;
        for (size_t i = 0; i < layout->groups.count; i++)
            there |= layout->groups.items[i].of[field] != NO_COLUMN;
        if (there || in_cells || field == FIELD_DATE || field == FIELD_LIFT || field == FIELD_WEIGHT ||
            field == FIELD_REPS)
            *LIST_ADD(maker->log->own, &map->of[field]) = (struct column_use){.index = (size_t)field};
    }
    size_t weight = table->map.of[FIELD_WEIGHT].count ? table->map.of[FIELD_WEIGHT].items[0].index : NO_COLUMN;
    for (size_t i = 0; i < layout->groups.count && weight == NO_COLUMN; i++)
        weight = layout->groups.items[i].of[FIELD_WEIGHT];
    for (size_t i = 0; i < layout->columns.count && weight == NO_COLUMN; i++)
        if (table->headings[layout->columns.items[i]].use.unit_said)
            weight = layout->columns.items[i];
    if (weight != NO_COLUMN)
        maker_take_unit(maker, FIELD_WEIGHT, &table->headings[weight].use);
}

static void say_notes_of_several(const struct maker *maker)
{
    const struct tally *notes = &maker->notes_of_several;
    struct place at = {.file = maker->table->origin.path, .line = notes->line, .sheet = maker->table->origin.sheet};
    if (notes->count)
        diag_add(maker->table->reading->diags, DIAG_NOTE_OF_SEVERAL, at, NULL, NULL,
                 "%u %s in rows of several lifts or days and assigned to none of them", notes->count,
                 notes->count == 1 ? "note is" : "notes are");
}

void table_read_sets(struct table *table, struct csv_log *log)
{
    struct maker maker = {.table = table, .log = log, .scratch = arena_new(), .goes_on = true};
    const struct table_row *header = &table->rows.items[table->header];
    map_made_rows(&maker);
    csv_log_ready(log);
    set_cells_begin(&maker);
    clear_all(&maker);
    log->last_line = header->line + header->lines - 1;
    for (size_t row = table->header + 1; row < table->rows.count && maker.goes_on; row++) {
        begin_row(&maker, row);
        if (table_row_is_blank(table, row)) {
            csv_pass_blank(log);
            maker.lift = NULL;
        } else {
            bool refused = !read_row(&maker);
            count_cells(&maker, refused);
        }
        log->last_line = maker.row->line + maker.row->lines - 1;
    }
    set_cells_end(&maker);
    say_notes_of_several(&maker);
    log->source = NULL;
    arena_free(maker.scratch);
}
