#include "reading/csv/csv_record.h"

#include "reading/csv/csv_log.h"

#include "base/text.h"
#include "reading/csv/csv_cells.h"
#include "reading/csv/csv_dates.h"
#include "reading/csv/csv_down.h"
#include "reading/csv/csv_loads.h"
#include "reading/csv/csv_say.h"
#include "reading/log_lifters.h"

#include <math.h>
#include <string.h>

static bool is_blank_record(const struct csv_row *row)
{
    if (row->count &&
        (signed char)*row->cells[0] > ' ') /* not a non-ASCII letter, even if char is unsigned: it may be a blank */
        return false;
    for (size_t i = 0; i < row->count; i++)
        if (*csv_skip_blanks(row->cells[i]) || row->lengths[i] > strlen(row->cells[i]))
            return false;
    return !row->open_quote && !row->too_long;
}

static bool refuse_open_quote(struct csv_log *log)
{
    struct csv_row at_quote = *log->row; /* the quote may open below the record's first line */
    if (at_quote.lines > 1) {
        const struct csv_row *whole = log->row;
        at_quote.line += at_quote.lines - 1;
        log->row = &at_quote;
        csv_refuse(log, DIAG_OPEN_QUOTE, CSV_WHOLE_ROW, NULL,
                   "a quote that opens here never closes: the rest of the file would be one cell");
        log->row = whole;
        return false;
    }
    return csv_refuse(log, DIAG_OPEN_QUOTE, at_quote.count, NULL,
                      "a quote that opens here never closes: the rest of the file would be one cell");
}

/* Does the record have all its cells, and no more? */
static bool check_shape(struct csv_log *log)
{
    const struct csv_row *row = log->row;
    if (row->too_long)
        return csv_refuse(log, DIAG_LONG_LINE, CSV_WHOLE_ROW, NULL,
                          "a line of more than 1 MiB cannot be a set: it is left out");
    if (row->open_quote)
        return refuse_open_quote(log);
    for (size_t i = 0; log->input && input_had_nul(log->input) && i < row->count; i++)
        if (strlen(row->cells[i]) < row->lengths[i])
            return csv_refuse(log, DIAG_NUL_BYTE, i, NULL, "a NUL byte within the cell");
    if (row->count < log->needed_cells && !csv_is_date_row(log))
        return csv_refuse(log, DIAG_TOO_FEW_CELLS, CSV_WHOLE_ROW, NULL,
                          "a row of %zu cells: date, lift, weight and reps are in the first %zu", row->count,
                          log->needed_cells);
    for (size_t i = log->map.header_cells; i < row->count; i++)
        if (*csv_skip_blanks(row->cells[i]))
            return csv_refuse(log, DIAG_EXTRA_CELLS, i, NULL, "a cell beyond the header's %zu columns: '%s'",
                              log->map.header_cells, row->cells[i]);
    return true;
}

static bool read_lifter(struct csv_log *log, struct csv_entry *entry)
{
    struct csv_cell cell;
    entry->lifter = log->default_lifter;
    if (!csv_cell(log, FIELD_LIFTER, &cell))
        return true;
    if (!csv_memo_holds(&log->lifter_memo, &cell)) {
        log->lifter_value = lifter_number(log->reading, cell.text);
        csv_memo_fill(&log->lifter_memo, &cell);
    }
    entry->lifter = log->lifter_value;
    return true;
}

static bool read_lift(struct csv_log *log, struct csv_entry *entry)
{
    struct csv_cell cell;
    if (!csv_cell(log, FIELD_LIFT, &cell))
        return csv_take_lift_above(log, entry);
    if (!csv_memo_holds(&log->lift_memo, &cell)) {
        log->lift_value = lift_number(log->reading->lifts, cell.text, cell.length);
        csv_memo_fill(&log->lift_memo, &cell);
        log->above.lift = log->above.lifts_named = true;
    }
    entry->lift = log->lift_value;
    return true;
}

static void set_aside(struct csv_log *log, const struct csv_entry *entry)
{
    struct csv_lift *lift = csv_lift(log, entry->lift);
    tally_add(&lift->tally.aside, 1, log->row->line);
    csv_file(log)->aside++;
}

/* Written member by member, directly in place: a struct that is built elsewhere and copied in larger pieces causes
 * store-forwarding stalls. */
static void fill_set(struct set *set, const struct csv_log *log, const struct csv_entry *entry,
                     const struct reps_group *group)
{
    set->weight = entry->weight;
    set->ar = entry->ar;
    set->note = log->reading->notes_go ? NULL : entry->note;
    set->rpe = entry->rpe;
    set->rir = entry->rir;
    set->velocity_ms = entry->velocity_ms;
    set->bodyweight_kg = entry->bodyweight_kg;
    set->day = entry->written.kind == DAY_SURE ? entry->written.day : NO_DAY;
    set->file = log->file;
    set->line = log->row->line;
    set->lifter = entry->lifter;
    set->lift = entry->lift;
    set->assumed = (uint16_t)((entry->unit_assumed ? ASSUMED_UNIT : 0) | log->above.date_assumed);
    set->reps = group->reps;
    set->kind = (uint8_t)(group->reps ? entry->kind.kind : SET_MISSED);
    set->focus = (uint8_t)entry->focus;
    set->to_failure = entry->kind.to_failure || group->to_failure;
    set->drop = entry->kind.drop;
    set->ar_said = (uint8_t)entry->ar_said;
    set->ar_limit = (uint8_t)entry->ar_limit;
    set->light = entry->light;
    set->focus_noted = entry->focus_noted;
}

