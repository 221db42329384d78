/* How a table is laid out: from its header, and if the header is not enough, from its cells. */
#include "reading/table/layout.h"

#include "reading/table/layout_fit.h"
#include "reading/table/layout_say.h"
#include "reading/table/table_rows.h"

#include <string.h>

#define HEADER_ROWS 20 /* the header must be in one of these rows */
#define ROWS_BELOW 6   /* that are checked, to tell a header from a line of text */

/* --- the header ---------------------------------------------------------------------------------------------------- */

static size_t first_of(const struct column_map *map, enum log_field field)
{
    return map->of[field].count ? map->of[field].items[0].index : NO_COLUMN;
}

static bool is_numbered_set(const struct column_heading *heading)
{
    return heading->number && (heading->is_set || heading->field == FIELD_WEIGHT || heading->field == FIELD_REPS);
}

static size_t count_fields(const struct column_map *map, const enum log_field *fields, size_t count)
{
    size_t found = 0;
    for (size_t i = 0; i < count; i++)
        found += map->of[fields[i]].count > 0;
    return found;
}

/* weight, reps, weight, reps: groups that do not need numbers. */
static bool has_pairs(const struct column_map *map)
{
    size_t weights = map->of[FIELD_WEIGHT].count, reps = map->of[FIELD_REPS].count;
    if (weights < 2 || weights != reps)
        return false;
    bool weight_first = map->of[FIELD_WEIGHT].items[0].index < map->of[FIELD_REPS].items[0].index;
    for (size_t i = 0; i < weights; i++) {
        size_t first = weight_first ? map->of[FIELD_WEIGHT].items[i].index : map->of[FIELD_REPS].items[i].index;
        size_t second = weight_first ? map->of[FIELD_REPS].items[i].index : map->of[FIELD_WEIGHT].items[i].index;
        size_t next = i + 1 == weights ? SIZE_MAX
                      : weight_first   ? map->of[FIELD_WEIGHT].items[i + 1].index
                                       : map->of[FIELD_REPS].items[i + 1].index;
        if (second < first || second > next)
            return false;
    }
    return true;
}

bool headings_need_table(const struct column_heading *headings, size_t count, const struct column_map *map)
{
    static const enum log_field needed[] = {FIELD_DATE, FIELD_LIFT, FIELD_WEIGHT, FIELD_REPS};
    if (count_fields(map, needed, 4) < 4 || has_pairs(map))
        return true;
    if (map->of[FIELD_WEEK].count && map->of[FIELD_DATE].items[0].rank == COLUMN_BY_WORDS)
        return true;
    for (size_t i = 0; i < count; i++)
        if (is_numbered_set(&headings[i]))
            return true;
    return false;
}

bool table_map_header(struct table *table, size_t row)
{
    const struct table_row *header = &table->rows.items[row];
    const char **texts = ARENA_ARRAY(table->own, const char *, header->count);
    table->header = row;
    table->heading_count = 0;
    table->headings = ARENA_ARRAY(table->own, struct column_heading, header->count);
    for (size_t i = 0; i < header->count; i++) {
        table->headings[i] = heading_read(table->own, table->reading->gym, header->cells[i], i);
        if (*header->cells[i])
            table->heading_count = i + 1;
        bool mapped = table->headings[i].field != FIELD_COUNT && !table->headings[i].number;
        texts[i] = mapped || table->headings[i].use.effort ? header->cells[i] : "";
    }
    columns_map(table->own, &table->map, texts, header->count, table->reading->gym);
    return table->heading_count;
}

struct header_kind
{
    bool sure;   /* its words alone are enough */
    bool likely; /* a date and something else: the rows below decide */
};

static struct header_kind kind_of_header(const struct table *table)
{
    static const enum log_field needed[] = {FIELD_DATE, FIELD_LIFT, FIELD_WEIGHT, FIELD_REPS};
    const struct column_map *map = &table->map;
    size_t days = 0, others = 0;
    for (size_t i = 0; i < table->heading_count; i++) {
        days += table->headings[i].week || table->headings[i].is_day;
        others += *table->headings[i].text && table->headings[i].field != FIELD_DATE;
    }
    bool date = map->of[FIELD_DATE].count, lift = map->of[FIELD_LIFT].count;
    struct header_kind kind = {.likely = date && others};
    kind.sure = (date && lift) || (lift && days) || (lift && map->of[FIELD_WEEK].count) ||
                count_fields(map, needed, 4) >= 3;
    return kind;
}

