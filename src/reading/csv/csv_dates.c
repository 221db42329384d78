#include "reading/csv/csv_dates.h"

#include "reading/csv/csv_down.h"
#include "reading/csv/csv_log.h"
#include "reading/csv/csv_say.h"

#include <string.h>

static bool refuse_order(struct csv_log *log, const struct csv_cell *cell)
{
    static const char *const names[] = {"", "iso", "dmy", "mdy"};
    return csv_refuse(log, DIAG_BAD_DATE, cell->index, NULL, "'%s' is not a date when dates are read as %s", cell->text,
                      names[log->dates]);
}

/* The user gave the order of dates, so each date is valid or not by itself. */
static bool read_as_told(struct csv_log *log, const struct csv_cell *cell, struct written_day *written)
{
    day_number day = log->dates == DATES_DMY ? written->dmy : log->dates == DATES_MDY ? written->mdy : NO_DAY;
    if (day == NO_DAY)
        return refuse_order(log, cell);
    written->kind = DAY_SURE;
    written->day = day;
    return true;
}

static void note_line(struct csv_log *log, enum written_day_kind kind)
{
    uint32_t *first = kind == DAY_DMY_ONLY ? &log->dmy_line : kind == DAY_MDY_ONLY ? &log->mdy_line : &log->either_line;
    if (!*first)
        *first = log->row->line;
}

bool csv_read_date(struct csv_log *log, struct csv_entry *entry)
{
    struct csv_cell cell;
    if (!csv_cell(log, FIELD_DATE, &cell))
        return csv_take_date_above(log, entry);
    if (csv_memo_holds(&log->date_memo, &cell)) {
        entry->written = log->date_value;
        return true;
    }
    struct written_day written = day_read(cell.text);
    bool yearless = false, year_taken = written.kind == DAY_UNREADABLE && csv_add_year(log, &cell, &written, &yearless);
    csv_forget_date_above(log);
    if (yearless && !year_taken)
        return csv_refuse(log, DIAG_BAD_DATE, cell.index,
                          "write the year in the first date, or name the file with it: 2026.csv", "'%s' has no year",
                          cell.text);
    if (written.kind == DAY_UNREADABLE)
        return csv_refuse(log, DIAG_BAD_DATE, cell.index, NULL, "'%s' is not a date", cell.text);
    if (written.kind == DAY_IMPOSSIBLE)
        return csv_refuse(log, DIAG_BAD_DATE, cell.index, "correct the day or the month", "there is no day '%s'",
                          cell.text);
    if (written.kind == DAY_FAR)
        return csv_refuse(log, DIAG_BAD_DATE, cell.index, NULL, "'%s' is not in the years %d to %d", cell.text,
                          FIRST_YEAR, LAST_YEAR);
    if (written.kind != DAY_SURE && log->dates != DATES_UNSAID) {
        if (!read_as_told(log, &cell, &written))
            return false;
    } else {
        /* An equal neighbour does not help to determine the order, so only new dates are passed on. */
        day_order_see(&log->order, &written);
        if (written.kind != DAY_SURE)
            note_line(log, written.kind);
    }
    csv_memo_fill(&log->date_memo, &cell);
    entry->written = log->date_value = written;
    csv_keep_date_above(log, year_taken);
    return true;
}

void csv_settle_later(struct csv_log *log, const struct csv_entry *entry, size_t first, size_t count)
{
    *LIST_ADD(log->own, &log->pending) = (struct csv_pending){
        .first = first, .count = count, .dmy = entry->written.dmy, .mdy = entry->written.mdy};
}

static bool refuse_file(struct csv_log *log, enum day_settled settled)
{
    if (settled == SETTLED_BOTH)
        csv_fail(log, DIAG_UNSETTLED_DATES, log->dmy_line > log->mdy_line ? log->dmy_line : log->mdy_line,
                 "dates are day first on line %u and month first on line %u: nothing in this file was used",
                 log->dmy_line, log->mdy_line);
    else
        csv_fail(log, DIAG_UNSETTLED_DATES, log->either_line,
                 "dates may be day first or month first, and no row shows which: nothing in this file was used");
    return false;
}

bool csv_settle_dates(struct csv_log *log)
{
    enum day_settled settled = day_order_settle(&log->order);
    if (settled == SETTLED_NOT || settled == SETTLED_BOTH)
        return refuse_file(log, settled);
    bool by_order = settled == SETTLED_DMY_BY_ORDER || settled == SETTLED_MDY_BY_ORDER;
    bool day_first = settled == SETTLED_DMY || settled == SETTLED_DMY_BY_ORDER;
    struct set *sets = log->reading->log->sets.items;
    for (size_t i = 0; i < log->pending.count; i++) {
        const struct csv_pending *pending = &log->pending.items[i];
        for (size_t k = pending->first; k < pending->first + pending->count; k++) {
            sets[k].day = day_first ? pending->dmy : pending->mdy;
            sets[k].assumed |= (uint16_t)(by_order ? ASSUMED_DATE_ORDER : 0);
        }
    }
    if (by_order)
        diag_add(log->reading->diags, DIAG_ASSUMED_DATE_ORDER,
                 (struct place){.file = log->path, .line = log->either_line}, NULL, NULL,
                 "dates were read %s first, because only then are the rows in order", day_first ? "day" : "month");
    return true;
}
