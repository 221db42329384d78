/* The report: waves, newest first to be read. */
#include "commands/report_text.h"

#include "base/text.h"


#include <math.h>
#include <string.h>

#define WAVE(name, ...)                                             \
    static void get_wave_##name(const void *row, struct cell *cell) \
    {                                                               \
        const struct wave_week *week = row;                         \
        __VA_ARGS__;                                                \
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
    {"lifts", "lifts", QUANTITY_PLAIN, 0, get_wave_lifts},
    {"over_bottom_kg", "over bot", QUANTITY_LOAD, 1, get_wave_over_bottom},
    {"over_top_kg", "over top", QUANTITY_LOAD, 1, get_wave_over_top},
    {"ar", "chain and band", QUANTITY_PLAIN, 0, get_wave_ar},
};
#define WAVE_COLUMNS (sizeof wave_columns / sizeof *wave_columns)

/* Without chains and bands bottom and top are the straight weight. */
static const struct column straight_columns[] = {
    {"wave", "wave", QUANTITY_PLAIN, 0, get_wave_number},
    {"week", "week", QUANTITY_PLAIN, 0, get_wave_week},
    {"straight_kg", "straight", QUANTITY_LOAD, 1, get_wave_straight},
    {"straight_share", "of 1RM", QUANTITY_SHARE, 0, get_wave_straight_share},
    {"lifts", "lifts", QUANTITY_PLAIN, 0, get_wave_lifts},
    {"over_top_kg", "over", QUANTITY_LOAD, 1, get_wave_over_top},
};
#define STRAIGHT_COLUMNS (sizeof straight_columns / sizeof *straight_columns)

#define NEWEST_WAVES 3 /* the report shows these; `tautline waves` has all */

static bool same_series(const struct wave_week *a, const struct wave_week *b)
{
    return a->focus == b->focus && !strcmp(a->lift, b->lift) && !strcmp(a->lifter, b->lifter);
}

/* The AR of all weeks where it is the same in each, however it was written; NULL: it differs. */
static const char *common_ar(const struct wave_week *weeks, size_t count)
{
    for (size_t i = 1; i < count; i++)
        if (!same_ar(weeks[i].working, weeks->working))
            return NULL;
    return weeks->ar;
}

static void wave_table(const struct report *report, const struct wave_week *weeks, size_t count)
{
    unsigned newest = weeks[count - 1].wave;
    while (weeks->wave + NEWEST_WAVES <= newest) {
        weeks++;
        count--;
    }
    const char *ar = common_ar(weeks, count);
    output_printf(report->output, "  %s", series_name(report, weeks->lifter, weeks->lift, weeks->focus));
    if (newest > NEWEST_WAVES)
        output_printf(report->output, " (newest %d of %u waves)", NEWEST_WAVES, newest);
    output_printf(report->output, "%s%s\n", ar && *ar ? ": " : "", ar ? text_visible(report->session->arena, ar) : "");
    const struct column *columns = ar && !*ar ? straight_columns : wave_columns;
    size_t column_count = ar && !*ar ? STRAIGHT_COLUMNS : ar ? WAVE_COLUMNS - 1 : WAVE_COLUMNS; /* the last column is the AR */
    struct table_writer *writer = table_open(report->session->arena, report->output, columns, column_count, &report->style);
    for (size_t i = 0; i < count; i++)
        table_row(writer, &weeks[i]);
    table_close(writer);
    output_text(report->output, "\n");
}

void report_waves(const struct report *report)
{
    const struct waves *waves = report->waves;
    if (!waves->count)
        return;
    report_heading(report, "Waves");
    report_paragraph(report, arena_printf(report->session->arena, "Loads in %s: the week's working load. \"over\" is against the same week of the wave before; "
                                          "\"share\" is what chain and band add from bottom to top, of 1RM.", mass_unit_name(report->session->unit)), 2);
    output_text(report->output, "\n");
    for (size_t i = 0, end; i < waves->count; i = end) {
        for (end = i; end < waves->count && same_series(&waves->weeks[i], &waves->weeks[end]); end++)
            ;
        wave_table(report, &waves->weeks[i], end - i);
    }
}
