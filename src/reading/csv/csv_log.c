/* Reads sets from a CSV export: the header once, then record by record. */
#include "reading/csv/csv_log.h"

#include "base/system.h"
#include "model/set_store.h"
#include "reading/csv/csv_chunks.h"
#include "reading/csv/csv_dates.h"
#include "reading/csv/csv_detect.h"
#include "reading/csv/csv_down.h"
#include "reading/csv/csv_loads.h"
#include "reading/csv/csv_record.h"
#include "reading/csv/csv_say.h"
#include "reading/csv/csv_unread.h"
#include "reading/log_lifters.h"

#include <string.h>

/* The unit of bare numbers: the header's, else the user's, else the gym's, else kg, which is an assumption. */
static void find_unit(struct csv_log *log)
{
    const struct reading *reading = log->reading;
    log->unit_said = true;
    for (size_t i = 0; i < log->map.of[FIELD_WEIGHT].count; i++) {
        if (log->map.of[FIELD_WEIGHT].items[i].unit_said) {
            log->unit = log->map.of[FIELD_WEIGHT].items[i].unit;
            return;
        }
    }
    if (reading->options.unit_said) {
        log->unit = reading->options.unit;
    } else if (reading->gym->unit_said) {
        log->unit = reading->gym->unit;
    } else {
        log->unit = UNIT_KG;
        log->unit_said = false;
    }
}

/* The order of dates: the user's, else the lifter's, else the gym's. */
static enum date_order dates_of(const struct csv_log *log, const char *lifter_name)
{
    const struct gym *gym = log->reading->gym;
    const struct lifter *lifter = gym_lifter(gym, lifter_name);
    if (log->reading->options.dates != DATES_UNSAID)
        return log->reading->options.dates;
    return lifter && lifter->dates != DATES_UNSAID ? lifter->dates : gym->dates;
}

static void say_unused_columns(struct csv_log *log)
{
    static const struct
    {
        enum log_field field;
        const char *what;
    } unused[] = {
        {FIELD_SIDE, "rows for left and right count as two sets"},
        {FIELD_SUPERSET, "each set counts by itself"},
    };
    for (size_t i = 0; i < sizeof unused / sizeof *unused; i++)
        if (log->map.of[unused[i].field].count) {
            size_t index = log->map.of[unused[i].field].items[0].index;
            csv_say(log, DIAG_IGNORED_COLUMN, index, NULL, "column '%s' is not used: %s", log->row->cells[index],
                    unused[i].what);
        }
}

void csv_log_ready(struct csv_log *log)
{
    struct reading *reading = log->reading;
    log->header_read = true;
    find_unit(log);
    log->lifter_of_path = lifter_of_log(reading, log->path);
    log->default_lifter = lifter_number(reading, log->lifter_of_path);
    log->dates = dates_of(log, log->lifter_of_path);
}

static bool read_header(struct csv_log *log)
{
    struct reading *reading = log->reading;
    const struct csv_row *row = log->row;
    log->header_read = true;
    columns_map(log->own, &log->map, row->cells, row->count, reading->gym);
    csv_find_effort(log, row->line);
    csv_file(log)->columns = columns_describe(reading->log->arena, &log->map, row->cells, row->count);
    const char *missing = columns_missing(reading->scratch, &log->map);
    if (missing) {
        csv_fail(log, DIAG_MISSING_COLUMN, row->line,
                 "no header was recognised for:  %s; nothing in this file was used", missing);
        return false;
    }
    log->needed_cells = columns_needed_cells(&log->map);
    csv_find_decimal(log, row->line);
    say_unused_columns(log);
    csv_find_unread(log);
    csv_log_ready(log);
    return true;
}

void csv_compact_sets(struct csv_log *log)
{
    struct log *all = log->reading->log;
    if (!all->set_store || all->percents.count || log->pending.count || log->added.count)
        return;
    tally_sets(all, csv_file(log), log->first_set);
    log_compact_sets(all, log->first_set);
}

bool csv_count_refused(struct csv_log *log, uint32_t line)
{
    struct log_file *file = csv_file(log);
    file->refused++;
    return !tally_gives_up(log->reading, file, file->sets + log->reading->log->sets.count - log->first_set, line);
}

