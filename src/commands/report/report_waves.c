#include "commands/report/report_waves.h"

#include "commands/report/report_text.h"

#include "base/pounds.h"
#include "base/text.h"

#include <math.h>
#include <string.h>

#define WAVE(name, ...)                                                                                                \
    static void get_wave_##name(const void *row, struct cell *cell)                                                    \
    {                                                                                                                  \
        const struct wave_week *week = row;                                                                            \
        __VA_ARGS__;                                                                                                   \
    }

WAVE(number, cell_count(cell, (long)week->wave))
WAVE(week, cell_week(cell, week->week))
WAVE(straight, cell_number(cell, week->load_kg[LOAD_STRAIGHT]))
WAVE(straight_share, cell_number(cell, week->straight_share))
WAVE(bottom, cell_number(cell, week->load_kg[LOAD_BOTTOM]))
WAVE(top, cell_number(cell, week->load_kg[LOAD_TOP]))
WAVE(share, cell_number(cell, week->share))
WAVE(lifts, cell_count(cell, (long)week->lifts))
WAVE(over_bottom, cell_number(cell, week->over_kg[LOAD_BOTTOM]))
WAVE(over_top, cell_number(cell, week->over_kg[LOAD_TOP]))
WAVE(ar, cell_text(cell, week->ar))

static const struct column wave_columns[] = {
    {"wave", "wave", QUANTITY_PLAIN, 0, get_wave_number},
    {"week", "week", QUANTITY_PLAIN, 0, get_wave_week},
    {"straight_kg", "straight", QUANTITY_LOAD, 1, get_wave_straight},
    {"straight_share", "of 1RM", QUANTITY_SHARE, 0, get_wave_straight_share},
    {"bottom_kg", "bottom", QUANTITY_LOAD, 1, get_wave_bottom},
    {"top_kg", "top", QUANTITY_LOAD, 1, get_wave_top},
    {"share", "share", QUANTITY_SHARE, 0, get_wave_share},
    {"lifts", "reps", QUANTITY_PLAIN, 0, get_wave_lifts},
    {"over_bottom_kg", "Δ bottom", QUANTITY_LOAD, 1, get_wave_over_bottom},
    {"over_top_kg", "Δ top", QUANTITY_LOAD, 1, get_wave_over_top},
    {"ar", "chain and band", QUANTITY_GEAR, 0, get_wave_ar},
};
#define WAVE_COLUMNS (sizeof wave_columns / sizeof *wave_columns)

/* Without chains and bands, the load at bottom and top is the straight weight. */
static const struct column straight_columns[] = {
    {"wave", "wave", QUANTITY_PLAIN, 0, get_wave_number},
    {"week", "week", QUANTITY_PLAIN, 0, get_wave_week},
    {"straight_kg", "straight", QUANTITY_LOAD, 1, get_wave_straight},
    {"straight_share", "of 1RM", QUANTITY_SHARE, 0, get_wave_straight_share},
    {"lifts", "reps", QUANTITY_PLAIN, 0, get_wave_lifts},
    {"over_top_kg", "Δ", QUANTITY_LOAD, 1, get_wave_over_top},
};
#define STRAIGHT_COLUMNS (sizeof straight_columns / sizeof *straight_columns)

/* The report shows this many; `tautline waves` shows all. */
#define NEWEST_WAVES 3
#define NEWEST_WEEKS 12
#define STRAIGHT_TABLES 3 /* of a lifter's lifts without chain or band */

/* The AR of all weeks where it is the same in each, however it was written; NULL: it differs. */
static const char *common_ar(const struct wave_week *weeks, size_t count)
{
    for (size_t i = 1; i < count; i++)
        if (!same_ar(weeks[i].working, weeks->working))
            return NULL;
    return weeks->ar;
}

/* Says which part of a series is shown: whole waves, unless they are long. */
static void newest_words(const struct report *report, const struct wave_week *shown, size_t count, size_t all)
{
    unsigned waves = shown[count - 1].wave;
    if (count == all)
        return;
    if (shown->step == 1)
        output_printf(report->output, " (newest %u of %u waves)", waves - shown->wave + 1, waves);
    else
        output_printf(report->output, " (newest %zu weeks of %u wave%s)", count, waves, waves == 1 ? "" : "s");
}

static void wave_table(const struct report *report, const struct wave_week *weeks, size_t count)
{
    unsigned newest = weeks[count - 1].wave;
    size_t all = count;
    while (weeks->wave + NEWEST_WAVES <= newest || count > NEWEST_WEEKS) {
        weeks++;
        count--;
    }
    const char *common = common_ar(weeks, count);
    const char *ar = common ? load_in_unit(report->session->arena, common, report->session->unit) : NULL;
    output_printf(report->output, "  %s", series_name(report, weeks->lifter, weeks->lift, weeks->focus));
    newest_words(report, weeks, count, all);
    output_printf(report->output, "%s%s\n", ar && *ar ? ": " : "", ar ? text_visible(report->session->arena, ar) : "");
    const struct column *columns = ar && !*ar ? straight_columns : wave_columns;
    size_t column_count = ar && !*ar ? STRAIGHT_COLUMNS
                          : ar       ? WAVE_COLUMNS - 1
                                     : WAVE_COLUMNS; /* AR is the last column */
    report_table(report, &(struct report_rows){columns, column_count, weeks, count, sizeof *weeks});
}

static int order_of(const struct wave_week *week, const struct verdict *verdict)
{
    int order = strcmp(week->lifter, verdict->lifter);
    if (!order)
        order = strcmp(week->lift, verdict->lift);
    return order ? order : (int)week->focus - (int)verdict->focus;
}

const struct wave_week *report_wave_weeks(const struct report *report, const struct verdict *verdict, size_t *count)
{
    const struct waves *waves = report->waves;
    size_t begin = 0, end = waves->count;
    while (begin < end) {
        size_t middle = begin + (end - begin) / 2;
        if (order_of(&waves->weeks[middle], verdict) < 0)
            begin = middle + 1;
        else
            end = middle;
    }
    while (end < waves->count && !order_of(&waves->weeks[end], verdict))
        end++;
    *count = end - begin;
    return &waves->weeks[begin];
}

void report_waves(const struct report *report)
{
    const struct waves *waves = report->waves;
    if (!waves->count)
        return;
    report_heading(report, "Waves");
    report_paragraph(
        report,
        arena_printf(report->session->arena,
                     "Loads in %s: the week's working load. Δ is the change from the same week of the wave before; "
                     "\"share\" is what chain and band add from bottom to top, as a share of the 1RM.",
                     mass_unit_name(report->session->unit)),
        2);
    output_text(report->output, "\n");
    size_t straight = 0, left_out = 0;
    for (size_t i = 0; i < report->verdict_count; i++) {
        const struct verdict *verdict = report->ordered[i];
        size_t count;
        const struct wave_week *weeks = report_wave_weeks(report, verdict, &count);
        if (i && strcmp(verdict->lifter, report->ordered[i - 1]->lifter))
            straight = 0;
        if (count && !verdict->has_ar)
            straight++;
        if (count && straight > STRAIGHT_TABLES)
            left_out++;
        else if (count)
            wave_table(report, weeks, count);
    }
    if (left_out)
        output_printf(report->output, "  And %zu more without chain or band; `tautline waves` has them all.\n\n",
                      left_out);
}
