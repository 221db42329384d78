#include "commands/loads.h"

#include "commands/command.h"

#include "analysis/evaluated_set.h"
#include "commands/session/session_lifters.h"
#include "commands/tables.h"

#include <math.h>

struct loads_row
{
    const struct evaluated_set *evaluated;
    const struct log *log;
    struct arena *scratch; /* emptied after each row */
    char assumed[192], from[32];
    bool for_people;
};

#define COVERAGE 2 /* k of an expanded uncertainty U = k u: GUM, 6.3.3 */

/* Text shows ± U, and only where chains or bands leave something uncertain; files hold u. */
static double uncertainty_shown(const struct loads_row *row, double u_kg)
{
    if (!row->for_people)
        return u_kg;
    return row->evaluated->has_ar ? COVERAGE * u_kg : NAN;
}

/* A load, with as many decimals as the log gives. */
static void cell_as_logged(struct cell *cell, const struct load *load, double kg)
{
    cell_number(cell, kg);
    if (load->decimals > 1)
        cell->decimals = load->decimals;
}

static void get_set(const void *row, struct cell *cell)
{
    const struct loads_row *of = row;
    const struct evaluated_set *evaluated = of->evaluated;
    const struct set *set = evaluated->set;
    const struct effect *effect = evaluated->effect;
#define cell_load(cell, kg) cell_as_logged(cell, set->weight, kg)
#define COLUMN(since, name, title, quantity, decimals, kind, value, ...) cell_##kind(cell++, value);
#include "columns/loads.def"
#undef cell_load
}

/* These two columns are only in a sheet, which can be read back: the load as a log would write it, and the bodyweight
 * that it may include. */
static void get_load(const void *row, struct cell *cell)
{
    const struct loads_row *of = row;
    const struct set *set = of->evaluated->set;
    const struct load whole = load_of_both(set->weight, set->ar);
    cell_text(cell, load_print(of->scratch, &whole));
}

static void get_bodyweight(const void *row, struct cell *cell)
{
    cell_number(cell, ((const struct loads_row *)row)->evaluated->set->bodyweight_kg);
}

static const struct column columns[] = {
#define COLUMN(since, name, title, quantity, decimals, ...) {name, title, QUANTITY_##quantity, decimals, get_set},
#include "columns/loads.def"
    {"load", NULL, QUANTITY_PLAIN, 0, get_load},
    {"bodyweight_kg", NULL, QUANTITY_LOAD, 1, get_bodyweight},
};
#define ALL_COLUMNS (sizeof columns / sizeof *columns)
#define TABLE_COLUMNS (ALL_COLUMNS - 2)

struct columns loads_columns(const struct options *options)
{
    (void)options;
    return (struct columns){columns, TABLE_COLUMNS};
}

static void put_sets(struct table_writer *writer, const struct training *training, bool for_people)
{
    struct loads_row row = {.log = training->log, .scratch = arena_new(), .for_people = for_people};
    for (size_t i = 0; i < training->count; i++) {
        row.evaluated = &training->sets[i];
        assumptions_print(row.assumed, row.evaluated->assumed);
        one_rm_print(row.from, &row.evaluated->one_rm);
        table_row(writer, &row);
        arena_reset(row.scratch);
    }
    arena_free(row.scratch);
}

void loads_table(struct session *session, struct output *output)
{
    struct table_style style = session_style(session, output);
    struct table_writer *writer = table_open(session->arena, output, columns, style.sink ? ALL_COLUMNS : TABLE_COLUMNS,
                                             &style);
    put_sets(writer, session->training, style.format == FORMAT_TEXT);
    table_close(writer);
}

struct loads
{
    struct table_writer *writer; /* NULL: the output cannot be written */
    bool for_people;
};

static void put_lifter(void *context, struct arena *arena, const struct training *training, struct output *part)
{
    const struct loads *loads = context;
    if (loads->writer)
        put_sets(part ? table_part(arena, part, loads->writer) : loads->writer, training, loads->for_people);
}

static void show_by_lifter(struct session *session)
{
    struct output *output = session_output(session);
    struct table_style style = output ? session_style(session, output) : (struct table_style){0};
    struct loads loads = {.for_people = style.format == FORMAT_TEXT};
    if (output)
        loads.writer = table_open(session->arena, output, columns, TABLE_COLUMNS, &style);
    session_each_lifter(session, loads.for_people ? NULL : output, put_lifter, &loads);
    if (output)
        table_close(loads.writer);
    session_commit(session, output);
}

static void show_whole(struct session *session)
{
    struct output *output = session_output(session);
    if (!output)
        return;
    loads_table(session, output);
    session_commit(session, output);
}

enum exit_status run_loads(struct arena *arena, const struct options *options)
{
    struct session session;
    if (options->strict) { /* --strict counts findings, which need all sets at once */
        session_open(&session, arena, options, false);
        show_whole(&session);
    } else {
        session_open_by_lifter(&session, arena, options, false);
        show_by_lifter(&session);
    }
    return session_close(&session);
}
