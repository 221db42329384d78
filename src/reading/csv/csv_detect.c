#include "reading/csv/csv_detect.h"

#include "reading/csv/csv_log.h"

#include "base/number.h"
#include "reading/csv/csv_say.h"

#include <string.h>

#define HEADER_LINES 20 /* the header must be on one of these lines */

static const char delimiters[] = {',', ';', '\t', '|'};

static size_t mapped_columns(const struct column_map *map)
{
    size_t count = 0;
    for (size_t field = 0; field < FIELD_COUNT; field++)
        count += map->of[field].count;
    return count;
}

struct candidate
{
    bool whole; /* with date and lift; else nearly a log */
    size_t columns;
    char delimiter;
};

/* Many sheets next to the log in a workbook are not logs, although they have a date and a lift somewhere: a list of
 * bests, a plan, the findings of a report. A log also needs a weight or repetitions. */
static bool is_log_of_a_sheet(const struct column_map *map)
{
    return columns_look_like_log(map) && (map->of[FIELD_WEIGHT].count || map->of[FIELD_REPS].count);
}

static void try_delimiter(struct reading *reading, const char *text, size_t length, char delimiter, bool sheet,
                          struct candidate *best)
{
    const char *line_end = memchr(text, '\n', length);
    if (!memchr(text, delimiter, line_end ? (size_t)(line_end - text) : length) && delimiter != ',')
        return; /* a single cell: the first delimiter was tried already */
    const char *const *cells;
    struct column_map map;
    size_t count = csv_split_record(reading->scratch, text, length, delimiter, &cells);
    columns_map(reading->scratch, &map, cells, count, reading->gym);
    bool whole = columns_look_like_log(&map);
    struct candidate found = {.whole = whole, .columns = mapped_columns(&map), .delimiter = delimiter};
    if ((sheet ? is_log_of_a_sheet(&map) : whole || columns_nearly_log(&map)) &&
        (found.whole > best->whole || (found.whole == best->whole && found.columns > best->columns)))
        *best = found;
}

/* A text log may have "# date, lift, load" in a comment; a header may begin with a column "#". */
static bool is_comment(const char *text, size_t length)
{
    return length > 2 && text[0] == '#' && text[1] == ' ';
}

bool csv_log_detect(struct reading *reading, struct input *input, char *delimiter, uint32_t *header_line)
{
    size_t length;
    const char *text = input_head(input, &length);
    struct candidate near = {0};
    const bool sheet = input_is_sheet(input); /* whose records are always separated by commas */
    for (uint32_t line = 1; line <= HEADER_LINES && length; line++) {
        struct candidate best = {0};
        for (size_t i = 0; i < (sheet ? 1 : sizeof delimiters) && !is_comment(text, length); i++)
            try_delimiter(reading, text, length, delimiters[i], sheet, &best);
        arena_reset(reading->scratch);
        /* A header that lacks one required column is still a header: the log is refused with that column's name, and
         * not read as text. */
        if (best.whole || (best.columns && !near.columns)) {
            *delimiter = best.delimiter;
            *header_line = line;
            near = best;
        }
        if (best.whole)
            return true;
        const char *end = memchr(text, '\n', length);
        if (!end)
            break;
        length -= (size_t)(end + 1 - text);
        text = end + 1;
    }
    return near.columns;
}

/* A sign is not a thousands separator unless three digits follow it; if there are two different signs, the last is
 * the decimal one. */
void csv_count_sign(const char *text, struct signs *signs)
{
    const char *comma = strrchr(text, ','), *point = strrchr(text, '.');
    if (!comma && !point)
        return;
    const char *last = !point || (comma && comma > point) ? comma : point;
    size_t before = strspn(text, "+-0123456789.,"), digits = strspn(last + 1, "0123456789");
    if (text + before <= last || !digits || (digits == 3 && !(comma && point) && *text != '0'))
        return;
    if (last == comma)
        signs->comma++;
    else
        signs->point++;
}

struct sample
{
    const struct column_map *map;
    struct signs signs;
};

static bool count_row(void *context, const struct csv_row *row)
{
    static const enum log_field numeric[] = {FIELD_WEIGHT,     FIELD_RPE,   FIELD_RIR, FIELD_VELOCITY,
                                             FIELD_BODYWEIGHT, FIELD_CHAIN, FIELD_BAND};
    struct sample *sample = context;
    for (size_t i = 0; i < sizeof numeric / sizeof *numeric; i++)
        for (size_t k = 0; k < sample->map->of[numeric[i]].count; k++)
            if (sample->map->of[numeric[i]].items[k].index < row->count)
                csv_count_sign(row->cells[sample->map->of[numeric[i]].items[k].index], &sample->signs);
    return true;
}

void csv_find_decimal(struct csv_log *log, uint32_t header_line)
{
    log->decimal = '.';
    log->decimal_open = false;
    if (log->delimiter != ';' && log->delimiter != '\t')
        return;
    size_t length;
    const char *text = input_head(log->input, &length);
    struct sample sample = {.map = &log->map};
    csv_rows_scan(text, length, log->delimiter, header_line, count_row, &sample); /* the header has no numbers */
    log->decimal_open = !sample.signs.comma && !sample.signs.point;
    if (sample.signs.comma > sample.signs.point || log->decimal_open)
        log->decimal = ',';
}

/* --- effort ------------------------------------------------------------------------------------------------------ */

void csv_count_effort(const char *text, struct efforts *efforts)
{
    double value;
    text = csv_skip_blanks(text);
    if (!*text || (*text == '-' && !text[1]))
        return;
    efforts->numbers++;
    bool number = number_whole(text, '.', &value) || number_whole(text, ',', &value);
    efforts->good += number && value >= 5 && value <= 10;
}

struct effort_sample
{
    size_t column;
    bool header_passed;
    struct efforts efforts;
};

static bool count_effort_row(void *context, const struct csv_row *row)
{
    struct effort_sample *sample = context;
    if (sample->header_passed && sample->column < row->count)
        csv_count_effort(row->cells[sample->column], &sample->efforts);
    sample->header_passed = true;
    return true;
}

void csv_find_effort(struct csv_log *log, uint32_t header_line)
{
    if (!log->map.effort.count)
        return;
    size_t length;
    const char *text = input_head(log->input, &length);
    struct effort_sample sample = {.column = log->map.effort.items[0].index};
    csv_rows_scan(text, length, log->delimiter, header_line, count_effort_row, &sample);
    if (sample.efforts.numbers && sample.efforts.good == sample.efforts.numbers)
        columns_take_effort(log->own, &log->map);
}
