#include "reading/measurements/measurements.h"

#include "base/number.h"
#include "base/text.h"
#include "reading/csv/csv_rows.h"
#include "reading/day.h"
#include "reading/measurements/measurement_columns.h"

#include <math.h>
#include <stdarg.h>
#include <string.h>

#define MOST_FLAT_M 10.0
#define MOST_LENGTH_M 30.0
#define LEAST_LENGTH_M 0.05
#define MOST_PULL_KG 1000.0 /* the same as the limits of [band] in the gym file */

struct file /* a file while it is read */
{
    struct arena *arena, *own, *scratch; /* for the readings, for this file, for a row */
    struct input *input;
    const struct measurement_options *options;
    struct diags *diags;
    struct pull_readings *readings;
    const char *path, *default_label;
    char delimiter, decimal;
    struct measurement_column *columns; /* NULL: the header was not read yet */
    size_t column_count;
    const struct csv_row *row;
    bool failed;
    size_t first; /* index of its first reading */
    struct day_order order;
    uint32_t either_line;             /* of the first date that can be read in two ways */
    LIST(struct written_day) written; /* of each reading from the first on */
};

struct value /* a cell's number in metres or kg */
{
    double number;
    size_t cell;
};

#define WHOLE_ROW SIZE_MAX /* instead of a cell's index */

static struct place place_of(const struct file *file, size_t cell)
{
    struct place at = {.file = file->path, .line = file->row->line};
    if (cell != WHOLE_ROW && cell < file->row->count) {
        at.column = csv_cell_column(file->input, file->scratch, file->row, cell, file->delimiter);
        at.length = (uint32_t)text_characters(file->row->cells[cell], strlen(file->row->cells[cell]));
    }
    return at;
}

/* Reports why the row, or what follows from it, is not used; returns false. */
__attribute__((format(printf, 5, 6))) static bool refuse(struct file *file, enum diag_id id, size_t cell,
                                                         const char *hint, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    diag_add(file->diags, id, place_of(file, cell), input_line(file->input, file->scratch, file->row->line), hint, "%s",
             arena_vprintf(file->scratch, format, arguments));
    va_end(arguments);
    return false;
}

/* --- cells ------------------------------------------------------------------------------------------------------- */

static const char *cell_text(const struct file *file, size_t cell)
{
    return cell < file->row->count ? text_squeeze(file->scratch, file->row->cells[cell]) : "";
}

static const char *kind_name(enum unit_kind kind)
{
    return kind == UNIT_OF_LENGTH ? "length" : "pull";
}

static const char *unit_words(enum unit_kind kind)
{
    return kind == UNIT_OF_LENGTH ? "m, cm, mm, in or ft" : "kg, lb, N, kgf or lbf";
}

/* The unit after the number; if there is none, the header's, then the user's. A pull of 0 needs no unit. */
static bool read_unit(struct file *file, size_t cell, const char *word, bool is_zero, double *size)
{
    const struct measurement_column *column = &file->columns[cell];
    enum unit_kind due = measurement_kind(column->field);
    if (*word) {
        enum unit_kind kind = measurement_unit(word, strlen(word), size);
        if (kind == due)
            return true;
        return refuse(file, kind == UNIT_OF_NOTHING ? DIAG_BAD_MEASUREMENT : DIAG_WRONG_UNIT, cell, NULL,
                      kind == UNIT_OF_NOTHING ? "'%s' is not a unit of %s: the line is left out"
                                              : "'%s', but a %s is needed: the line is left out",
                      kind == UNIT_OF_NOTHING ? word : file->row->cells[cell], kind_name(due));
    }
    *size = isnan(column->unit) && due == UNIT_OF_PULL ? file->options->pull_unit_kg : column->unit;
    if (is_zero && due == UNIT_OF_PULL)
        *size = 1;
    if (!isnan(*size))
        return true;
    return refuse(file, DIAG_MISSING_UNIT, cell,
                  arena_printf(file->scratch, "write %s in the header, as in %s, or after the number", unit_words(due),
                               due == UNIT_OF_LENGTH ? "length (cm)" : "pull (kg)"),
                  "'%s' has no unit: the line is left out", file->row->cells[cell]);
}

static bool within_reason(struct file *file, size_t cell, double value)
{
    enum measurement_field field = file->columns[cell].field;
    bool is_pull = field == MEASURED_PULL;
    double least = is_pull || field == MEASURED_EXTENSION ? 0 : LEAST_LENGTH_M;
    double most = is_pull ? MOST_PULL_KG : field == MEASURED_FLAT ? MOST_FLAT_M : MOST_LENGTH_M;
    return (value >= least && value <= most) ||
           refuse(file, DIAG_ABSURD_NUMBER, cell, "check the unit and the decimal sign",
                  "'%s' is out of range for a band (%g to %g %s): the line is left out", file->row->cells[cell], least,
                  most, is_pull ? "kg" : "m");
}

