/* How well the cells of a table fit a layout. */
#include "reading/table/layout_fit.h"

#include "reading/csv/csv_detect.h"
#include "reading/table/table_rows.h"
#include "reading/text/text_patterns.h"

#include <string.h>
#include <strings.h>

/* --- fields' cells ------------------------------------------------------------------------------------------------- */

static void miss(struct layout_fit *fit, size_t row, size_t column)
{
    if (fit->all == fit->good) {
        fit->bad_row = row;
        fit->bad_column = column;
    }
    fit->all++;
}

static void count(struct layout_fit *fit, bool good, size_t row, size_t column)
{
    if (!good) {
        miss(fit, row, column);
        return;
    }
    fit->good++;
    fit->all++;
}

static void add_fit(struct layout_fit *to, const struct layout_fit *more)
{
    if (to->all == to->good && more->all != more->good) {
        to->bad_row = more->bad_row;
        to->bad_column = more->bad_column;
    }
    to->good += more->good;
    to->all += more->all;
    to->cells += more->cells;
}

bool fit_is_good(const struct layout_fit *fit)
{
    return fit->cells >= 2 && fit->good * 10 >= fit->all * 8;
}

/* A number, or the beginning of a load. */
static bool looks_like_weight(const struct table *table, const char *text)
{
    struct text_match match;
    return text_fits(table->manner.patterns, PATTERN_LOAD_START, table->decimal, text, strlen(text), strspn(text, " "),
                     &match);
}

static bool looks_like_reps(const struct table *table, const char *text)
{
    struct reps_cell reps;
    return reps_read(text, table->decimal, &reps) && reps.count;
}

struct layout_fit column_items(const struct table *table, size_t column)
{
    struct layout_fit fit = {0};
    struct items items;
    for (size_t row = table->header + 1; row < table->rows.count; row++) {
        const char *text = table_cell(table, row, column);
        if (!*text)
            continue;
        items_split(&table->manner, text, &items);
        fit.cells++;
        for (size_t i = 0; i < items.count; i++)
            count(&fit, item_looks(&table->manner, text + items.spans[i].at, items.spans[i].length), row, column);
    }
    return fit;
}

static bool is_note(const char *text)
{
    return !strncasecmp(text, "note", 4);
}

struct layout_fit column_sessions(const struct table *table, size_t column)
{
    struct layout_fit fit = {0};
    struct items items;
    size_t sets;
    for (size_t row = table->header + 1; row < table->rows.count; row++) {
        const char *text = table_cell(table, row, column);
        if (!*text)
            continue;
        items_split_session(&table->manner, text, &items);
        fit.cells++;
        for (size_t i = 0; i < items.count; i++) {
            const char *part = text + items.spans[i].at;
            size_t length = items.spans[i].length;
            bool good = session_looks(&table->manner, part, length, &sets) || is_note(part) ||
                        (i && item_looks(&table->manner, part, length));
            count(&fit, good, row, column);
        }
    }
    return fit;
}

struct layout_fit column_reps(const struct table *table, size_t column)
{
    struct layout_fit fit = {0};
    for (size_t row = table->header + 1; row < table->rows.count; row++) {
        const char *text = table_cell(table, row, column);
        fit.cells += *text != 0;
        if (*text)
            count(&fit, reps_look(text, table->decimal), row, column);
    }
    return fit;
}

static struct layout_fit column_fields(const struct table *table, size_t column, enum log_field field)
{
    struct layout_fit fit = {0};
    for (size_t row = table->header + 1; column != NO_COLUMN && row < table->rows.count; row++) {
        const char *text = table_cell(table, row, column);
        if (!*text)
            continue;
        fit.cells++;
        count(&fit, field == FIELD_WEIGHT ? looks_like_weight(table, text) : looks_like_reps(table, text), row, column);
    }
    return fit;
}

struct layout_fit layout_fit(const struct table *table, const struct layout *layout)
{
    struct layout_fit fit = {0}, more;
    for (size_t i = 0; i < layout->groups.count; i++) {
        more = column_fields(table, layout->groups.items[i].of[FIELD_WEIGHT], FIELD_WEIGHT);
        add_fit(&fit, &more);
        more = column_fields(table, layout->groups.items[i].of[FIELD_REPS], FIELD_REPS);
        add_fit(&fit, &more);
    }
    for (size_t i = 0; i < layout->columns.count; i++) {
        more = layout->kind == LAYOUT_SESSIONS      ? column_sessions(table, layout->columns.items[i])
               : layout->kind == LAYOUT_REPS_ACROSS ? column_reps(table, layout->columns.items[i])
                                                    : column_items(table, layout->columns.items[i]);
        add_fit(&fit, &more);
    }
    return fit;
}

/* --- dates --------------------------------------------------------------------------------------------------------- */

