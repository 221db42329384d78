#include "commands/report/report_velocity.h"

#include "commands/report/report_text.h"

#include "analysis/load_velocity.h"
#include "base/number.h"

#include <math.h>
#include <string.h>

struct velocity_line
{
    const struct velocity_profile *profile;
    const char *name, *at_low, *at_high;
    double loss; /* median of the lift's sessions of speed work; NAN: none */
};

#define LINE(name, ...)                                                                                                \
    static void get_line_##name(const void *item, struct cell *cell)                                                   \
    {                                                                                                                  \
        const struct velocity_line *line = item;                                                                       \
        __VA_ARGS__;                                                                                                   \
    }

LINE(name, cell_text(cell, line->name))
LINE(slope, cell_number(cell, line->profile->fit.slope / 10))
LINE(r2, cell_number(cell, line->profile->fit.r2))
LINE(at_low, cell_text(cell, line->at_low))
LINE(at_high, cell_text(cell, line->at_high))
LINE(ar_over, cell_number(cell, line->profile->ar_over_kg))
LINE(loss, cell_number(cell, line->loss))

static const struct column line_columns[] = {
    {"lift", "lift", QUANTITY_PLAIN, 0, get_line_name},
    {"slope_kg", "per 0.1 m/s", QUANTITY_LOAD, 1, get_line_slope},
    {"r2", "R²", QUANTITY_PLAIN, 2, get_line_r2},
    {"at_low", "slowest", QUANTITY_PLAIN, 0, get_line_at_low},
    {"at_high", "fastest", QUANTITY_PLAIN, 0, get_line_at_high},
    {"ar_over_kg", "AR over", QUANTITY_LOAD, 1, get_line_ar_over},
    {"loss", "velocity loss", QUANTITY_SHARE, 0, get_line_loss},
};

/* "0.32: 140 ±5" */
static const char *load_at(const struct report *report, const struct velocity_profile *profile, double velocity_ms)
{
    char velocity[32], load[32], half[32];
    struct interval interval = line_at(&profile->fit, velocity_ms, VELOCITY_CONFIDENCE);
    if (isnan(interval.at))
        return "";
    number_fixed(velocity, sizeof velocity, velocity_ms, 2);
    number_fixed(load, sizeof load, kg_to(interval.at, report->session->unit), 0);
    number_fixed(half, sizeof half, kg_to(interval.high - interval.at, report->session->unit), 0);
    return arena_printf(report->session->arena, "%s: %s \xC2\xB1%s", velocity, load, half);
}

static double median_loss(struct arena *arena, const struct speed_loss *losses, size_t count,
                          const struct velocity_profile *profile)
{
    double *values = ARENA_ARRAY(arena, double, count);
    size_t found = 0;
    for (size_t i = 0; i < count; i++)
        if (!strcmp(losses[i].first->lifter, profile->lifter) && !strcmp(losses[i].first->lift, profile->lift))
            values[found++] = losses[i].loss;
    return median_of(values, found);
}

/* Lifts that have a load-velocity line, or velocity loss. */
static struct velocity_line *velocity_lines(const struct report *report, const char *lifter, size_t *count,
                                            size_t *measured)
{
    struct session *session = report->session;
    size_t loss_count;
    const struct velocity_profile *profiles = velocity_profiles(session->arena, session->training, measured);
    const struct speed_loss *losses = speed_losses(session->arena, session->training, &loss_count);
    struct velocity_line *lines = ARENA_ARRAY(session->arena, struct velocity_line, *measured);
    *count = 0;
    for (size_t i = 0; i < *measured; i++) {
        const struct velocity_profile *profile = &profiles[i];
        if (lifter && strcmp(lifter, profile->lifter))
            continue;
        struct velocity_line line = {.profile = profile,
                                     .loss = median_loss(session->arena, losses, loss_count, profile)};
        line.name = series_name(report, profile->lifter, profile->lift, FOCUS_UNSAID);
        line.at_low = load_at(report, profile, profile->low_ms);
        line.at_high = load_at(report, profile, profile->high_ms);
        if (profile->state == VELOCITY_FITTED || !isnan(line.loss))
            lines[(*count)++] = line;
    }
    return lines;
}

static const char no_line[] = "Velocities were logged, but no lift has them at three straight weights, which is what "
                              "a load-velocity line "
                              "needs, nor in more than one line of a session, which velocity loss needs.";

#define EXPLAINED                                                                                                      \
    "The lifter's own load-velocity line, in %s by mean velocity in m/s, from straight weights: its slope, and the "   \
    "load "                                                                                                            \
    "at the slowest and the fastest velocity measured, \xC2\xB1 what covers 19 cases in 20. Sets with chain "          \
    "or band are not part of it: \"AR over\" is how far their mean load is above the line. Velocity loss: first set "  \
    "to last, the median "                                                                                             \
    "over sessions of speed work."

struct report_rows report_velocity_rows(const struct report *report, const char *lifter)
{
    size_t count, measured;
    const struct velocity_line *lines = velocity_lines(report, lifter, &count, &measured);
    return (struct report_rows){line_columns, sizeof line_columns / sizeof *line_columns, lines, count, sizeof *lines};
}

void report_velocity(const struct report *report)
{
    struct arena *arena = report->session->arena;
    size_t count, measured;
    const struct velocity_line *lines = velocity_lines(report, NULL, &count, &measured);
    if (!measured)
        return;
    report_heading(report, "Load and velocity");
    if (!count) {
        report_paragraph(report, no_line, 2);
        output_text(report->output, "\n");
        return;
    }
    report_paragraph(report, arena_printf(arena, EXPLAINED, mass_unit_name(report->session->unit)), 2);
    output_text(report->output, "\n");
    report_table(report, &(struct report_rows){line_columns, sizeof line_columns / sizeof *line_columns, lines, count,
                                               sizeof *lines});
}