/* "1.20 m", "120". */
static bool read_value(struct file *file, size_t cell, struct value *value)
{
    const char *text = cell_text(file, cell);
    size_t used = number_prefix(text, strlen(text), file->decimal, &value->number);
    char other = file->decimal == '.' ? ',' : '.';
    double size;
    if (*text == '-' && text[1])
        return refuse(file, DIAG_BAD_MEASUREMENT, cell, NULL, "'%s' is below 0: the line is left out", text);
    if (!used)
        return refuse(file, DIAG_BAD_MEASUREMENT, cell, NULL, "'%s' is not a number:  the line is left out", text);
    if (text[used] == other)
        return refuse(file, DIAG_BAD_MEASUREMENT, cell,
                      other == ',' ? "write a decimal point, or separate the cells by ; instead of ,"
                                   : "write a decimal comma, as in the rest of the file",
                      "'%s' has a decimal %s where the file has decimal %s: the line is left out", text,
                      other == ',' ? "comma" : "point", other == ',' ? "points" : "commas");
    text += used;
    if (!read_unit(file, cell, text + (*text == ' '), !(value->number > 0), &size))
        return false;
    value->number *= size;
    value->cell = cell;
    return within_reason(file, cell, value->number);
}

/* The field's first cell that is not empty; WHOLE_ROW: none. */
static size_t filled_cell(const struct file *file, enum measurement_field field)
{
    for (size_t i = 0; i < file->column_count && i < file->row->count; i++)
        if (file->columns[i].field == field && *cell_text(file, i))
            return i;
    return WHOLE_ROW;
}

static bool has_column(const struct file *file, enum measurement_field field)
{
    for (size_t i = 0; i < file->column_count; i++)
        if (file->columns[i].field == field)
            return true;
    return false;
}

/* --- the contents of a row --------------------------------------------------------------------------------------- */

/* A date in the order that the user gave; otherwise a date that can be read in two ways waits for the end of the
 * file. */
static bool take_order(struct file *file, size_t cell, struct written_day *written)
{
    static const char *const names[] = {[DATES_ISO] = "iso", [DATES_DMY] = "dmy", [DATES_MDY] = "mdy"};
    enum date_order order = file->options->dates;
    if (order == DATES_UNSAID) {
        if (!file->either_line)
            file->either_line = file->row->line;
        return true;
    }
    day_number day = order == DATES_DMY ? written->dmy : order == DATES_MDY ? written->mdy : NO_DAY;
    if (day == NO_DAY)
        return refuse(file, DIAG_BAD_DATE, cell, NULL,
                      "'%s' is not a date when dates are read as %s: the line is left out", cell_text(file, cell),
                      names[order]);
    *written = (struct written_day){.kind = DAY_SURE, .day = day};
    return true;
}

static bool read_day(struct file *file, struct written_day *written)
{
    size_t cell = filled_cell(file, MEASURED_DATE);
    *written = (struct written_day){.kind = DAY_SURE, .day = NO_DAY};
    if (cell == WHOLE_ROW)
        return !has_column(file, MEASURED_DATE) ||
               refuse(file, DIAG_MISSING_DATE, WHOLE_ROW, "write the date in each line",
                      "no date: the line is left out");
    *written = day_read(file->row->cells[cell]);
    if (written->kind == DAY_UNREADABLE || written->kind == DAY_IMPOSSIBLE)
        return refuse(file, DIAG_BAD_DATE, cell, NULL, "'%s' is not a date:  the line is left out",
                      cell_text(file, cell));
    if (written->kind == DAY_FAR)
        return refuse(file, DIAG_BAD_DATE, cell, NULL, "'%s' is not in the years %d to %d: the line is left out",
                      cell_text(file, cell), FIRST_YEAR, LAST_YEAR);
    return written->kind == DAY_SURE || take_order(file, cell, written);
}

static bool read_label(struct file *file, struct pull_reading *reading)
{
    size_t cell = filled_cell(file, MEASURED_BAND);
    if (cell == WHOLE_ROW && has_column(file, MEASURED_BAND))
        return refuse(file, DIAG_BAD_MEASUREMENT, WHOLE_ROW, "write the band's label in each line",
                      "no band is named: the line is left out");
    reading->label = cell == WHOLE_ROW ? file->default_label : arena_copy(file->arena, cell_text(file, cell));
    return true;
}

