/* trend: one row a week of each lifter and lift. */
#include "commands/command.h"

#include "analysis/slopes.h"
#include "analysis/trend.h"
#include "commands/tables.h"
#include "commands/trend_velocity.h"

#define GET(name, ...)                                         \
    static void get_##name(const void *row, struct cell *cell) \
    {                                                          \
        const struct trend_week *week = row;                   \
        __VA_ARGS__;                                           \
    }

GET(lifter, cell_text(cell, week->lifter))
GET(lift, cell_text(cell, week->lift))
GET(week, cell_week(cell, week->week))
GET(days, cell_count(cell, (long)week->days))
GET(sets, cell_count(cell, (long)week->sets))
GET(lifts, cell_count(cell, (long)week->lifts))
GET(volume_straight, cell_number(cell, week->volume_kg[LOAD_STRAIGHT]))
GET(volume_bottom, cell_number(cell, week->volume_kg[LOAD_BOTTOM]))
GET(volume_top, cell_number(cell, week->volume_kg[LOAD_TOP]))
GET(volume_mean, cell_number(cell, week->volume_kg[LOAD_MEAN]))
GET(intensity_straight, cell_number(cell, week->intensity[LOAD_STRAIGHT]))
GET(intensity_mean, cell_number(cell, week->intensity[LOAD_MEAN]))
GET(peak_straight, cell_number(cell, week->peak_kg[LOAD_STRAIGHT]))
GET(peak_bottom, cell_number(cell, week->peak_kg[LOAD_BOTTOM]))
GET(peak_top, cell_number(cell, week->peak_kg[LOAD_TOP]))
GET(inol, cell_number(cell, week->inol))
GET(zone_0, cell_number(cell, week->zone_lifts[0]))
GET(zone_1, cell_number(cell, week->zone_lifts[1]))
GET(zone_2, cell_number(cell, week->zone_lifts[2]))
GET(zone_3, cell_number(cell, week->zone_lifts[3]))
GET(zone_4, cell_number(cell, week->zone_lifts[4]))
GET(monotony, cell_number(cell, week->monotony))
GET(strain, cell_number(cell, week->strain))
GET(acute, cell_number(cell, week->acute_kg))
GET(chronic, cell_number(cell, week->chronic_kg))

static const struct column columns[] = {
    {"lifter", "lifter", QUANTITY_PLAIN, 0, get_lifter},
    {"lift", "lift", QUANTITY_PLAIN, 0, get_lift},
    {"week", "week", QUANTITY_PLAIN, 0, get_week},
    {"days", "days", QUANTITY_PLAIN, 0, get_days},
    {"sets", "sets", QUANTITY_PLAIN, 0, get_sets},
    {"lifts", "lifts", QUANTITY_PLAIN, 0, get_lifts},
    {"volume_straight_kg", "volume kg", QUANTITY_LOAD, 0, get_volume_straight},
    {"volume_bottom_kg", NULL, QUANTITY_LOAD, 0, get_volume_bottom},
    {"volume_top_kg", NULL, QUANTITY_LOAD, 0, get_volume_top},
    {"volume_mean_kg", "with AR kg", QUANTITY_LOAD, 0, get_volume_mean},
    {"intensity_straight", "straight", QUANTITY_SHARE, 1, get_intensity_straight},
    {"intensity_mean", "mean", QUANTITY_SHARE, 1, get_intensity_mean},
    {"peak_straight_kg", "peak kg", QUANTITY_LOAD, 1, get_peak_straight},
    {"peak_bottom_kg", NULL, QUANTITY_LOAD, 1, get_peak_bottom},
    {"peak_top_kg", "peak top kg", QUANTITY_LOAD, 1, get_peak_top},
    {"inol", "INOL", QUANTITY_PLAIN, 2, get_inol},
    {"lifts_to_55", NULL, QUANTITY_PLAIN, 0, get_zone_0},
    {"lifts_55_70", NULL, QUANTITY_PLAIN, 0, get_zone_1},
    {"lifts_70_80", NULL, QUANTITY_PLAIN, 0, get_zone_2},
    {"lifts_80_90", NULL, QUANTITY_PLAIN, 0, get_zone_3},
    {"lifts_90_up", NULL, QUANTITY_PLAIN, 0, get_zone_4},
    {"monotony", NULL, QUANTITY_PLAIN, 2, get_monotony},
    {"strain", NULL, QUANTITY_LOAD, 0, get_strain},
    {"acute_kg", "acute kg", QUANTITY_LOAD, 0, get_acute},
    {"chronic_kg", "chronic kg", QUANTITY_LOAD, 0, get_chronic},
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
    double scale; /* of loads to the output's unit; 1 for fractions */
};

#define SLOPE(name, ...)                                             \
    static void get_slope_##name(const void *row, struct cell *cell) \
    {                                                                \
        const struct slope_row *r = row;                             \
        const struct trend_slope *slope = &r->slope;                 \
        (void)slope;                                                 \
        __VA_ARGS__;                                                 \
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
    bool in_parts = writer && style.format != FORMAT_TEXT; /* which is laid out as a whole */
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

enum exit_status run_trend(struct arena *arena, const struct options *options)
{
    struct session session;
    if (options->velocity || options->speed_loss || options->slopes || options->strict) { /* strict: findings need all */
        session_open(&session, arena, options, false);
        show_whole(&session);
    } else {
        session_open_by_lifter(&session, arena, options);
        show_weeks(&session);
    }
    return session_close(&session);
}
