#include "commands/waves.h"

#include "commands/command.h"

#include "analysis/statistics/slopes.h"
#include "analysis/waves.h"
#include "commands/plan/waves_plan.h"
#include "commands/tables.h"
#include "commands/waves_verdicts.h"

#define GET(name, ...)                                                                                                 \
    static void get_##name(const void *row, struct cell *cell)                                                         \
    {                                                                                                                  \
        const struct wave_week *week = row;                                                                            \
        __VA_ARGS__;                                                                                                   \
    }

GET(lifter, cell_text(cell, week->lifter))
GET(lift, cell_text(cell, week->lift))
GET(focus, cell_text(cell, focus_name(week->focus)))
GET(wave, cell_count(cell, (long)week->wave))
GET(step, cell_count(cell, (long)week->step))
GET(week, cell_week(cell, week->week))
GET(straight, cell_number(cell, week->load_kg[LOAD_STRAIGHT]))
GET(straight_share, cell_number(cell, week->straight_share))
GET(bottom, cell_number(cell, week->load_kg[LOAD_BOTTOM]))
GET(top, cell_number(cell, week->load_kg[LOAD_TOP]))
GET(mean, cell_number(cell, week->load_kg[LOAD_MEAN]))
GET(share, cell_number(cell, week->share))
GET(sets, cell_count(cell, (long)week->sets))
GET(lifts, cell_count(cell, (long)week->lifts))
GET(volume_straight, cell_number(cell, week->volume_kg[LOAD_STRAIGHT]))
GET(volume_mean, cell_number(cell, week->volume_kg[LOAD_MEAN]))
GET(ar, cell_text(cell, week->ar))
GET(over_straight, cell_number(cell, week->over_kg[LOAD_STRAIGHT]))
GET(over_bottom, cell_number(cell, week->over_kg[LOAD_BOTTOM]))
GET(over_top, cell_number(cell, week->over_kg[LOAD_TOP]))
GET(over_mean, cell_number(cell, week->over_kg[LOAD_MEAN]))
GET(over_volume, cell_number(cell, week->over_volume_kg))
GET(step_points, cell_number(cell, week->step_points))
GET(over_ar, cell_number(cell, week->over_ar_kg))
GET(over_weight, cell_number(cell, week->over_weight_kg))
GET(first_day, cell_day(cell, week->first_day))
GET(last_day, cell_day(cell, week->last_day))
GET(set_aside, if (week->aside) cell_text(cell, "yes"))

static const struct column columns[] = {
    {"lifter", "lifter", QUANTITY_PLAIN, 0, get_lifter},
    {"lift", "lift", QUANTITY_PLAIN, 0, get_lift},
    {"focus", "focus", QUANTITY_PLAIN, 0, get_focus},
    {"wave", "wave", QUANTITY_PLAIN, 0, get_wave},
    {"step", "step", QUANTITY_PLAIN, 0, get_step},
    {"week", "week", QUANTITY_PLAIN, 0, get_week},
    {"straight_kg", "straight kg", QUANTITY_LOAD, 1, get_straight},
    {"straight_share", "of 1RM", QUANTITY_SHARE, 1, get_straight_share},
    {"bottom_kg", "bottom kg", QUANTITY_LOAD, 1, get_bottom},
    {"top_kg", "top kg", QUANTITY_LOAD, 1, get_top},
    {"mean_kg", NULL, QUANTITY_LOAD, 1, get_mean},
    {"share", "AR share", QUANTITY_SHARE, 1, get_share},
    {"sets", "sets", QUANTITY_PLAIN, 0, get_sets},
    {"lifts", "reps", QUANTITY_PLAIN, 0, get_lifts},
    {"volume_straight_kg", NULL, QUANTITY_LOAD, 0, get_volume_straight},
    {"volume_mean_kg", "volume kg", QUANTITY_LOAD, 0, get_volume_mean},
    {"ar", "chain and band", QUANTITY_PLAIN, 0, get_ar},
    {"over_straight_kg", "Δ straight kg", QUANTITY_LOAD, 1, get_over_straight},
    {"over_bottom_kg", "Δ bottom kg", QUANTITY_LOAD, 1, get_over_bottom},
    {"over_top_kg", "Δ top kg", QUANTITY_LOAD, 1, get_over_top},
    {"over_mean_kg", NULL, QUANTITY_LOAD, 1, get_over_mean},
    {"over_volume_kg", "Δ volume kg", QUANTITY_LOAD, 0, get_over_volume},
    {"step_points", NULL, QUANTITY_PLAIN, 3, get_step_points},
    {"over_ar_kg", NULL, QUANTITY_LOAD, 1, get_over_ar},
    {"over_weight_kg", NULL, QUANTITY_LOAD, 1, get_over_weight},
    {"first_day", NULL, QUANTITY_PLAIN, 0, get_first_day},
    {"last_day", NULL, QUANTITY_PLAIN, 0, get_last_day},
    {"set_aside", NULL, QUANTITY_PLAIN, 0, get_set_aside},
};

