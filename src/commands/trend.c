#include "commands/trend.h"

#include "commands/command.h"

#include "analysis/statistics/slopes.h"
#include "analysis/trend.h"
#include "commands/session/session_lifters.h"
#include "commands/tables.h"
#include "commands/trend_velocity.h"

static void get_week(const void *row, struct cell *cell)
{
    const struct trend_week *week = row;
#define COLUMN(since, name, title, quantity, decimals, kind, value, ...) cell_##kind(cell++, value);
#include "columns/trend.def"
}

static const struct column columns[] = {
#define COLUMN(since, name, title, quantity, decimals, ...) {name, title, QUANTITY_##quantity, decimals, get_week},
#include "columns/trend.def"
};

void trend_table(struct session *session, struct output *output)
{
    size_t count;
    const struct trend_week *weeks = session_weeks(session, &count);
    session_rows(session, output, columns, sizeof columns / sizeof *columns, weeks, count, sizeof *weeks);
}

/* --- slopes --------------------------------------------------------------------------------------------------------------- */

struct slope_row
{
    struct trend_slope slope;
    double scale; /* from kg to the output's unit; 1 for fractions */
};

#define SLOPE(name, ...)                                                                                               \
    static void get_slope_##name(const void *row, struct cell *cell)                                                   \
    {                                                                                                                  \
        const struct slope_row *r = row;                                                                               \
        const struct trend_slope *slope = &r->slope;                                                                   \
        (void)slope;                                                                                                   \
        __VA_ARGS__;                                                                                                   \
    }

SLOPE(lifter, cell_text(cell, slope->lifter))
SLOPE(lift, cell_text(cell, slope->lift))
SLOPE(measure, cell_text(cell, slope->measure))
SLOPE(weeks, cell_count(cell, (long)slope->fit.points))
SLOPE(slope, cell_number(cell, slope->fit.slope * r->scale))
SLOPE(low, cell_number(cell, slope->fit.low * r->scale))
SLOPE(high, cell_number(cell, slope->fit.high * r->scale))
SLOPE(p, cell_number(cell, slope->fit.p))
SLOPE(direction, cell_text(cell, slope_direction(&slope->fit)))
SLOPE(median, cell_number(cell, slope->fit.median * r->scale))
SLOPE(percent, cell_number(cell, slope->percent_4w))
SLOPE(recent, cell_number(cell, slope->recent_12 * r->scale))
SLOPE(before, cell_number(cell, slope->before_12 * r->scale))

static const struct column slope_columns[] = {
    {"lifter", "lifter", QUANTITY_PLAIN, 0, get_slope_lifter},
    {"lift", "lift", QUANTITY_PLAIN, 0, get_slope_lift},
    {"measure", "measure", QUANTITY_LOAD, 0, get_slope_measure},
    {"weeks", "weeks", QUANTITY_PLAIN, 0, get_slope_weeks},
    {"slope", "slope/week", QUANTITY_PLAIN, 3, get_slope_slope},
    {"low", "low", QUANTITY_PLAIN, 3, get_slope_low},
    {"high", "high", QUANTITY_PLAIN, 3, get_slope_high},
    {"p", "p", QUANTITY_PLAIN, 4, get_slope_p},
    {"direction", "direction", QUANTITY_PLAIN, 0, get_slope_direction},
    {"median", "median", QUANTITY_PLAIN, 2, get_slope_median},
    {"percent_4w", "%/4 weeks", QUANTITY_PLAIN, 1, get_slope_percent},
    {"recent_12", "newest 12", QUANTITY_PLAIN, 2, get_slope_recent},
    {"before_12", "12 before", QUANTITY_PLAIN, 2, get_slope_before},
};

static void show_slopes(struct session *session, const struct trend_week *weeks, size_t week_count)
{
    size_t count;
    const struct trend_slope *slopes = trend_slopes(session->arena, session->training, weeks, week_count, &count);
    struct slope_row *rows = ARENA_ARRAY(session->arena, struct slope_row, count);
    for (size_t i = 0; i < count; i++)
        rows[i] = (struct slope_row){slopes[i], slopes[i].in_kg ? kg_to(1, session->unit) : 1};
    session_table(session, slope_columns, sizeof slope_columns / sizeof *slope_columns, rows, count, sizeof *rows);
}

static void put_weeks(void *context, struct arena *arena, const struct training *training, struct output *part)
{
    struct table_writer *whole = context, *writer = part ? table_part(arena, part, whole) : whole;
    size_t count = 0;
    const struct trend_week *weeks = writer ? trend_make(arena, training, &count) : NULL;
    for (size_t i = 0; i < count; i++)
        table_row(writer, &weeks[i]);
}

static void show_weeks(struct session *session)
{
    struct output *output = session_output(session);
    struct table_style style = output ? session_style(session, output) : (struct table_style){0};
    struct table_writer *writer =
        output ? table_open(session->arena, output, columns, sizeof columns / sizeof *columns, &style) : NULL;
    bool in_parts = writer && style.format != FORMAT_TEXT; /* text is laid out as a whole */
    session_each_lifter(session, in_parts ? output : NULL, put_weeks, writer);
    if (writer)
        table_close(writer);
    session_commit(session, output);
}

static void show_whole(struct session *session)
{
    size_t count;
    const struct trend_week *weeks = session_weeks(session, &count);
    if (session->options->velocity)
        show_velocity(session);
    else if (session->options->speed_loss)
        show_speed_loss(session);
    else if (session->options->slopes)
        show_slopes(session, weeks, count);
    else
        session_table(session, columns, sizeof columns / sizeof *columns, weeks, count, sizeof *weeks);
}

struct columns trend_columns(const struct options *options)
{
    if (options->velocity)
        return velocity_columns();
    if (options->speed_loss)
        return speed_loss_columns();
    return options->slopes ? COLUMNS_OF(slope_columns) : COLUMNS_OF(columns);
}

enum exit_status run_trend(struct arena *arena, const struct options *options)
{
    struct session session;
    if (options->velocity || options->speed_loss || options->slopes ||
        options->strict) { /* strict counts findings, which need all */
        session_open(&session, arena, options, false);
        show_whole(&session);
    } else {
        session_open_by_lifter(&session, arena, options, true);
        session.shows_no_focus = true;
        show_weeks(&session);
    }
    return session_close(&session);
}
