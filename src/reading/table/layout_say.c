/* Messages about a table's layout. */
#include "reading/table/layout_say.h"

#include "base/number.h"
#include "base/text.h"
#include "reading/csv/csv_unread.h"
#include "reading/table/sets.h"
#include "reading/table/table_rows.h"

#include <math.h>
#include <string.h>

#define MOST_REPS 30 /* a larger number is more likely a weight */

const char *layout_name(enum layout_kind kind, enum layout_dates dates)
{
    static const char *const names[LAYOUT_COUNT] = {
        [LAYOUT_ROWS] = "one row per set",      [LAYOUT_GROUPS] = "numbered groups",
        [LAYOUT_SET_CELLS] = "set cells",       [LAYOUT_REPS_ACROSS] = "repetitions across",
        [LAYOUT_LIFTS_ACROSS] = "lifts across", [LAYOUT_DATES_ACROSS] = "dates across",
        [LAYOUT_SESSIONS] = "session cells",
    };
    return kind == LAYOUT_ROWS && dates == DATES_OF_WEEKS ? "weeks and days" : names[kind];
}

static uint32_t header_line(const struct table *table)
{
    return table->rows.items[table->header].line;
}

static bool say(struct table *table, enum diag_id id, const char *hint, const char *message)
{
    struct place at = {.file = table->origin.path, .line = header_line(table)};
    diag_add(table->reading->diags, id, at, table->rows.items[table->header].record, hint,
             "%s; nothing in this file was used", message);
    return false;
}

/* "Set 1", "Set 2" and 2 more */
static const char *columns_of(struct arena *scratch, const struct table *table, const struct layout *layout)
{
    size_t columns[3], count = 0, all = 0;
    for (size_t i = 0; i < layout->columns.count; i++, all++)
        if (count < 3)
            columns[count++] = layout->columns.items[i];
    for (size_t i = 0; i < layout->groups.count; i++)
        for (int field = 0; field < FIELD_COUNT; field++) {
            if (layout->groups.items[i].of[field] == NO_COLUMN)
                continue;
            all++;
            if (count < 3)
                columns[count++] = layout->groups.items[i].of[field];
        }
    const char *said = "";
    for (size_t i = 0; i < count; i++)
        said = arena_printf(scratch, "%s%s'%s'", said, i ? ", " : "", table->headings[columns[i]].text);
    return all > count ? arena_printf(scratch, "%s and %zu more", said, all - count) : said;
}

/* ", but 'rest' in 'Notes' on line 4 does not fit it" */
static const char *against(struct arena *scratch, const struct table *table, const struct layout *layout)
{
    if (layout->fit.good == layout->fit.all)
        return "";
    const char *text = table_cell(table, layout->fit.bad_row, layout->fit.bad_column);
    return arena_printf(scratch, ", but '%s' in '%s' on line %u does not fit it", text_cut(scratch, text, 40),
                        table->headings[layout->fit.bad_column].text, table->rows.items[layout->fit.bad_row].line);
}

bool layout_say_two(struct table *table, const struct layout *one, const struct layout *other)
{
    struct arena *scratch = table->reading->scratch;
    const struct layout *layouts[] = {one, other};
    const char *said[2];
    for (int i = 0; i < 2; i++) {
        const char *columns = columns_of(scratch, table, layouts[i]);
        said[i] = arena_printf(scratch, "%s%s%s%s%s", layout_name(layouts[i]->kind, table->dates), *columns ? " (" : "",
                               columns, *columns ? ")" : "", against(scratch, table, layouts[i]));
    }
    return say(table, DIAG_TWO_LAYOUTS, NULL,
               arena_printf(scratch, "this table can be read in two ways, as %s and as %s: both layouts fit its cells",
                            said[0], said[1]));
}

bool layout_say_no_start(struct table *table)
{
    return say(table, DIAG_NO_START, NULL, "its weeks are numbered, and there is no date for the first");
}

/* --- columns that are missing -------------------------------------------------------------------------------------- */

struct numbers /* of the cells of a column */
{
    size_t cells, numbers, whole, days, words;
    double least, most;
};

static bool has_letters(const char *text)
{
    for (; *text; text++)
        if (((*text | 0x20) >= 'a' && (*text | 0x20) <= 'z') || (*text & 0x80))
            return true;
    return false;
}

