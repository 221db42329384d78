#include "commands/report/report_weeks.h"

#include "commands/report/report_text.h"

#include "base/number.h"
#include "writing/text/sparkline.h"

#include <math.h>
#include <string.h>

#define SPARK_WEEKS 16 /* the newest, a column each */

struct series /* the weeks of one lifter and lift */
{
    const struct trend_week *weeks;
    size_t count;
    const struct trend_slope *volume; /* NULL: none */
    const char *name, *spark, *trend;
};

static void get_series_name(const void *row, struct cell *cell)
{
    cell_text(cell, ((const struct series *)row)->name);
}

static void get_series_weeks(const void *row, struct cell *cell)
{
    cell_count(cell, (long)((const struct series *)row)->count);
}

static void get_series_spark(const void *row, struct cell *cell)
{
    cell_text(cell, ((const struct series *)row)->spark);
}

static void get_series_recent(const void *row, struct cell *cell)
{
    const struct series *series = row;
    if (series->volume)
        cell_number(cell, series->volume->recent_12);
}

static void get_series_before(const void *row, struct cell *cell)
{
    const struct series *series = row;
    if (series->volume)
        cell_number(cell, series->volume->before_12);
}

static void get_series_intensity(const void *row, struct cell *cell)
{
    const struct series *series = row;
    for (size_t i = series->count; i-- > 0;) {
        if (isnan(series->weeks[i].intensity[LOAD_MEAN]))
            continue;
        cell_number(cell, series->weeks[i].intensity[LOAD_MEAN]);
        return;
    }
}

static void get_series_trend(const void *row, struct cell *cell)
{
    cell_text(cell, ((const struct series *)row)->trend);
}

static const struct column series_columns[] = {
    {"lift", "lift", QUANTITY_PLAIN, 0, get_series_name},
    {"weeks", "weeks", QUANTITY_PLAIN, 0, get_series_weeks},
    {"volume", "newest 16 weeks", QUANTITY_SERIES, 0, get_series_spark},
    {"recent_kg", "newest 12", QUANTITY_LOAD, 0, get_series_recent},
    {"before_kg", "12 before", QUANTITY_LOAD, 0, get_series_before},
    {"trend", "trend", QUANTITY_PLAIN, 0, get_series_trend},
    {"intensity", "of 1RM", QUANTITY_SHARE, 0, get_series_intensity},
};

static const char *trend_words(struct arena *arena, const struct trend_slope *slope)
{
    if (!slope || isnan(slope->percent_4w) || !*slope_direction(&slope->fit))
        return "";
    char percent[32];
    number_fixed(percent, sizeof percent, fabs(slope->percent_4w), 1);
    return arena_printf(arena, "%s %s%%/4 wk", slope_direction(&slope->fit), percent);
}

static struct series series_make(const struct report *report, const struct trend_week *weeks, size_t count)
{
    struct arena *arena = report->session->arena;
    struct series series = {.weeks = weeks, .count = count};
    series.volume = trend_volume_slope_find(report->slopes, report->slope_count, weeks);
    double *volumes = ARENA_ARRAY(arena, double, count);
    for (size_t i = 0; i < count; i++)
        volumes[i] = weeks[i].volume_kg[LOAD_MEAN];
    size_t older = count > SPARK_WEEKS ? count - SPARK_WEEKS : 0;
    series.spark = sparkline(arena, volumes + older, count - older, &(struct sparkline_style){.from_zero = true});
    series.trend = trend_words(arena, series.volume);
    series.name = weeks->all_lifts ? series_name(report, weeks->lifter, "all lifts", FOCUS_UNSAID)
                                   : series_name(report, weeks->lifter, weeks->lift, FOCUS_UNSAID);
    return series;
}

struct report_rows report_week_rows(const struct report *report, const char *lifter)
{
    struct arena *arena = report->session->arena;
    LIST(struct series) list = {0};
    for (size_t i = 0, end; i < report->week_count; i = end) {
        for (end = i; end < report->week_count && report->weeks[end].all_lifts == report->weeks[i].all_lifts &&
                      !strcmp(report->weeks[end].lift, report->weeks[i].lift) &&
                      !strcmp(report->weeks[end].lifter, report->weeks[i].lifter);
             end++)
            ;
        if (!lifter || !strcmp(lifter, report->weeks[i].lifter))
            *LIST_ADD(arena, &list) = series_make(report, &report->weeks[i], end - i);
    }
    return (struct report_rows){series_columns, sizeof series_columns / sizeof *series_columns, list.items, list.count,
                                sizeof *list.items};
}

