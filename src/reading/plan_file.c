#include "reading/plan_file.h"

#include "base/number.h"
#include "base/text.h"
#include "base/unit.h"
#include "reading/csv/csv_rows.h"

#include <math.h>
#include <string.h>

enum plan_field
{
    PLAN_LIFTER,
    PLAN_LIFT,
    PLAN_FOCUS,
    PLAN_WEEK,
    PLAN_STEP,
    PLAN_AR,
    PLAN_STRAIGHT, /* fields from here on are loads */
    PLAN_BOTTOM,
    PLAN_TOP,
    PLAN_MEAN,
    PLAN_VOLUME,
    PLAN_FIELDS
};

static const struct
{
    const char *name; /* of a load: without its unit */
    bool needed;
} fields[PLAN_FIELDS] = {
    [PLAN_LIFTER] = {"lifter", false},    [PLAN_LIFT] = {"lift", true},           [PLAN_FOCUS] = {"focus", true},
    [PLAN_WEEK] = {"week", true},         [PLAN_STEP] = {"step", false},          [PLAN_AR] = {"ar", false},
    [PLAN_STRAIGHT] = {"straight", true}, [PLAN_BOTTOM] = {"bottom", false},      [PLAN_TOP] = {"top", false},
    [PLAN_MEAN] = {"mean", false},        [PLAN_VOLUME] = {"volume_mean", false},
};

#define NO_COLUMN SIZE_MAX
#define MOST_KG 1e7 /* more than any week's volume, and any load */

struct file
{
    struct arena *arena, *scratch;
    struct input *input;
    struct diags *diags;
    struct planned_weeks *plan;
    const struct csv_row *row;
    size_t columns[PLAN_FIELDS];
    enum mass_unit units[PLAN_FIELDS];
    bool has_header, failed;
};

static bool refuse(struct file *file, size_t cell, const char *message, const char *text)
{
    struct place at = {.file = input_name(file->input), .line = file->row->line, .column = 1};
    if (cell != NO_COLUMN) {
        at.column = csv_cell_column(file->input, file->scratch, file->row, cell, ',');
        at.length = (uint32_t)text_characters(text, strlen(text));
    }
    diag_add(file->diags, DIAG_BAD_PLAN, at, input_line(file->input, file->scratch, file->row->line), NULL,
             "%s%s%s%s: the line is left out", *text ? "'" : "", text, *text ? "' " : "", message);
    return false;
}

static bool fail(struct file *file, uint32_t line, const char *message)
{
    diag_add(file->diags, DIAG_NOT_A_PLAN, (struct place){.file = input_name(file->input), .line = line}, NULL, NULL,
             "%s: nothing in it was used", message);
    file->failed = true;
    return false;
}

/* --- the header ------------------------------------------------------------------------------------------------------- */

static bool is_header_of(const char *header, enum plan_field field, enum mass_unit *unit)
{
    size_t length = strlen(fields[field].name);
    if (strncmp(header, fields[field].name, length))
        return false;
    header += length;
    if (field < PLAN_STRAIGHT)
        return !*header;
    *unit = !strcmp(header, "_lb") ? UNIT_LB : UNIT_KG;
    return *unit == UNIT_LB || !strcmp(header, "_kg");
}

static bool read_header(struct file *file)
{
    for (int field = 0; field < PLAN_FIELDS; field++) {
        file->columns[field] = NO_COLUMN;
        for (size_t i = file->row->count; i-- > 0;)
            if (is_header_of(file->row->cells[i], (enum plan_field)field, &file->units[field]))
                file->columns[field] = i;
        if (fields[field].needed && file->columns[field] == NO_COLUMN)
            return fail(file, file->row->line,
                        arena_printf(file->scratch, "no column '%s%s'", fields[field].name,
                                     field < PLAN_STRAIGHT ? "" : "_kg"));
    }
    return file->has_header = true;
}

/* --- a week ------------------------------------------------------------------------------------------------------------ */

static const char *cell_of(const struct file *file, enum plan_field field)
{
    size_t column = file->columns[field];
    return column < file->row->count ? file->row->cells[column] : "";
}