static struct numbers numbers_in(const struct table *table, size_t column)
{
    struct numbers found = {.least = INFINITY, .most = -INFINITY};
    for (size_t row = table->header + 1; row < table->rows.count; row++) {
        const char *text = table_cell(table, row, column);
        double value;
        if (!*text)
            continue;
        found.cells++;
        found.days += day_read(text).kind != DAY_UNREADABLE || heading_is_yearless(text);
        found.words += has_letters(text) && !strpbrk(text, "0123456789");
        if (!number_whole(text, table->decimal, &value))
            continue;
        found.numbers++;
        found.whole += value == floor(value);
        found.least = fmin(found.least, value);
        found.most = fmax(found.most, value);
    }
    return found;
}

static bool most_of(size_t part, size_t cells)
{
    return cells >= 2 && part * 10 >= cells * 8;
}

static bool looks_right(const struct numbers *found, enum log_field field)
{
    if (field == FIELD_DATE)
        return most_of(found->days, found->cells);
    if (field == FIELD_LIFT)
        return most_of(found->words, found->cells);
    if (field == FIELD_REPS)
        return most_of(found->whole, found->cells) && found->least >= 0 && found->most <= MOST_REPS;
    return most_of(found->numbers, found->cells) && found->most > MOST_REPS;
}

/* "'Tally' holds whole numbers from 1 to 8: repetitions?" */
static const char *question(struct arena *scratch, const struct table *table, size_t column, enum log_field field,
                            const struct numbers *found)
{
    const char *header = table->headings[column].text;
    if (table->headings[column].use.planned)
        return arena_printf(scratch, "'%s' says what was planned: was it done as planned?", header);
    if (field == FIELD_REPS)
        return arena_printf(scratch, "'%s' holds whole numbers from %.9g to %.9g: repetitions?", header, found->least,
                            found->most);
    if (field == FIELD_WEIGHT)
        return arena_printf(scratch, "'%s' holds numbers from %.9g to %.9g: weights?", header, found->least,
                            found->most);
    return arena_printf(scratch, field == FIELD_DATE ? "'%s' holds dates?" : "'%s' holds names: lifts?", header);
}

static bool is_open(const struct column_heading *heading)
{
    return *heading->text && heading->field == FIELD_COUNT && !heading->is_day && !heading->week && !heading->is_set;
}

/* The option that assigns the column to the field. */
static const char *option_for(struct arena *scratch, enum log_field field, const char *header)
{
    bool quotes = strchr(header, '\'');
    return arena_printf(scratch, "--column %s=%c%s%c", log_field_name(field), quotes ? '"' : '\'', header,
                        quotes ? '"' : '\'');
}

static bool say_missing(struct table *table, const char *missing)
{
    static const enum log_field needed[] = {FIELD_DATE, FIELD_LIFT, FIELD_WEIGHT, FIELD_REPS};
    struct arena *scratch = table->reading->scratch;
    const char *questions = "", *hint = NULL;
    for (size_t i = 0; i < sizeof needed / sizeof *needed; i++)
        for (size_t column = 0; column < table->heading_count && !table->map.of[needed[i]].count; column++) {
            const struct numbers found = numbers_in(table, column);
            if (!is_open(&table->headings[column]) || !looks_right(&found, needed[i]))
                continue;
            questions = arena_printf(scratch, "%s; %s", questions, question(scratch, table, column, needed[i], &found));
            const char *option = option_for(scratch, needed[i], table->headings[column].text);
            hint = hint ? arena_printf(scratch, "%s %s", hint, option)
                        : arena_printf(scratch, "if so, pass %s", option);
        }
    if (hint)
        hint = arena_printf(scratch, "%s, or name it in [columns] of the gym file", hint);
    return say(table, DIAG_MISSING_COLUMN, hint,
               arena_printf(scratch, "no header was recognised for:  %s%s", missing, questions));
}

/* --- no layout ----------------------------------------------------------------------------------------------------- */

static bool is_nearer(const struct layout_fit *a, const struct layout_fit *b)
{
    return a->good * (b->all ? b->all : 1) > b->good * (a->all ? a->all : 1);
}

static const char *how_near(struct arena *scratch, const struct table *table, const struct layout *layout)
{
    return arena_printf(scratch, "%s, %zu of %zu (%s)%s", layout_name(layout->kind, table->dates), layout->fit.good,
                        layout->fit.all, columns_of(scratch, table, layout), against(scratch, table, layout));
}