bool csv_see_row(void *context, const struct csv_row *row)
{
    struct csv_log *log = context;
    log->row = row;
    bool go_on = true;
    if (!log->header_read) {
        go_on = read_header(log);
    } else if (!csv_read_record(log)) {
        go_on = csv_count_refused(log, row->line);
    }
    if (log->unread.count && go_on && row->line > log->unread.items[0].at.line)
        csv_count_unread(log);
    log->last_line = row->line + row->lines - 1;
    if (log->reading->log->sets.count - log->first_set >= CSV_SETS_WAITING)
        csv_compact_sets(log);
    arena_reset(log->reading->scratch);
    return go_on;
}

/* --- the end of the file
 * --------------------------------------------------------------------------------------------------- */

/* Handles weights of records that came before the first bodyweight of their lifter. */
static void settle_added(struct csv_log *log)
{
    for (size_t i = 0; i < log->added.count; i++) {
        const struct csv_added *added = &log->added.items[i];
        struct set *sets = log->reading->log->sets.items;
        for (size_t k = added->first;
             csv_lifter(log, added->lifter)->bodyweight_known && k < added->first + added->count; k++)
            sets[k].weight = csv_on_body(log, sets[k].weight);
    }
}

static void say_once(struct csv_log *log)
{
    csv_say_above(log);
    csv_say_unread(log);
    tally_say_unit(log->reading, log->path, log->unit, &log->unit_assumed);
    for (uint32_t i = 0; i < log->lifts.count; i++)
        tally_say_lift(log->reading, log->path, i, &log->lifts.items[i].tally);
}

static void sum_up(struct csv_log *log)
{
    struct log_file *file = csv_file(log);
    tally_sets(log->reading->log, file, log->first_set);
    log_compact_sets(log->reading->log, log->first_set);
    file->unit = log->unit;
    file->unit_assumed = log->unit_assumed.count;
    if (!file->sets && !file->refused && !file->aside)
        diag_add(log->reading->diags, DIAG_EMPTY_LOG, (struct place){.file = log->path}, NULL, NULL,
                 "a header and no sets");
}

static void take_back(struct csv_log *log)
{
    log->reading->log->sets.count = log->first_set;
    log->reading->log->percents.count = log->first_percent;
    csv_file(log)->sets = csv_file(log)->aside = 0;
    csv_file(log)->first = csv_file(log)->last = NO_DAY;
    if (log->reading->log->set_store)
        set_store_drop_file(log->reading->log->set_store, log->file);
}

bool csv_log_finish(struct csv_log *log)
{
    if (!log->failed && !log->header_read)
        csv_fail(log, DIAG_NOT_A_LOG, 0, "no header was found");
    if (log->failed || !csv_settle_dates(log)) {
        take_back(log);
        return false;
    }
    settle_added(log);
    say_once(log);
    sum_up(log);
    return true;
}

static struct csv_memory *memory_of(struct reading *reading)
{
    if (!reading->csv_memory) {
        struct arena *own = arena_new();
        struct csv_memory *memory = reading->csv_memory = ARENA_NEW(own, struct csv_memory);
        memory->own = own;
        for (size_t i = 0; i < 4; i++)
            memory->notes[i / 2][i % 2] = map_new(own);
        memory->kept_notes = map_new(own);
        memory->no_load = load_intern(reading->log->loads, &(struct load){.straight = STRAIGHT_NONE});
    }
    return reading->csv_memory;
}

void csv_memory_free(struct csv_memory *memory)
{
    if (memory)
        arena_free(memory->own);
}

struct csv_log *csv_log_new(struct reading *reading, struct input *input, uint32_t file, char delimiter)
{
    struct csv_log *log = csv_log_of_table(reading, input_name(input), file, delimiter);
    log->input = input;
    return log;
}

void csv_log_free(struct csv_log *log)
{
    arena_free(log->own);
}

