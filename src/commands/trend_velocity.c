/* trend --velocity and --speed-loss: a lifter's load-velocity line, and the velocity loss of each session. */
#include "commands/trend_velocity.h"

#include "analysis/evaluated_set.h"
#include "analysis/load_velocity.h"

#include <math.h>

/* --- the line at measured velocities ------------------------------------------------------------------------------ */

#define VELOCITY_STEP_MS 0.1

struct velocity_row
{
    const struct velocity_profile *profile;
    double at_ms; /* NAN: the lift has no line */
    struct interval load;
};

#define GET(name, ...)                                                                                                 \
    static void get_##name(const void *item, struct cell *cell)                                                        \
    {                                                                                                                  \
        const struct velocity_row *row = item;                                                                         \
        const struct velocity_profile *profile = row->profile;                                                         \
        (void)profile;                                                                                                 \
        __VA_ARGS__;                                                                                                   \
    }

GET(lifter, cell_text(cell, profile->lifter))
GET(lift, cell_text(cell, profile->lift))
GET(lines, cell_count(cell, (long)profile->lines))
GET(loads, cell_count(cell, (long)profile->loads))
GET(slope, cell_number(cell, profile->fit.slope))
GET(slope_se, cell_number(cell, profile->fit.slope_se))
GET(intercept, cell_number(cell, profile->fit.intercept))
GET(intercept_se, cell_number(cell, profile->fit.intercept_se))
GET(r2, cell_number(cell, profile->fit.r2))
GET(residual, cell_number(cell, profile->fit.residual_sd))
GET(low, cell_number(cell, profile->low_ms))
GET(high, cell_number(cell, profile->high_ms))
GET(at, cell_number(cell, row->at_ms))
GET(load, cell_number(cell, row->load.at))
GET(load_low, cell_number(cell, row->load.low))
GET(load_high, cell_number(cell, row->load.high))
GET(ar_lines, cell_count(cell, (long)profile->ar_lines))
GET(ar_velocity, cell_number(cell, profile->ar_velocity_ms))
GET(ar_mean, cell_number(cell, profile->ar_mean_kg))
GET(ar_over, cell_number(cell, profile->ar_over_kg))

/* Velocities are in m/s; slope_kg is in kg per m/s; load_kg with its 95 % interval is the mean at at_ms. */
static const struct column columns[] = {
    {"lifter", "lifter", QUANTITY_PLAIN, 0, get_lifter},
    {"lift", "lift", QUANTITY_PLAIN, 0, get_lift},
    {"lines", "lines", QUANTITY_PLAIN, 0, get_lines},
    {"loads", "loads", QUANTITY_PLAIN, 0, get_loads},
    {"slope_kg", "kg per m/s", QUANTITY_LOAD, 1, get_slope},
    {"slope_se_kg", "s.e.", QUANTITY_LOAD, 1, get_slope_se},
    {"intercept_kg", NULL, QUANTITY_LOAD, 1, get_intercept},
    {"intercept_se_kg", NULL, QUANTITY_LOAD, 1, get_intercept_se},
    {"r2", "R²", QUANTITY_PLAIN, 3, get_r2},
    {"residual_kg", NULL, QUANTITY_LOAD, 1, get_residual},
    {"low_ms", NULL, QUANTITY_PLAIN, 2, get_low},
    {"high_ms", NULL, QUANTITY_PLAIN, 2, get_high},
    {"at_ms", "at m/s", QUANTITY_PLAIN, 2, get_at},
    {"load_kg", "kg", QUANTITY_LOAD, 1, get_load},
    {"load_low_kg", "95 % from", QUANTITY_LOAD, 1, get_load_low},
    {"load_high_kg", "to", QUANTITY_LOAD, 1, get_load_high},
    {"ar_lines", "AR lines", QUANTITY_PLAIN, 0, get_ar_lines},
    {"ar_velocity_ms", NULL, QUANTITY_PLAIN, 2, get_ar_velocity},
    {"ar_mean_kg", NULL, QUANTITY_LOAD, 1, get_ar_mean},
    {"ar_over_kg", "AR over line kg", QUANTITY_LOAD, 1, get_ar_over},
};