/* True if one of the rows below has a date in the date column. */
static bool dates_below(const struct table *table)
{
    size_t column = first_of(&table->map, FIELD_DATE);
    for (size_t row = table->header + 1; row < table->rows.count && row <= table->header + ROWS_BELOW; row++) {
        const char *text = table_cell(table, row, column);
        if (*text && (day_read(text).kind != DAY_UNREADABLE || heading_is_yearless(text)))
            return true;
    }
    return false;
}

bool table_find_header(struct table *table, size_t among)
{
    size_t likely = NO_COLUMN, rows = among < HEADER_ROWS ? among : HEADER_ROWS;
    for (size_t row = 0; row < table->rows.count && row < rows; row++) {
        table_map_header(table, row);
        struct header_kind kind = kind_of_header(table);
        if (kind.sure)
            return true;
        if (likely == NO_COLUMN && kind.likely && dates_below(table))
            likely = row;
    }
    if (likely != NO_COLUMN)
        table_map_header(table, likely);
    else
        table->header = NO_COLUMN;
    return likely != NO_COLUMN;
}

/* --- the layouts --------------------------------------------------------------------------------------------------- */

static struct layout_group *group_of(struct table *table, struct layout *layout, unsigned number)
{
    for (size_t i = 0; i < layout->groups.count; i++)
        if (layout->groups.items[i].number == number)
            return &layout->groups.items[i];
    struct layout_group *group = LIST_ADD(table->own, &layout->groups);
    group->number = number;
    for (int field = 0; field < FIELD_COUNT; field++)
        group->of[field] = NO_COLUMN;
    return group;
}

static void sort_groups(struct layout *layout)
{
    struct layout_group *groups = layout->groups.items;
    for (size_t i = 1; i < layout->groups.count; i++)
        for (size_t k = i; k && groups[k].number < groups[k - 1].number; k--) {
            struct layout_group swapped = groups[k];
            groups[k] = groups[k - 1];
            groups[k - 1] = swapped;
        }
}

/* kg, reps, kg.1, reps.1: the first group has no number, so its columns must not apply to other groups. */
static void add_unnumbered(struct table *table, struct layout *layout)
{
    size_t weight = first_of(&table->map, FIELD_WEIGHT), reps = first_of(&table->map, FIELD_REPS);
    bool numbered_weight = false, numbered_reps = false;
    for (size_t i = 0; i < layout->groups.count; i++) {
        numbered_weight |= layout->groups.items[i].of[FIELD_WEIGHT] != NO_COLUMN;
        numbered_reps |= layout->groups.items[i].of[FIELD_REPS] != NO_COLUMN;
    }
    if (weight == NO_COLUMN || reps == NO_COLUMN || !numbered_weight || !numbered_reps)
        return;
    struct layout_group *group = group_of(table, layout, 0);
    group->of[FIELD_WEIGHT] = weight;
    group->of[FIELD_REPS] = reps;
}

static void add_pairs(struct table *table, struct layout *layout)
{
    for (unsigned i = 0; i < table->map.of[FIELD_WEIGHT].count; i++) {
        struct layout_group *group = group_of(table, layout, i + 1);
        group->of[FIELD_WEIGHT] = table->map.of[FIELD_WEIGHT].items[i].index;
        group->of[FIELD_REPS] = table->map.of[FIELD_REPS].items[i].index;
    }
}

/* True if each group has repetitions, and the group or the row has a weight. */
static bool groups_are_whole(const struct table *table, const struct layout *layout)
{
    bool weight = table->map.of[FIELD_WEIGHT].count, reps = table->map.of[FIELD_REPS].count;
    size_t whole = 0;
    for (size_t i = 0; i < layout->groups.count; i++) {
        const size_t *of = layout->groups.items[i].of;
        bool own_weight = of[FIELD_WEIGHT] != NO_COLUMN, own_reps = of[FIELD_REPS] != NO_COLUMN;
        whole += (own_weight || own_reps) && (own_weight || weight) && (own_reps || reps);
    }
    return whole;
}

