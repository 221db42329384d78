#include "commands/waves.h"

#include "commands/command.h"

#include "analysis/statistics/slopes.h"
#include "analysis/waves.h"
#include "commands/plan/waves_plan.h"
#include "commands/tables.h"
#include "commands/waves_verdicts.h"

static void get_week(const void *row, struct cell *cell)
{
    const struct wave_week *week = row;
#define COLUMN(since, name, title, quantity, decimals, kind, value, ...) cell_##kind(cell++, value);
#include "columns/waves.def"
}

static const struct column columns[] = {
#define COLUMN(since, name, title, quantity, decimals, ...) {name, title, QUANTITY_##quantity, decimals, get_week},
#include "columns/waves.def"
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