static bool is_date(const char *text)
{
    enum written_day_kind kind = day_read(text).kind;
    return kind != DAY_UNREADABLE || heading_is_yearless(text);
}

static size_t count_dates(const struct table *table, size_t column, size_t *cells)
{
    size_t dates = 0;
    *cells = 0;
    for (size_t row = table->header + 1; row < table->rows.count; row++) {
        const char *text = table_cell(table, row, column);
        *cells += *text != 0;
        dates += *text && is_date(text);
    }
    return dates;
}

static size_t first_column(const struct table *table, enum log_field field)
{
    return table->map.of[field].count ? table->map.of[field].items[0].index : NO_COLUMN;
}

/* The column of weekdays next to a column of weeks: its header may be that of a date. */
static size_t find_weekday(const struct table *table)
{
    size_t day = first_column(table, FIELD_WEEKDAY), date = first_column(table, FIELD_DATE), cells;
    if (date != NO_COLUMN && count_dates(table, date, &cells))
        return NO_COLUMN; /* these are real dates, whatever is next to them */
    return day != NO_COLUMN ? day : date;
}

static bool begins_with_date_row(const struct table *table)
{
    for (size_t row = table->header + 1; row < table->rows.count; row++)
        if (!table_row_is_blank(table, row))
            return table_date_row(table, row) != NO_COLUMN;
    return false;
}

enum layout_dates table_find_dates(struct table *table)
{
    size_t day = first_column(table, FIELD_WEEK) == NO_COLUMN ? NO_COLUMN : find_weekday(table);
    if (day != NO_COLUMN) {
        table->week = first_column(table, FIELD_WEEK);
        table->weekday = day;
        return DATES_OF_WEEKS;
    }
    if (table->map.of[FIELD_DATE].count)
        return DATES_IN_COLUMN;
    return begins_with_date_row(table) ? DATES_IN_ROWS : DATES_MISSING;
}

/* --- numbers ------------------------------------------------------------------------------------------------------- */

/* Counts decimal signs in the numbers that begin a set: 102,5x5; 102.5 kg x 5. */
static void count_item_signs(const char *text, struct signs *signs)
{
    static const char digits[] = "0123456789";
    for (const char *at = text; *at; at++) {
        if (!strchr(digits, *at) || (at > text && !strchr(" \t\n;,:~", at[-1])))
            continue;
        size_t whole = strspn(at, digits);
        char sign = at[whole];
        size_t behind = sign == ',' || sign == '.' ? strspn(at + whole + 1, digits) : 0;
        const char *next = at + whole + 1 + behind;
        next += behind ? strspn(next, " ") : 0;
        if (behind && behind <= 2 && strchr("xX*kKlL\xC3", *next)) /* strchr() also finds the text's final NUL */
            ++*(sign == ',' ? &signs->comma : &signs->point);
        at += whole - 1;
    }
}

static bool is_numeric(enum log_field field)
{
    return field == FIELD_WEIGHT || field == FIELD_RPE || field == FIELD_RIR || field == FIELD_VELOCITY ||
           field == FIELD_BODYWEIGHT || field == FIELD_CHAIN || field == FIELD_BAND;
}

static struct signs table_signs(const struct table *table)
{
    struct signs signs = {0};
    for (size_t column = 0; column < table->heading_count; column++) {
        const struct column_heading *heading = &table->headings[column];
        for (size_t row = table->header + 1; row < table->rows.count; row++) {
            if (is_numeric(heading->field))
                csv_count_sign(table_cell(table, row, column), &signs);
            else if (heading->field == FIELD_COUNT || heading->field == FIELD_SETS)
                count_item_signs(table_cell(table, row, column), &signs);
        }
    }
    return signs;
}

static void find_effort(struct table *table)
{
    struct efforts efforts = {0};
    if (!table->map.effort.count)
        return;
    for (size_t row = table->header + 1; row < table->rows.count; row++)
        csv_count_effort(table_cell(table, row, table->map.effort.items[0].index), &efforts);
    if (efforts.numbers && efforts.good == efforts.numbers)
        columns_take_effort(table->own, &table->map);
}

void table_find_numbers(struct table *table)
{
    char delimiter = table->origin.delimiter;
    table->decimal = table->origin.decimal ? table->origin.decimal : '.';
    table->decimal_open = false;
    if (!table->origin.decimal && (delimiter == ';' || delimiter == '\t' || !delimiter)) {
        struct signs signs = table_signs(table);
        table->decimal_open = !signs.comma && !signs.point;
        table->decimal = signs.comma > signs.point || table->decimal_open ? ',' : '.';
    }
    table->manner = (struct item_manner){text_patterns_of(table->reading), table->reading->gym, table->decimal};
    find_effort(table);
}