struct csv_log *csv_log_of_table(struct reading *reading, const char *path, uint32_t file, char delimiter)
{
    struct arena *own = arena_new();
    struct csv_log *log = ARENA_NEW(own, struct csv_log);
    log->own = own;
    log->reading = reading;
    log->file = file;
    log->path = path;
    log->above.day = NO_DAY;
    log->delimiter = delimiter;
    log->first_set = reading->log->sets.count;
    log->first_percent = reading->log->percents.count;
    log->memory = memory_of(reading);
    log->kinds_said = map_new(own);
    day_order_begin(&log->order);
    csv_file(log)->is_csv = true;
    csv_file(log)->delimiter = delimiter;
    csv_file(log)->first = csv_file(log)->last = NO_DAY;
    return log;
}

struct csv_log *csv_log_like(const struct csv_log *like, struct reading *reading, struct input *input, uint32_t file)
{
    struct csv_log *log = csv_log_new(reading, input, file, like->delimiter);
    log->decimal = like->decimal;
    log->decimal_open = like->decimal_open;
    log->header_read = true;
    log->map = like->map;
    log->unread = like->unread;
    log->needed_cells = like->needed_cells;
    log->unit = like->unit;
    log->unit_said = like->unit_said;
    log->dates = like->dates;
    log->name = like->name;
    log->lifter_of_path = like->lifter_of_path;
    log->default_lifter = lifter_number(reading, log->lifter_of_path);
    return log;
}

static bool see_extent(void *context, const struct csv_row *row)
{
    uint32_t *end = context;
    *end = row->open_quote ? 0 : row->line + row->lines - 1;
    return false;
}

static bool see_header(void *context, const struct csv_row *row)
{
    struct csv_log *log = context;
    log->row = row;
    log->last_line = row->line + row->lines - 1;
    read_header(log);
    return false;
}

uint32_t csv_read_header_alone(struct csv_log *log, uint32_t header_line)
{
    size_t length;
    const char *text = input_head(log->input, &length);
    uint32_t end = 0;
    const char *last = system_last_byte(text, '\n', length);
    length = last ? (size_t)(last - text) + 1 : 0;
    csv_rows_scan(text, length, log->delimiter, header_line, see_extent, &end);
    if (end)
        csv_rows_scan(text, length, log->delimiter, header_line, see_header, log);
    arena_reset(log->reading->scratch);
    return end;
}

/* Starts again after the header, when the chunks turned out to be unusable. Everything remembered about cells and
 * lifters' names is forgotten too: some of it was reported, and those reports were discarded. */
static struct csv_log *read_anew(struct csv_log *log, uint32_t header_end)
{
    take_back(log);
    csv_file(log)->refused = 0;
    csv_memory_free(log->reading->csv_memory);
    log->reading->csv_memory = NULL;
    lifters_forget_spellings(log->reading);
    struct csv_log *anew = csv_log_like(log, log->reading, log->input, log->file);
    anew->last_line = header_end;
    return anew;
}

/* False: the file as a whole is unusable, already reported. *log: the one that read the records. */
static bool read_records(struct csv_log **log, uint32_t header_line)
{
    uint32_t first_line = header_line,
             header_end = csv_worth_chunks(*log) ? csv_read_header_alone(*log, header_line) : 0;
    if (header_end && ((*log)->failed || csv_read_chunks(*log, header_end)))
        return true;
    if (header_end) {
        *log = read_anew(*log, header_end);
        first_line = header_end + 1;
    }
    return csv_rows_read((*log)->input, (*log)->delimiter, first_line, (*log)->reading->diags, csv_see_row, *log);
}

bool read_csv_log(struct reading *reading, struct input *input, uint32_t file, char delimiter, uint32_t header_line)
{
    struct csv_log *first = csv_log_new(reading, input, file, delimiter), *log = first;
    first->name = csv_titles(first->own, input, header_line);
    if (!read_records(&log, header_line))
        log->failed = true;
    csv_file(log)->encoding = input_encoding(input);
    csv_file(log)->lines = log->last_line;
    bool good = csv_log_finish(log);
    if (log != first)
        arena_free(log->own);
    arena_free(first->own); /* it owns the map of columns */
    arena_reset(reading->scratch);
    return good;
}
