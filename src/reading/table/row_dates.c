#include "reading/table/row_dates.h"

#include "base/text.h"
#include "reading/table/table_rows.h"

#include <string.h>

static const struct text_span whole_of_cell = {SIZE_MAX, 0};
static const char *const weekdays[] = {"monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"};

/* 1 to 7, or a weekday's name. 0: neither. */
static unsigned read_day(struct maker *maker, const char *text)
{
    const char *folded = text_fold(maker->scratch, text);
    if (text_starts(folded, "day "))
        folded += 4;
    if (*folded >= '1' && *folded <= '7' && (!folded[1] || !strcmp(folded + 1, ".0")))
        return (unsigned)(*folded - '0');
    size_t length = strcspn(folded, " .,");
    for (unsigned i = 0; i < 7; i++)
        if (length >= 3 && length <= strlen(weekdays[i]) && !strncmp(folded, weekdays[i], length))
            return i + 1;
    return 0;
}

/* A number from 1 up: 3, Week 3, W3. 0: none. */
static unsigned read_week(struct maker *maker, const char *text)
{
    const char *folded = text_fold(maker->scratch, text);
    unsigned week = 0;
    folded += strcspn(folded, "0123456789");
    size_t digits = strspn(folded, "0123456789");
    if (!digits || digits > 3 || (folded[digits] && strcmp(folded + digits, ".0")))
        return 0;
    for (size_t i = 0; i < digits; i++)
        week = week * 10 + (unsigned)(folded[i] - '0');
    return week <= HEADING_MOST_WEEKS ? week : 0;
}

day_number table_first_monday(const struct table *table)
{
    const struct reading_options *options = &table->reading->options;
    return options->start_said ? options->start : table->reading->gym->start;
}

const char *row_day_text(struct maker *maker, day_number day)
{
    char text[16];
    date_print(text, day);
    return arena_copy(maker->scratch, text);
}

/* False: the week or the day cannot be read, already reported. An empty cell keeps the value from above. */
static bool take_week_and_day(struct maker *maker)
{
    struct table *table = maker->table;
    const char *week = table_cell(table, maker->row_number, table->week),
               *day = table_cell(table, maker->row_number, table->weekday);
    maker_clear(maker, FIELD_DATE);
    if (*week) {
        maker->week = read_week(maker, week);
        maker->fates[table->week] = FATE_READ;
        if (!*day)
            maker->day = 0;
    }
    if (*day) {
        maker->day = read_day(maker, day);
        maker->fates[table->weekday] = FATE_READ;
    }
    if (!maker->week || !maker->day) {
        bool of_week = !maker->week;
        const char *said = of_week ? week : day;
        maker_refuse(
            maker, of_week ? table->week : table->weekday, whole_of_cell, *said ? DIAG_BAD_DATE : DIAG_MISSING_DATE,
            of_week ? "number the weeks from 1" : "write the day as 1 to 7 or as a weekday's name",
            *said     ? arena_printf(maker->scratch, "'%s' is not a %s", said, of_week ? "week" : "day of the week")
            : of_week ? "no week"
                      : "no day");
        return false;
    }
    day_number date = table_first_monday(table) + 7 * ((day_number)maker->week - 1) + (day_number)maker->day - 1;
    maker_put(maker, FIELD_DATE, row_day_text(maker, date), table->weekday, whole_of_cell);
    return true;
}

/* The date of a row; if dates are column headers, the column gives it, and if dates have rows of their own, the CSV
 * reader remembers it. */
bool row_take_date(struct maker *maker)
{
    if (maker->table->dates == DATES_OF_WEEKS)
        return take_week_and_day(maker);
    if (maker->table->dates == DATES_IN_COLUMN)
        maker_take_field(maker, FIELD_DATE);
    else
        maker_clear(maker, FIELD_DATE);
    return true;
}