void waves_table(struct session *session, struct output *output)
{
    const struct waves *waves = session_waves(session);
    session_rows(session, output, columns, sizeof columns / sizeof *columns, waves->weeks, waves->count,
                 sizeof *waves->weeks);
}

/* --- slopes --------------------------------------------------------------------------------------------------------------- */

#define SLOPE(name, ...)                                                                                               \
    static void get_slope_##name(const void *row, struct cell *cell)                                                   \
    {                                                                                                                  \
        const struct wave_slope *slope = row;                                                                          \
        __VA_ARGS__;                                                                                                   \
    }

SLOPE(lifter, cell_text(cell, slope->lifter))
SLOPE(lift, cell_text(cell, slope->lift))
SLOPE(focus, cell_text(cell, focus_name(slope->focus)))
SLOPE(measure, cell_text(cell, slope->measure))
SLOPE(waves, cell_count(cell, (long)slope->fit.points))
SLOPE(slope, cell_number(cell, slope->fit.slope))
SLOPE(low, cell_number(cell, slope->fit.low))
SLOPE(high, cell_number(cell, slope->fit.high))
SLOPE(p, cell_number(cell, slope->fit.p))
SLOPE(direction, cell_text(cell, slope_direction(&slope->fit)))

static const struct column slope_columns[] = {
    {"lifter", "lifter", QUANTITY_PLAIN, 0, get_slope_lifter},
    {"lift", "lift", QUANTITY_PLAIN, 0, get_slope_lift},
    {"focus", "focus", QUANTITY_PLAIN, 0, get_slope_focus},
    {"measure", "measure", QUANTITY_LOAD, 0, get_slope_measure},
    {"waves", "waves", QUANTITY_PLAIN, 0, get_slope_waves},
    {"slope", "slope/wave", QUANTITY_LOAD, 2, get_slope_slope},
    {"low", "low", QUANTITY_LOAD, 2, get_slope_low},
    {"high", "high", QUANTITY_LOAD, 2, get_slope_high},
    {"p", "p", QUANTITY_PLAIN, 4, get_slope_p},
    {"direction", "direction", QUANTITY_PLAIN, 0, get_slope_direction},
};

struct columns waves_columns(const struct options *options)
{
    if (options->plan)
        return planned_columns();
    if (options->verdicts)
        return verdict_columns();
    return options->slopes ? COLUMNS_OF(slope_columns) : COLUMNS_OF(columns);
}

enum exit_status run_waves(struct arena *arena, const struct options *options)
{
    struct session session;
    session_open(&session, arena, options, false);
    const struct waves *waves = session_waves(&session);
    if (options->plan) {
        show_planned(&session, waves);
    } else if (options->verdicts) {
        show_verdicts(&session);
    } else if (options->slopes) {
        size_t count;
        const struct wave_slope *slopes = wave_slopes(arena, waves, session.training->options.today, &count);
        session_table(&session, slope_columns, sizeof slope_columns / sizeof *slope_columns, slopes, count,
                      sizeof *slopes);
    } else {
        session_table(&session, columns, sizeof columns / sizeof *columns, waves->weeks, waves->count,
                      sizeof *waves->weeks);
    }
    return session_close(&session);
}
