#include "commands/waves.h"

#include "commands/command.h"

#include "analysis/statistics/slopes.h"
#include "analysis/waves.h"
#include "commands/plan/waves_plan.h"
#include "commands/tables.h"
#include "commands/waves_verdicts.h"

#include <stddef.h>
#include <string.h>

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

/* --- where text is too narrow ------------------------------------------------------------------------------------------ */

#define USUAL_WIDTH 80

static size_t place_of(const char *name)
{
    size_t i = 0;
    while (strcmp(columns[i].name, name) != 0)
        i++;
    return i;
}

static bool one_of_all(const struct waves *waves, size_t row_member)
{
    for (size_t i = 1; i < waves->count; i++)
        if (strcmp(*(const char *const *)((const char *)&waves->weeks[i] + row_member),
                   *(const char *const *)((const char *)waves->weeks + row_member)) != 0)
            return false;
    return true;
}

/* What text leaves out first where it is too narrow: what is the same in every row, and what can be worked out from the
 * rest. */
static size_t spare_columns(struct arena *arena, const struct waves *waves, const size_t **spare)
{
    static const char *const names[] = {"over_volume_kg", "over_straight_kg", "volume_mean_kg", "sets",
                                        "step",           "straight_share",   "lifts",          "share",
                                        "over_bottom_kg"};
    size_t *places = ARENA_ARRAY(arena, size_t, sizeof names / sizeof *names + 2), count = 0;
    if (one_of_all(waves, offsetof(struct wave_week, lifter)))
        places[count++] = place_of("lifter");
    if (one_of_all(waves, offsetof(struct wave_week, lift)))
        places[count++] = place_of("lift");
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        places[count++] = place_of(names[i]);
    *spare = places;
    return count;
}

static void show_weeks(struct session *session, const struct waves *waves)
{
    struct output *output = session_output(session);
    if (!output)
        return;
    struct table_style style = session_style(session, output);
    if (style.format == FORMAT_TEXT && session->options->wide) {
        style.width = 0;
    } else if (style.format == FORMAT_TEXT) {
        style.width = style.width ? style.width : USUAL_WIDTH;
        style.spare_count = spare_columns(session->arena, waves, &style.spare);
    }
    struct table_writer *writer = table_open(session->arena, output, columns, sizeof columns / sizeof *columns, &style);
    for (size_t i = 0; i < waves->count; i++)
        table_row(writer, &waves->weeks[i]);
    table_close(writer);
    session_commit(session, output);
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
        show_weeks(&session, waves);
    }
    return session_close(&session);
}