/* A load in % of 1RM is settled when all maxes are known; its index is kept until then. */
static void keep_percent(struct csv_log *log, const struct csv_entry *entry, size_t first, size_t end)
{
    struct log *all = log->reading->log;
    struct arena *scratch = log->reading->scratch;
    const char *text = log->row->cells[entry->weight_cell];
    if (log->source) {
        const struct place at = csv_place(log, entry->weight_cell);
        for (size_t set = first; set < end; set++)
            *LIST_ADD(all->arena,
                      &all->percents) = (struct percent_use){.set = set,
                                                             .column = at.column,
                                                             .length = at.length,
                                                             .excerpt = arena_copy(all->arena, log->source->record)};
        return;
    }
    bool sheet = input_is_sheet(log->input);
    uint32_t column = sheet ? (uint32_t)entry->weight_cell + 1
                            : csv_cell_column(log->input, scratch, log->row, entry->weight_cell, log->delimiter);
    const char *excerpt = arena_copy(all->arena, input_line(log->input, scratch, log->row->line));
    for (size_t set = first; set < end; set++)
        *LIST_ADD(all->arena,
                  &all->percents) = (struct percent_use){.set = set,
                                                         .sheet = sheet,
                                                         .column = column,
                                                         .length = (uint32_t)text_characters(text, strlen(text)),
                                                         .excerpt = excerpt};
}

static bool same_record(const struct set *set, const struct set *before)
{
    return set->line == before->line && set->file == before->file && set->lift == before->lift &&
           set->lifter == before->lifter && set->day == before->day;
}

/* A note counts once, on the first set of its record; a row may have its sets in several records of one line. */
static void mark_record(struct log *all, size_t first)
{
    struct set *sets = all->sets.items;
    bool goes_on = first && same_record(&sets[first], &sets[first - 1]) && sets[first - 1].ar_said != AR_UNSAID;
    for (size_t i = goes_on ? first : first + 1; i < all->sets.count; i++)
        sets[i].ar_said = AR_SAID_BEFORE;
}

static void add_sets(struct csv_log *log, const struct csv_entry *entry)
{
    struct log *all = log->reading->log;
    size_t first = all->sets.count;
    for (size_t g = 0; g < log->reps.count; g++)
        for (unsigned i = entry->sets * log->reps.groups[g].sets; i; i--)
            fill_set(LIST_ROOM(all->arena, &all->sets), log, entry, &log->reps.groups[g]);
    size_t count = all->sets.count - first;
    if (entry->ar_said == AR_SAID_IN_NOTE)
        mark_record(all, first);
    if (entry->written.kind != DAY_SURE)
        csv_settle_later(log, entry, first, count);
    if (entry->added_weight)
        *LIST_ADD(log->own, &log->added) = (struct csv_added){.first = first, .count = count, .lifter = entry->lifter};
    if (entry->weight->straight == STRAIGHT_PERCENT)
        keep_percent(log, entry, first, all->sets.count);
    if (entry->weight->straight == STRAIGHT_NONE) {
        struct csv_lift *lift = csv_lift(log, entry->lift);
        tally_add(&lift->tally.unweighed, (uint32_t)count, log->row->line);
    }
    if (entry->unit_assumed)
        tally_add(&log->unit_assumed, 1, log->row->line);
}

bool csv_read_record(struct csv_log *log)
{
    struct csv_entry
        entry; /* each function below sets its own members: clearing all of them would cost as much as reading a cell */
    bool aside;
    entry.unit_assumed = entry.added_weight = false;
    if (is_blank_record(log->row)) {
        csv_pass_blank(log);
        return true;
    }
    if (!check_shape(log)) {
        csv_forget_date_above(log);
        csv_pass_blank(log);
        return false;
    }
    if (!csv_read_date(log, &entry) || !read_lifter(log, &entry) || !read_lift(log, &entry) ||
        !csv_read_kind(log, &entry) || !csv_read_reps(log, &entry, &aside))
        return csv_was_date_row(log);
    if (aside) {
        set_aside(log, &entry);
        return true;
    }
    entry.bodyweight_kg = NAN;
    if (!csv_read_unit(log, &entry) || (log->map.of[FIELD_BODYWEIGHT].count && !csv_read_bodyweight(log, &entry)) ||
        !csv_read_load(log, &entry))
        return false;
    csv_read_effort(log, &entry);
    add_sets(log, &entry);
    return true;
}