static bool try_groups(struct table *table, struct layout *layout)
{
    for (size_t i = 0; i < table->heading_count; i++)
        if (table->headings[i].number && table->headings[i].field != FIELD_COUNT)
            group_of(table, layout, table->headings[i].number)->of[table->headings[i].field] = i;
    if (groups_are_whole(table, layout)) {
        add_unnumbered(table, layout);
    } else {
        layout->groups.count = 0;
        if (has_pairs(&table->map))
            add_pairs(table, layout);
    }
    sort_groups(layout);
    return table->map.of[FIELD_LIFT].count && layout->groups.count;
}

static void add_column(struct table *table, struct layout *layout, size_t column)
{
    *LIST_ROOM(table->own, &layout->columns) = column;
}

static void add_numbered_sets(struct table *table, struct layout *layout)
{
    for (unsigned number = 1; number <= HEADING_MOST_SETS; number++)
        for (size_t i = 0; i < table->heading_count; i++)
            if (table->headings[i].is_set && table->headings[i].number == number)
                add_column(table, layout, i);
}

/* Adds columns with unknown headers that hold sets. */
static void add_columns_of_items(struct table *table, struct layout *layout)
{
    for (size_t i = 0; i < table->heading_count; i++) {
        const struct column_heading *heading = &table->headings[i];
        bool open = heading->field == FIELD_COUNT || (heading->field == FIELD_SETS && !heading->number) ||
                    (heading->field == FIELD_SET_INDEX && !heading->number) ||
                    (heading->field == FIELD_WEIGHT && !table->map.of[FIELD_REPS].count); /* Load: 100 kg x 5 */
        if (!open || heading->use.planned || heading->week || heading->is_day || heading->is_set || !*heading->text)
            continue;
        struct layout_fit fit = column_items(table, i);
        if (fit_is_good(&fit))
            add_column(table, layout, i);
    }
}

static bool try_set_cells(struct table *table, struct layout *layout)
{
    if (!table->map.of[FIELD_LIFT].count)
        return false;
    add_numbered_sets(table, layout);
    if (!layout->columns.count)
        add_columns_of_items(table, layout);
    return layout->columns.count;
}

static bool try_reps_across(struct table *table, struct layout *layout)
{
    add_numbered_sets(table, layout);
    return table->map.of[FIELD_LIFT].count && table->map.of[FIELD_WEIGHT].count && layout->columns.count;
}

static bool try_lifts_across(struct table *table, struct layout *layout)
{
    if (table->map.of[FIELD_LIFT].count)
        return false;
    for (size_t i = 0; i < table->heading_count; i++) {
        const struct column_heading *heading = &table->headings[i];
        bool open = heading->field == FIELD_COUNT && !heading->use.planned && !heading->week && !heading->is_day &&
                    *heading->text;
        if (!open)
            continue;
        struct layout_fit fit = column_items(table, i);
        if (heading->lift ? fit.cells > 0 : fit_is_good(&fit))
            add_column(table, layout, i);
    }
    return layout->columns.count;
}

static bool try_dates_across(struct table *table, struct layout *layout)
{
    for (size_t i = 0; i < table->heading_count; i++)
        if (table->headings[i].is_day || table->headings[i].week)
            add_column(table, layout, i);
    return table->map.of[FIELD_LIFT].count && layout->columns.count;
}

/* The column whose cells fit best; notes only if there is nothing else. */
static bool try_sessions(struct table *table, struct layout *layout)
{
    struct layout_fit best = {0};
    size_t column = NO_COLUMN;
    if (table->map.of[FIELD_LIFT].count)
        return false;
    for (int pass = 0; pass < 2 && !fit_is_good(&best); pass++)
        for (size_t i = 0; i < table->heading_count; i++) {
            const struct column_heading *heading = &table->headings[i];
            bool open = pass ? heading->field == FIELD_NOTE
                             : (heading->field == FIELD_COUNT || heading->field == FIELD_WORKOUT) && *heading->text;
            if (!open || heading->use.planned || heading->week || heading->is_day)
                continue;
            struct layout_fit fit = column_sessions(table, i);
            if (fit.good > best.good) {
                best = fit;
                column = i;
            }
        }
    if (column != NO_COLUMN)
        add_column(table, layout, column);
    return column != NO_COLUMN;
}