/* One row per tenth of a metre per second within the measured range; if it holds none, the middle. A lift without a
 * line has one row. */
static void put_profile(struct table_writer *writer, const struct velocity_profile *profile)
{
    struct velocity_row row = {profile, NAN, {NAN, NAN, NAN}};
    double first = ceil(profile->low_ms / VELOCITY_STEP_MS - 1e-9),
           last = floor(profile->high_ms / VELOCITY_STEP_MS + 1e-9);
    if (profile->state != VELOCITY_FITTED) {
        table_row(writer, &row);
        return;
    }
    for (double tenth = first; tenth <= last || tenth == first; tenth++) {
        row.at_ms = first <= last ? tenth * VELOCITY_STEP_MS : (profile->low_ms + profile->high_ms) / 2;
        row.load = line_at(&profile->fit, row.at_ms, VELOCITY_CONFIDENCE);
        table_row(writer, &row);
    }
}

struct columns velocity_columns(void)
{
    return COLUMNS_OF(columns);
}

void show_velocity(struct session *session)
{
    size_t count;
    struct output *output = session_output(session);
    if (!output)
        return;
    const struct velocity_profile *profiles = velocity_profiles(session->arena, session->training, &count);
    struct table_style style = session_style(session, output);
    struct table_writer *writer = table_open(session->arena, output, columns, sizeof columns / sizeof *columns, &style);
    for (size_t i = 0; i < count; i++)
        put_profile(writer, &profiles[i]);
    table_close(writer);
    session_commit(session, output);
}

/* --- sessions ------------------------------------------------------------------------------------------------------------- */

#define LOSS(name, ...)                                                                                                \
    static void get_loss_##name(const void *item, struct cell *cell)                                                   \
    {                                                                                                                  \
        const struct speed_loss *loss = item;                                                                          \
        __VA_ARGS__;                                                                                                   \
    }

LOSS(lifter, cell_text(cell, loss->first->lifter))
LOSS(lift, cell_text(cell, loss->first->lift))
LOSS(date, cell_day(cell, loss->first->set->day))
LOSS(straight, cell_number(cell, loss->first->effect->straight_kg))
LOSS(mean, cell_number(cell, known_load(loss->first, LOAD_MEAN)))
LOSS(ar, cell_text(cell, loss->first->set->ar->ar))
LOSS(lines, cell_count(cell, (long)loss->lines))
LOSS(first, cell_number(cell, loss->first->set->velocity_ms))
LOSS(last, cell_number(cell, loss->last->set->velocity_ms))
LOSS(slowest, cell_number(cell, loss->slowest_ms))
LOSS(fastest, cell_number(cell, loss->fastest_ms))
LOSS(loss, cell_number(cell, loss->loss))

static const struct column loss_columns[] = {
    {"lifter", "lifter", QUANTITY_PLAIN, 0, get_loss_lifter},
    {"lift", "lift", QUANTITY_PLAIN, 0, get_loss_lift},
    {"date", "date", QUANTITY_PLAIN, 0, get_loss_date},
    {"straight_kg", "straight kg", QUANTITY_LOAD, 1, get_loss_straight},
    {"mean_kg", "mean kg", QUANTITY_LOAD, 1, get_loss_mean},
    {"ar", "chain and band", QUANTITY_GEAR, 0, get_loss_ar},
    {"lines", "lines", QUANTITY_PLAIN, 0, get_loss_lines},
    {"first_ms", "first m/s", QUANTITY_PLAIN, 2, get_loss_first},
    {"last_ms", "last m/s", QUANTITY_PLAIN, 2, get_loss_last},
    {"slowest_ms", NULL, QUANTITY_PLAIN, 2, get_loss_slowest},
    {"fastest_ms", NULL, QUANTITY_PLAIN, 2, get_loss_fastest},
    {"loss", "loss", QUANTITY_SHARE, 1, get_loss_loss},
};

struct columns speed_loss_columns(void)
{
    return COLUMNS_OF(loss_columns);
}

void show_speed_loss(struct session *session)
{
    size_t count;
    const struct speed_loss *losses = speed_losses(session->arena, session->training, &count);
    session_table(session, loss_columns, sizeof loss_columns / sizeof *loss_columns, losses, count, sizeof *losses);
}