bool layout_say_none(struct table *table, const struct layout *layouts, size_t count)
{
    struct arena *scratch = table->reading->scratch;
    const char *missing = columns_missing(scratch, &table->map);
    const struct layout *first = NULL, *second = NULL;
    for (size_t i = 0; i < count; i++) {
        if (!first || is_nearer(&layouts[i].fit, &first->fit)) {
            second = first;
            first = &layouts[i];
        } else if (!second || is_nearer(&layouts[i].fit, &second->fit)) {
            second = &layouts[i];
        }
    }
    if (!first)
        return say_missing(table, missing ? missing : "sets");
    const char *near = how_near(scratch, table, first);
    if (second)
        near = arena_printf(scratch, "%s; and %s", near, how_near(scratch, table, second));
    return say(
        table, DIAG_NO_LAYOUT, NULL,
        arena_printf(scratch, "no layout fits this table: at least 80 of 100 items must be sets. Nearest: %s", near));
}

/* --- what was taken ------------------------------------------------------------------------------------------------ */

static const char *meaning_in_columns(struct arena *arena, const struct table *table, size_t column)
{
    const struct layout *layout = &table->layout;
    for (size_t i = 0; i < layout->groups.count; i++)
        for (int field = 0; field < FIELD_COUNT; field++)
            if (layout->groups.items[i].of[field] == column)
                return arena_printf(arena, "%s of set %zu",
                                    column_meaning(arena, (enum log_field)field, &table->headings[column].use), i + 1);
    for (size_t i = 0; i < layout->columns.count; i++) {
        if (layout->columns.items[i] != column)
            continue;
        const struct column_heading *heading = &table->headings[column];
        switch (layout->kind) {
        case LAYOUT_REPS_ACROSS:
            return arena_printf(arena, "reps of set %zu", i + 1);
        case LAYOUT_LIFTS_ACROSS:
            return arena_printf(arena, "sets of %s%s%s", heading->lift ? heading->lift : heading->text,
                                heading->ar ? ", " : "", heading->ar ? heading->ar : "");
        case LAYOUT_DATES_ACROSS:
            return arena_printf(arena, "sets of %s",
                                table->header_days && table->header_days[column] ? table->header_days[column]
                                                                                 : heading->text);
        case LAYOUT_SESSIONS:
            return "sessions";
        default:
            return "sets";
        }
    }
    return NULL;
}

static const char *meaning_of(struct arena *arena, const struct table *table, size_t column)
{
    const char *meaning = meaning_in_columns(arena, table, column);
    if (meaning)
        return meaning;
    if (table->dates == DATES_OF_WEEKS && (column == table->week || column == table->weekday))
        return column == table->week ? "week" : "day of the week";
    for (int field = 0; field < FIELD_COUNT; field++)
        for (size_t i = 0; i < table->map.of[field].count; i++)
            if (table->map.of[field].items[i].index == column && table_uses_field(table, (enum log_field)field))
                return column_meaning(arena, (enum log_field)field, &table->map.of[field].items[i]);
    return table->headings[column].use.planned ? "ignored (planned)" : "ignored";
}

void layout_say_unread(const struct table *table)
{
    struct arena *scratch = arena_new();
    const struct table_row *header = &table->rows.items[table->header];
    for (size_t i = 0; i < table->heading_count; i++) {
        const char *text = table->headings[i].text;
        struct place at = {.file = table->origin.path, .line = header->line, .sheet = table->origin.sheet};
        uint32_t cells = 0;
        if (column_gear(text).field == FIELD_COUNT || strcmp(meaning_of(scratch, table, i), "ignored") != 0)
            continue;
        for (size_t row = table->header + 1; row < table->rows.count; row++)
            cells += *table_cell(table, row, i) != 0;
        at.column = at.sheet ? (uint32_t)i + 1 : csv_column_in_line(header->record, i, table->origin.delimiter);
        at.length = at.sheet ? 0 : (uint32_t)text_characters(text, strcspn(text, "\n"));
        say_unread_column(table->reading, at, header->record, text, cells);
    }
    arena_free(scratch);
}

const char *layout_describe(struct table *table)
{
    struct arena *arena = table->reading->log->arena, *scratch = arena_new();
    bool plain = table->layout.kind == LAYOUT_ROWS && table->dates == DATES_IN_COLUMN;
    const char *said = plain ? "" : arena_printf(scratch, "as %s: ", layout_name(table->layout.kind, table->dates));
    for (size_t i = 0, shown = 0; i < table->heading_count; i++)
        if (*table->headings[i].text)
            said = arena_printf(scratch, "%s%s%s = %s", said, shown++ ? "; " : "", table->headings[i].text,
                                meaning_of(scratch, table, i));
    said = arena_copy(arena, said);
    arena_free(scratch);
    return said;
}