static bool try_rows(struct table *table, struct layout *layout)
{
    (void)layout;
    for (size_t i = 0; i < table->heading_count; i++)
        if (table->headings[i].number &&
            (table->headings[i].field == FIELD_WEIGHT || table->headings[i].field == FIELD_REPS))
            return false;
    return table->map.of[FIELD_LIFT].count && table->map.of[FIELD_WEIGHT].count && table->map.of[FIELD_REPS].count &&
           !has_pairs(&table->map);
}

/* --- choosing a layout -------------------------------------------------------------------------------------------- */

static bool has_rows(const struct table *table)
{
    for (size_t row = table->header + 1; row < table->rows.count; row++)
        if (!table_row_is_blank(table, row))
            return true;
    return false;
}

/* True if any of its columns has a cell that is not empty. */
static bool any_cells(const struct table *table, const struct layout *layout)
{
    return layout->kind == LAYOUT_ROWS || layout_fit(table, layout).cells || !has_rows(table);
}

struct candidates
{
    struct layout items[LAYOUT_COUNT];
    size_t count, good;
};

static void try_all(struct table *table, struct candidates *candidates)
{
    static bool (*const tries[LAYOUT_COUNT])(struct table *, struct layout *) = {
        [LAYOUT_ROWS] = try_rows,
        [LAYOUT_GROUPS] = try_groups,
        [LAYOUT_SET_CELLS] = try_set_cells,
        [LAYOUT_REPS_ACROSS] = try_reps_across,
        [LAYOUT_LIFTS_ACROSS] = try_lifts_across,
        [LAYOUT_DATES_ACROSS] = try_dates_across,
        [LAYOUT_SESSIONS] = try_sessions,
    };
    bool dated = table->dates != DATES_MISSING;
    candidates->count = candidates->good = 0;
    for (int kind = 0; kind < LAYOUT_COUNT; kind++) {
        struct layout layout = {.kind = (enum layout_kind)kind};
        bool needs_date = kind != LAYOUT_DATES_ACROSS;
        if ((needs_date && !dated) || (!needs_date && table->dates == DATES_IN_COLUMN) ||
            !tries[kind](table, &layout) || !any_cells(table, &layout))
            continue;
        layout.fit = layout_fit(table, &layout);
        bool good = kind == LAYOUT_ROWS || fit_is_good(&layout.fit);
        candidates->items[candidates->count++] = layout;
        if (good) { /* good ones come first */
            struct layout moved = candidates->items[candidates->good];
            candidates->items[candidates->good++] = layout;
            if (candidates->good < candidates->count)
                candidates->items[candidates->count - 1] = moved;
        }
    }
}

/* If the header allows only one layout, a single cell is enough: it cannot be confused with another. */
static bool only_one_is_possible(const struct candidates *candidates)
{
    const struct layout_fit *fit = &candidates->items[0].fit;
    return candidates->count == 1 && !candidates->good && fit->good == fit->all && fit->good;
}

static bool asks_for_start(const struct table *table)
{
    if (table->reading->options.start_said || table->reading->gym->start_said)
        return false;
    bool weeks = table->dates == DATES_OF_WEEKS;
    for (size_t i = 0; table->dates == DATES_IN_HEADER && i < table->layout.columns.count; i++)
        weeks |= table->headings[table->layout.columns.items[i]].week > 0;
    return weeks && has_rows(table);
}

static bool fails_by_columns(const struct table *table, const struct candidates *candidates)
{
    return !candidates->count || table->dates == DATES_MISSING;
}

bool table_judge(struct table *table)
{
    struct candidates candidates;
    table_find_numbers(table);
    table->dates = table_find_dates(table);
    try_all(table, &candidates);
    if (candidates.good > 1)
        return layout_say_two(table, &candidates.items[0], &candidates.items[1]);
    if (!candidates.good && !only_one_is_possible(&candidates) && (has_rows(table) || !candidates.count))
        return layout_say_none(table, candidates.items, fails_by_columns(table, &candidates) ? 0 : candidates.count);
    table->layout = candidates.items[0];
    if (table->layout.kind == LAYOUT_DATES_ACROSS)
        table->dates = DATES_IN_HEADER;
    return !asks_for_start(table) || layout_say_no_start(table);
}
