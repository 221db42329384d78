/* Values that carry over from the rows above: a date or a lift that is written only once, and years. */
#include "reading/csv/csv_down.h"

#include "base/text.h"
#include "reading/csv/csv_say.h"
#include "reading/years.h"

#include <string.h>

void csv_keep_date_above(struct csv_log *log, bool year_taken)
{
    const struct written_day *written = &log->date_value;
    struct csv_above *above = &log->above;
    above->date = true;
    above->day = written_any_day(written);
    year_taken |= log->source && log->source->year_taken;
    above->date_assumed = year_taken ? ASSUMED_YEAR : 0;
    above->focus = FOCUS_UNSAID;
    if (year_taken)
        tally_add(&above->years, 1, log->row->line);
}

void csv_forget_date_above(struct csv_log *log)
{
    log->date_memo.length = 0;
    log->above.date = false;
}

void csv_pass_blank(struct csv_log *log)
{
    log->lift_memo.length = 0;
    log->above.lift = false;
}

/* Blank lines before the record do not arrive as records. */
static void pass_blank_lines(struct csv_log *log)
{
    if (log->row->line > log->last_line + 1)
        csv_pass_blank(log);
}

bool csv_take_date_above(struct csv_log *log, struct csv_entry *entry)
{
    struct csv_above *above = &log->above;
    above->looked = true;
    above->dates_off |= above->day == NO_DAY;
    if (above->dates_off || !above->date)
        return csv_refuse(log, DIAG_MISSING_DATE, log->map.of[FIELD_DATE].items[0].index, NULL, "no date");
    entry->written = log->date_value;
    if (above->date_line != log->row->line)
        tally_add(&above->dates, 1, above->date_line = log->row->line);
    return true;
}

/* --- date rows ----------------------------------------------------------------------------------------------------- */

/* Only a date: 2026-01-05 squat day. */
bool csv_is_date_row(const struct csv_log *log)
{
    struct csv_cell date;
    if (!csv_cell(log, FIELD_DATE, &date))
        return false;
    for (size_t i = 0; i < log->row->count; i++)
        if (i != date.index && *csv_skip_blanks(log->row->cells[i]))
            return false;
    return true;
}

/* A focus among the words after the date. */
static enum focus focus_of(struct csv_log *log, const char *words)
{
    enum focus focus;
    for (size_t length; *words; words += length) {
        words += strspn(words, " \t\n,;:-()");
        length = strcspn(words, " \t\n,;:-()");
        if (length && focus_read(arena_text(log->reading->scratch, words, length), &focus))
            return focus;
    }
    return FOCUS_UNSAID;
}

static void begin_session(struct csv_log *log)
{
    struct csv_cell date;
    log->above.looked = log->above.date_row = true;
    csv_pass_blank(log);
    log->above.focus = csv_cell(log, FIELD_DATE, &date) ? focus_of(log, date.text) : FOCUS_UNSAID;
}

bool csv_was_date_row(struct csv_log *log)
{
    bool was = log->above.date_row;
    log->above.date_row = false;
    if (!log->above.date)
        csv_pass_blank(log);
    return was;
}

bool csv_take_lift_above(struct csv_log *log, struct csv_entry *entry)
{
    struct csv_above *above = &log->above;
    if (csv_is_date_row(log)) {
        begin_session(log);
        return false;
    }
    pass_blank_lines(log);
    above->lifts_off |= !above->lifts_named;
    above->looked = true;
    if (above->lifts_off || !above->lift)
        return csv_refuse(log, DIAG_MISSING_LIFT, log->map.of[FIELD_LIFT].items[0].index, NULL, "no lift");
    entry->lift = log->lift_value;
    if (above->lift_line != log->row->line)
        tally_add(&above->lifts, 1, above->lift_line = log->row->line);
    return true;
}

void csv_name_lift(struct csv_log *log, const char *lift)
{
    const struct csv_cell cell = {.text = lift, .length = strlen(lift)};
    log->lift_value = lift_number(log->reading->lifts, lift, cell.length);
    csv_memo_fill(&log->lift_memo, &cell);
    log->above.lift = log->above.lifts_named = true;
}

/* --- years --------------------------------------------------------------------------------------------------------- */

const char *csv_titles(struct arena *arena, struct input *input, uint32_t header_line)
{
    size_t length, used = 0;
    const char *text = input_head(input, &length);
    for (uint32_t line = 1; line < header_line && used < length; line++) {
        const char *end = memchr(text + used, '\n', length - used);
        used = end ? (size_t)(end + 1 - text) : length;
    }
    return used ? arena_text(arena, text, used) : NULL;
}

bool csv_add_year(struct csv_log *log, const struct csv_cell *cell, struct written_day *written, bool *is_date)
{
    *is_date = day_read_in_year(cell->text, 2024).kind != DAY_UNREADABLE; /* every date exists in a leap year */
    if (!*is_date || !strpbrk(cell->text, "0123456789"))
        return *is_date = false;
    log->above.looked = true;
    int year = year_after(cell->text, log->above.day, year_of_names(log->name, log->path));
    if (year)
        *written = day_read_in_year(cell->text, year);
    return year;
}

/* --- messages ----------------------------------------------------------------------------------------------------- */

void csv_say_above(struct csv_log *log)
{
    const struct csv_above *above = &log->above;
    struct arena *scratch = log->reading->scratch;
    uint32_t first = above->dates.line && (!above->lifts.line || above->dates.line < above->lifts.line)
                         ? above->dates.line
                         : above->lifts.line;
    if (above->dates.count || above->lifts.count) {
        const char *dates = above->dates.count ? arena_printf(scratch, "the date in %u %s", above->dates.count,
                                                              above->dates.count == 1 ? "row" : "rows")
                                               : "";
        const char *lifts = above->lifts.count ? arena_printf(scratch, "the lift in %u %s", above->lifts.count,
                                                              above->lifts.count == 1 ? "row" : "rows")
                                               : "";
        diag_add(log->reading->diags, DIAG_FILLED_DOWN, (struct place){.file = log->path, .line = first}, NULL, NULL,
                 "cells left blank were filled from the row above:  %s%s%s", dates, *dates && *lifts ? ", " : "",
                 lifts);
    }
    if (above->years.count)
        diag_add(log->reading->diags, DIAG_ASSUMED_YEAR, (struct place){.file = log->path, .line = above->years.line},
                 NULL, NULL, "%u %s without a year: that of the row above or of the file's name was used",
                 above->years.count, above->years.count == 1 ? "date" : "dates");
}