/* An empty cell is NAN. */
static bool read_load(struct file *file, enum plan_field field, double *kg)
{
    const char *text = cell_of(file, field);
    double value = NAN;
    if (*text && (!number_whole(text, '.', &value) || !(fabs(value) <= MOST_KG)))
        return refuse(file, file->columns[field], "is not a load", text);
    *kg = kg_from(value, file->units[field]);
    return true;
}

static bool is_digits(const char *text, size_t count)
{
    return strspn(text, "0123456789") >= count;
}

/* 2026-W03 */
static bool read_week(struct file *file, week_number *week)
{
    const char *text = cell_of(file, PLAN_WEEK);
    double year, number;
    if (strlen(text) == 8 && is_digits(text, 4) && text[4] == '-' && text[5] == 'W' && is_digits(text + 6, 2)) {
        number_prefix(text, 4, '.', &year);
        number_prefix(text + 6, 2, '.', &number);
        if (week_make((int)year, (int)number, week))
            return true;
    }
    return refuse(file, file->columns[PLAN_WEEK], "is not a week, which is written 2026-W03", text);
}

static bool read_step(struct file *file, unsigned *step)
{
    const char *text = cell_of(file, PLAN_STEP);
    double value = 0;
    if (*text && (strspn(text, "0123456789") != strlen(text) || !number_whole(text, '.', &value) || value > 1000))
        return refuse(file, file->columns[PLAN_STEP], "is not a step", text);
    *step = (unsigned)value;
    return true;
}

static bool read_week_row(struct file *file, struct planned_week *week)
{
    if (file->row->too_long)
        return refuse(file, NO_COLUMN, "a line of more than 1 MiB", "");
    if (file->row->open_quote)
        return refuse(file, NO_COLUMN, "a quote never closes", "");
    for (size_t i = 0; i < file->row->count; i++)
        if (strlen(file->row->cells[i]) != file->row->lengths[i])
            return refuse(file, NO_COLUMN, "a NUL byte", "");
    *week = (struct planned_week){.line = file->row->line};
    if (!*cell_of(file, PLAN_LIFT))
        return refuse(file, NO_COLUMN, "no lift is named", "");
    if (!focus_read(cell_of(file, PLAN_FOCUS), &week->focus) || week->focus == FOCUS_UNSAID)
        return refuse(file, file->columns[PLAN_FOCUS], "is not a focus", cell_of(file, PLAN_FOCUS));
    if (!*cell_of(file, PLAN_STRAIGHT))
        return refuse(file, NO_COLUMN, "no straight weight", "");
    return read_week(file, &week->week) && read_step(file, &week->step) &&
           read_load(file, PLAN_STRAIGHT, &week->straight_kg) && read_load(file, PLAN_BOTTOM, &week->bottom_kg) &&
           read_load(file, PLAN_TOP, &week->top_kg) && read_load(file, PLAN_MEAN, &week->mean_kg) &&
           read_load(file, PLAN_VOLUME, &week->volume_mean_kg);
}

static bool see_row(void *context, const struct csv_row *row)
{
    struct file *file = context;
    struct planned_week week;
    file->row = row;
    if (!file->has_header)
        return read_header(file);
    if (read_week_row(file, &week)) {
        week.lifter = arena_copy(file->arena, cell_of(file, PLAN_LIFTER));
        week.lift = arena_copy(file->arena, cell_of(file, PLAN_LIFT));
        week.ar = arena_copy(file->arena, cell_of(file, PLAN_AR));
        *LIST_ADD(file->arena, &file->plan->list) = week;
    }
    arena_reset(file->scratch);
    return true;
}

bool plan_read(struct arena *arena, struct input *input, struct diags *diags, struct planned_weeks *plan)
{
    struct file file = {.arena = arena, .scratch = arena_new(), .input = input, .diags = diags, .plan = plan};
    bool read = csv_rows_read(input, ',', 1, diags, see_row, &file) && !file.failed;
    if (read && !file.has_header)
        read = fail(&file, 0, "an empty file");
    arena_free(file.scratch);
    return read;
}