void report_weeks(const struct report *report)
{
    struct arena *arena = report->session->arena;
    struct report_rows rows = report_week_rows(report, NULL);
    if (!rows.count)
        return;
    report_heading(report, "Volume and intensity");
    report_paragraph(report,
                     arena_printf(arena,
                                  "Volume load per week at the mean load in %s: medians of the newest 12 weeks "
                                  "and of the 12 before. A trend is named only where %s. "
                                  "\"of 1RM\" is the newest week's mean intensity.",
                                  mass_unit_name(report->session->unit),
                                  report->session->options->verbose ? "p is below 0.05" : "chance hardly makes one"),
                     2);
    output_text(report->output, "\n");
    report_table(report, &rows);
}

/* --- bests -------------------------------------------------------------------------------------------------------- */

struct best /* of one lift, by one load */
{
    const struct record *records; /* by repetitions, from 1 */
    const char *name, *load;
};

static void get_best_lift(const void *row, struct cell *cell)
{
    cell_text(cell, ((const struct best *)row)->name);
}

static void get_best_load(const void *row, struct cell *cell)
{
    cell_text(cell, ((const struct best *)row)->load);
}

#define BEST(reps)                                                                                                     \
    static void get_best_##reps(const void *row, struct cell *cell)                                                    \
    {                                                                                                                  \
        cell_number(cell, ((const struct best *)row)->records[(reps)-1].kg);                                           \
    }
BEST(1)
BEST(2)
BEST(3)
BEST(4)
BEST(5)
BEST(6)
BEST(8)
BEST(10)

static const struct column best_columns[] = {
    {"lift", "lift", QUANTITY_PLAIN, 0, get_best_lift}, {"load", "load", QUANTITY_PLAIN, 0, get_best_load},
    {"best_1_kg", "1", QUANTITY_LOAD, 1, get_best_1},   {"best_2_kg", "2", QUANTITY_LOAD, 1, get_best_2},
    {"best_3_kg", "3", QUANTITY_LOAD, 1, get_best_3},   {"best_4_kg", "4", QUANTITY_LOAD, 1, get_best_4},
    {"best_5_kg", "5", QUANTITY_LOAD, 1, get_best_5},   {"best_6_kg", "6", QUANTITY_LOAD, 1, get_best_6},
    {"best_8_kg", "8", QUANTITY_LOAD, 1, get_best_8},   {"best_10_kg", "10", QUANTITY_LOAD, 1, get_best_10},
};

static bool has_best(const struct record *records)
{
    for (int i = 0; i < RECORD_REPS; i++)
        if (records[i].set)
            return true;
    return false;
}

/* True if any best at bottom or top was set with chain or band. Without them all three loads are equal. */
static bool differs(const struct lift_records *records)
{
    for (int i = 0; i < RECORD_REPS; i++)
        for (int measure = LOAD_BOTTOM; measure <= LOAD_TOP; measure++)
            if (records->best[measure][i].set && records->best[measure][i].set->has_ar)
                return true;
    return false;
}

struct report_rows report_record_rows(const struct report *report, const char *lifter)
{
    static const struct
    {
        enum load_measure measure;
        const char *load;
    } loads[] = {{LOAD_STRAIGHT, "straight"}, {LOAD_BOTTOM, "bottom"}, {LOAD_TOP, "top"}};
    LIST(struct best) list = {0};
    for (size_t i = 0; i < report->record_count; i++) {
        const struct lift_records *records = &report->records[i];
        if (lifter && strcmp(lifter, records->lifter))
            continue;
        const char *name = series_name(report, records->lifter, records->lift, FOCUS_UNSAID);
        for (size_t k = 0; k < (differs(records) ? sizeof loads / sizeof *loads : 1); k++)
            if (has_best(records->best[loads[k].measure]))
                *LIST_ADD(report->session->arena, &list) = (struct best){records->best[loads[k].measure], name,
                                                                         loads[k].load};
    }
    return (struct report_rows){best_columns, sizeof best_columns / sizeof *best_columns, list.items, list.count,
                                sizeof *list.items};
}

void report_records(const struct report *report)
{
    struct report_rows rows = report_record_rows(report, NULL);
    if (!rows.count)
        return;
    report_heading(report, "Bests");
    report_paragraph(
        report,
        arena_printf(report->session->arena,
                     "The heaviest load in %s for this many reps or more: straight weight without chain or "
                     "band, and, where they were used, the load at the bottom and at the top.",
                     mass_unit_name(report->session->unit)),
        2);
    output_text(report->output, "\n");
    report_table(report, &rows);
}