static bool read_side(struct file *file, struct pull_reading *reading)
{
    size_t cell = filled_cell(file, MEASURED_SIDE);
    return cell == WHOLE_ROW || band_side_read(cell_text(file, cell), &reading->side) ||
           refuse(file, DIAG_BAD_MEASUREMENT, cell, "write left or right", "'%s' is not a side:  the line is left out",
                  cell_text(file, cell));
}

static bool read_way(struct file *file, struct pull_reading *reading)
{
    size_t cell = filled_cell(file, MEASURED_WAY);
    return cell == WHOLE_ROW || band_way_read(cell_text(file, cell), &reading->way) ||
           refuse(file, DIAG_BAD_MEASUREMENT, cell,
                  "write up where the band was being stretched, down where it was let go",
                  "'%s' is not a way:  the line is left out", cell_text(file, cell));
}

static bool read_length(struct file *file, struct pull_reading *reading, size_t *at)
{
    struct value value;
    size_t cell = filled_cell(file, MEASURED_LENGTH);
    reading->is_extension = cell == WHOLE_ROW;
    if (reading->is_extension)
        cell = filled_cell(file, MEASURED_EXTENSION);
    if (cell == WHOLE_ROW)
        return refuse(file, DIAG_BAD_MEASUREMENT, WHOLE_ROW, NULL, "no length: the line is left out");
    if (!read_value(file, cell, &value))
        return false;
    reading->length_m = value.number;
    *at = cell;
    return true;
}

static bool read_flat(struct file *file, struct pull_reading *reading)
{
    struct value value = {.number = NAN};
    size_t cell = filled_cell(file, MEASURED_FLAT);
    if (cell != WHOLE_ROW && !read_value(file, cell, &value))
        return false;
    reading->flat_m = value.number;
    return true;
}

static bool add_pulls(struct file *file, const struct pull_reading *shared, const struct written_day *written)
{
    struct value pulls[16];
    size_t count = 0;
    for (size_t i = 0; i < file->column_count && count < sizeof pulls / sizeof *pulls; i++)
        if (file->columns[i].field == MEASURED_PULL && *cell_text(file, i) && !read_value(file, i, &pulls[count++]))
            return false;
    if (!count)
        return refuse(file, DIAG_BAD_MEASUREMENT, WHOLE_ROW, NULL, "no pull: the line is left out");
    for (size_t i = 0; i < count; i++) {
        struct pull_reading *reading = LIST_ADD(file->arena, &file->readings->list);
        enum band_side side = file->columns[pulls[i].cell].side;
        *reading = *shared;
        reading->pull_kg = pulls[i].number;
        reading->side = side != SIDE_UNSAID ? side : shared->side;
        *LIST_ADD(file->own, &file->written) = *written;
    }
    return true;
}

static bool read_row(struct file *file)
{
    struct pull_reading reading = {.side = SIDE_UNSAID};
    struct written_day written;
    size_t at = 0;
    if (file->row->too_long)
        return refuse(file, DIAG_LONG_LINE, WHOLE_ROW, NULL, "a line of more than 1 MiB: it is left out");
    if (file->row->open_quote)
        return refuse(file, DIAG_OPEN_QUOTE, WHOLE_ROW, NULL, "a quote that never closes: the line is left out");
    for (size_t i = 0; i < file->row->count; i++) {
        if (file->row->lengths[i] != strlen(file->row->cells[i]))
            return refuse(file, DIAG_NUL_BYTE, i, NULL, "a NUL byte: the line is left out");
        if (i >= file->column_count && *cell_text(file, i))
            return refuse(file, DIAG_EXTRA_CELLS, i, NULL,
                          "more cells than the header has columns: the line is left out");
    }
    if (!read_label(file, &reading) || !read_side(file, &reading) || !read_way(file, &reading) ||
        !read_day(file, &written) || !read_length(file, &reading, &at) || !read_flat(file, &reading))
        return false;
    reading.at = place_of(file, at);
    reading.excerpt = arena_copy(file->arena, input_line(file->input, file->scratch, file->row->line));
    if (!add_pulls(file, &reading, &written))
        return false;
    day_order_see(&file->order, &written);
    return true;
}

/* --- the header -------------------------------------------------------------------------------------------------- */

/* Refuses the file as a whole. */
static bool fail(struct file *file, enum diag_id id, uint32_t line, const char *hint, const char *message)
{
    diag_add(file->diags, id, (struct place){.file = file->path, .line = line}, NULL, hint,
             "%s: nothing in this file was used", message);
    file->failed = true;
    return false;
}

static bool read_header(struct file *file)
{
    const struct csv_row *row = file->row;
    file->columns = ARENA_ARRAY(file->own, struct measurement_column, row->count + 1);
    file->column_count = row->count;
    for (size_t i = 0; i < row->count; i++) {
        struct measurement_column *column = &file->columns[i];
        *column = measurement_column(file->scratch, row->cells[i]);
        enum unit_kind due = measurement_kind(column->field);
        if (column->wrong_unit)
            return file->failed = true,
                   refuse(file, DIAG_NOT_MEASUREMENTS, i,
                          arena_printf(file->scratch, "units of %s are %s", kind_name(due), unit_words(due)),
                          "column '%s' has no unit of %s: nothing in this file was used", row->cells[i],
                          kind_name(due));
        if (column->field == MEASURED_NOTHING && *cell_text(file, i))
            refuse(file, DIAG_IGNORED_COLUMN, i, NULL, "column '%s' is not used", row->cells[i]);
    }
    return true;
}

/* --- the file ---------------------------------------------------------------------------------------------------- */

static bool is_blank(const struct file *file)
{
    for (size_t i = 0; i < file->row->count; i++)
        if (*cell_text(file, i))
            return false;
    return true;
}

/* If a quote within a comment includes lines after it, the row is no longer a comment. */
static bool is_comment(const struct csv_row *row)
{
    return row->count && row->cells[0][0] == '#' && row->lines == 1 && !row->open_quote;
}

static bool see_row(void *context, const struct csv_row *row)
{
    struct file *file = context;
    bool go_on = true;
    file->row = row;
    if (is_comment(row) || (is_blank(file) && !row->open_quote && !row->too_long))
        return true;
    if (!file->columns)
        go_on = read_header(file);
    else
        read_row(file);
    arena_reset(file->scratch);
    return go_on;
}

static bool settle_days(struct file *file)
{
    enum day_settled settled = day_order_settle(&file->order);
    bool day_first = settled == SETTLED_DMY || settled == SETTLED_DMY_BY_ORDER;
    if (settled == SETTLED_NOT || settled == SETTLED_BOTH)
        return fail(file, DIAG_UNSETTLED_DATES, file->either_line, NULL,
                    settled == SETTLED_NOT ? "dates may be read day first or month first"
                                           : "some dates are day first, others month first");
    if (settled == SETTLED_DMY_BY_ORDER || settled == SETTLED_MDY_BY_ORDER)
        diag_add(file->diags, DIAG_ASSUMED_DATE_ORDER, (struct place){.file = file->path, .line = file->either_line},
                 NULL, NULL, "dates were read %s first, because only then are the rows in order",
                 day_first ? "day" : "month");
    for (size_t i = 0; i < file->written.count; i++) {
        const struct written_day *written = &file->written.items[i];
        day_number day = written->kind == DAY_SURE ? written->day : day_first ? written->dmy : written->mdy;
        file->readings->list.items[file->first + i].day = day;
    }
    return true;
}

/* "b26" of "bands/b26.csv". */
static const char *stem_of(struct arena *arena, const char *path)
{
    const char *slash = strrchr(path, '/'), *name = slash ? slash + 1 : path, *dot = strrchr(name, '.');
    if (!strcmp(path, "-"))
        return "band";
    return arena_text(arena, name, dot && dot > name ? (size_t)(dot - name) : strlen(name));
}

static bool read_all(struct file *file)
{
    struct measurement_header header = measurement_header(file->input, file->scratch);
    if (!header.whole)
        return fail(file, DIAG_NOT_MEASUREMENTS, header.line, NULL,
                    header.length ? "no column of pulls"
                    : header.pull ? "no column of lengths"
                                  : "no header with a column of lengths and one of pulls");
    file->delimiter = header.delimiter;
    file->decimal = header.decimal;
    if (!csv_rows_read(file->input, header.delimiter, header.line, file->diags, see_row, file) || file->failed ||
        !settle_days(file))
        return false;
    if (file->readings->list.count == file->first)
        diag_add(file->diags, DIAG_NO_POINTS, (struct place){.file = file->path}, NULL, NULL,
                 "no measurement was read");
    return true;
}

bool measurements_read(struct arena *arena, struct input *input, const struct measurement_options *options,
                       struct diags *diags, struct pull_readings *readings)
{
    struct file file = {.arena = arena,
                        .own = arena_new(),
                        .scratch = arena_new(),
                        .input = input,
                        .options = options,
                        .diags = diags,
                        .readings = readings};
    file.path = arena_copy(arena, input_name(input));
    file.default_label = options->label ? options->label : stem_of(arena, file.path);
    file.first = readings->list.count;
    day_order_begin(&file.order);
    bool good = read_all(&file);
    if (!good)
        readings->list.count = file.first;
    arena_free(file.scratch);
    arena_free(file.own);
    return good;
}
