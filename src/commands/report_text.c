#include "commands/report_text.h"

#include "base/names.h"
#include "base/number.h"
#include "base/text.h"
#include "commands/summary.h"
#include "writing/sparkline.h"

#include <math.h>
#include <string.h>

#define REPORT_WIDTH 80 /* where no terminal says another */

struct report report_make(struct session *session, struct output *output)
{
    struct arena *arena = session->arena;
    struct report report = {.session = session, .output = output};
    report.style = session_style(session, output);
    report.style.format = FORMAT_TEXT;
    if (!report.style.width)
        report.style.width = REPORT_WIDTH;
    report.waves = waves_make(arena, session->training);
    report.overloads = overload_make(arena, report.waves, &report.overload_count);
    report.weeks = trend_make(arena, session->training, &report.week_count);
    report.slopes = trend_slopes(arena, session->training, report.weeks, report.week_count, &report.slope_count);
    report.records = records_make(arena, session->training, &report.record_count);
    for (size_t i = 1; i < session->training->count; i++)
        report.several_lifters |= strcmp(session->training->sets[i].lifter, session->training->sets[i - 1].lifter) != 0;
    return report;
}

static void heading(const struct report *report, const char *title)
{
    output_printf(report->output, "%s%s%s\n", report->style.colour ? "\033[1m" : "", title, report->style.colour ? "\033[0m" : "");
}

char *series_name(const struct report *report, const char *lifter, const char *lift, enum focus focus)
{
    struct arena *arena = report->session->arena;
    const char *who = report->several_lifters && *lifter ? arena_printf(arena, "%s: ", lifter) : "";
    const char *what = focus == FOCUS_UNSAID ? "" : arena_printf(arena, ", %s", focus_name(focus));
    return arena_copy(arena, text_visible(arena, arena_printf(arena, "%s%s%s", who, lift, what)));
}

/* Breaks a paragraph at blanks to fit the width, each line indented. */
static void paragraph(const struct report *report, const char *text, size_t indent)
{
    size_t width = report->style.width > indent + 20 ? report->style.width - indent : 20;
    while (*text) {
        size_t taken = 0, columns = 0, fits = 0;
        while (text[taken]) {
            size_t word = strcspn(text + taken, " ");
            columns = text_width(arena_text(report->session->arena, text, taken + word));
            if (columns > width && fits)
                break;
            taken += word;
            fits = taken;
            if (text[taken] == ' ')
                taken++;
        }
        output_printf(report->output, "%*s%.*s\n", (int)indent, "", (int)fits, text);
        text += fits;
        text += strspn(text, " ");
    }
}

/* --- is it overloading? -------------------------------------------------------------------------------------------------- */

/* Lifts trained now and then, in no wave, would drown the rest. */
static bool worth_a_sentence(const struct overload *overload)
{
    return overload->verdict != OVERLOAD_NO_WAVE || overload->has_ar;
}

void report_overload(const struct report *report)
{
    size_t silent = 0;
    if (!report->overload_count)
        return;
    heading(report, "Is it overloading?");
    for (size_t i = 0; i < report->overload_count; i++) {
        const struct overload *overload = &report->overloads[i];
        if (!worth_a_sentence(overload)) {
            silent++;
            continue;
        }
        output_printf(report->output, "  %s\n", series_name(report, overload->lifter, overload->lift, overload->focus));
        paragraph(report, overload_sentence(report->session->arena, overload, report->session->unit), 4);
    }
    if (silent == report->overload_count)
        output_text(report->output, "  No lift has a wave yet: no two weeks in a row hold or raise the working load.\n");
    else if (silent)
        output_printf(report->output, "  %zu more %s no wave.\n", silent, plural(silent, "lift and focus has", "lifts and focuses have"));
    output_text(report->output, "\n");
}

/* --- waves ---------------------------------------------------------------------------------------------------------------- */

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
    {"over_bottom_kg", "over: bot", QUANTITY_LOAD, 1, get_wave_over_bottom},
    {"over_top_kg", "top", QUANTITY_LOAD, 1, get_wave_over_top},
    {"ar", "chain and band", QUANTITY_PLAIN, 0, get_wave_ar},
};

#define NEWEST_WAVES 3 /* the report shows these; `tautline waves` has all */

static bool same_series(const struct wave_week *a, const struct wave_week *b)
{
    return a->focus == b->focus && !strcmp(a->lift, b->lift) && !strcmp(a->lifter, b->lifter);
}

static void wave_table(const struct report *report, const struct wave_week *weeks, size_t count)
{
    unsigned newest = weeks[count - 1].wave;
    output_printf(report->output, "  %s", series_name(report, weeks->lifter, weeks->lift, weeks->focus));
    if (newest > NEWEST_WAVES)
        output_printf(report->output, " (newest %d of %u waves)", NEWEST_WAVES, newest);
    output_text(report->output, "\n");
    struct table_writer *writer =
        table_open(report->session->arena, report->output, wave_columns, sizeof wave_columns / sizeof *wave_columns, &report->style);
    for (size_t i = 0; i < count; i++)
        if (weeks[i].wave + NEWEST_WAVES > newest)
            table_row(writer, &weeks[i]);
    table_close(writer);
    output_text(report->output, "\n");
}

void report_waves(const struct report *report)
{
    const struct waves *waves = report->waves;
    if (!waves->count)
        return;
    heading(report, "Waves");
    output_printf(report->output, "  Loads in %s: the week's working load. \"over\" is against the same week of the wave before;\n"
                                  "  \"share\" is what chain and band add from bottom to top, of 1RM.\n\n", mass_unit_name(report->session->unit));
    for (size_t i = 0, end; i < waves->count; i = end) {
        for (end = i; end < waves->count && same_series(&waves->weeks[i], &waves->weeks[end]); end++)
            ;
        wave_table(report, &waves->weeks[i], end - i);
    }
}

/* --- what each set-up weighed ---------------------------------------------------------------------------------------------- */

struct setup_use
{
    const struct lifted *newest;
    size_t sets;
    const char *name;
};

static void get_use_lift(const void *row, struct cell *cell)
{
    cell_text(cell, ((const struct setup_use *)row)->name);
}

static void get_use_ar(const void *row, struct cell *cell)
{
    cell_text(cell, ((const struct setup_use *)row)->newest->set->load->ar);
}

static void get_use_sets(const void *row, struct cell *cell)
{
    cell_count(cell, (long)((const struct setup_use *)row)->sets);
}

#define USE(name, member)                                                                    \
    static void get_use_##name(const void *row, struct cell *cell)                           \
    {                                                                                        \
        cell_number(cell, ((const struct setup_use *)row)->newest->effect->member);          \
    }
USE(straight, straight_kg)
USE(bottom, bottom_kg)
USE(top, top_kg)
USE(mean, mean_kg)

static void get_use_share(const void *row, struct cell *cell)
{
    cell_number(cell, ar_share(((const struct setup_use *)row)->newest));
}

static const struct column use_columns[] = {
    {"lift", "lift", QUANTITY_PLAIN, 0, get_use_lift},
    {"sets", "sets", QUANTITY_PLAIN, 0, get_use_sets},
    {"straight_kg", "straight", QUANTITY_LOAD, 1, get_use_straight},
    {"bottom_kg", "bottom", QUANTITY_LOAD, 1, get_use_bottom},
    {"top_kg", "top", QUANTITY_LOAD, 1, get_use_top},
    {"mean_kg", "mean", QUANTITY_LOAD, 1, get_use_mean},
    {"share", "share", QUANTITY_SHARE, 0, get_use_share},
    {"ar", "chain and band", QUANTITY_PLAIN, 0, get_use_ar},
};

void report_loads(const struct report *report)
{
    struct arena *arena = report->session->arena;
    const struct training *training = report->session->training;
    struct map *seen = map_new(arena);
    LIST(struct setup_use *) uses = {0};
    for (size_t i = 0; i < training->count; i++) {
        const struct lifted *lifted = &training->sets[i];
        if (!lifted->has_ar || !is_work(lifted))
            continue;
        char *key = arena_printf(arena, "%s\n%s\n%s", lifted->lifter, lifted->lift, lifted->ar_key);
        struct setup_use *use = map_get(seen, key, strlen(key));
        if (!use) {
            use = *LIST_ADD(arena, &uses) = ARENA_NEW(arena, struct setup_use);
            use->name = series_name(report, lifted->lifter, lifted->lift, FOCUS_UNSAID);
            map_put(seen, key, strlen(key), use);
        }
        use->sets++;
        use->newest = lifted;
    }
    if (!uses.count)
        return;
    heading(report, "Chains and bands used");
    output_printf(report->output, "  What the bar weighed in %s at the newest working set of each.\n\n", mass_unit_name(report->session->unit));
    struct table_writer *writer = table_open(arena, report->output, use_columns, sizeof use_columns / sizeof *use_columns, &report->style);
    for (size_t i = 0; i < uses.count; i++)
        table_row(writer, uses.items[i]);
    table_close(writer);
    output_text(report->output, "\n");
}

/* --- weeks ------------------------------------------------------------------------------------------------------------------ */

#define SPARK_COLUMNS 26

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
    {"volume", "volume by week", QUANTITY_PLAIN, 0, get_series_spark},
    {"recent_kg", "newest 12", QUANTITY_LOAD, 0, get_series_recent},
    {"before_kg", "12 before", QUANTITY_LOAD, 0, get_series_before},
    {"trend", "trend", QUANTITY_PLAIN, 0, get_series_trend},
    {"intensity", "of 1RM", QUANTITY_SHARE, 0, get_series_intensity},
};

static const struct trend_slope *volume_slope(const struct report *report, const struct trend_week *week)
{
    for (size_t i = 0; i < report->slope_count; i++) {
        const struct trend_slope *slope = &report->slopes[i];
        if (!strcmp(slope->lifter, week->lifter) && !strcmp(slope->lift, week->lift) && !strcmp(slope->measure, "volume_mean_kg"))
            return slope;
    }
    return NULL;
}

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
    struct series series = {.weeks = weeks, .count = count, .volume = volume_slope(report, weeks)};
    double *volumes = ARENA_ARRAY(arena, double, count);
    for (size_t i = 0; i < count; i++)
        volumes[i] = weeks[i].volume_kg[LOAD_MEAN];
    series.spark = sparkline(arena, volumes, count, &(struct sparkline_style){.width = SPARK_COLUMNS, .from_zero = true});
    series.trend = trend_words(arena, series.volume);
    series.name = !strcmp(weeks->lift, ALL_LIFTS) ? series_name(report, weeks->lifter, "all lifts", FOCUS_UNSAID)
                                                  : series_name(report, weeks->lifter, weeks->lift, FOCUS_UNSAID);
    return series;
}

void report_weeks(const struct report *report)
{
    struct arena *arena = report->session->arena;
    if (!report->week_count)
        return;
    heading(report, "Volume and intensity");
    output_printf(report->output, "  Volume load a week at the mean load in %s: medians of the newest 12 weeks and of the 12 before; a trend is\n"
                                  "  named only where its 95 %% interval excludes 0. \"of 1RM\" is the newest week's mean intensity.\n\n",
                  mass_unit_name(report->session->unit));
    struct table_writer *writer =
        table_open(arena, report->output, series_columns, sizeof series_columns / sizeof *series_columns, &report->style);
    for (size_t i = 0, end; i < report->week_count; i = end) {
        for (end = i; end < report->week_count && !strcmp(report->weeks[end].lift, report->weeks[i].lift) &&
                      !strcmp(report->weeks[end].lifter, report->weeks[i].lifter);
             end++)
            ;
        struct series series = series_make(report, &report->weeks[i], end - i);
        table_row(writer, &series);
    }
    table_close(writer);
    output_text(report->output, "\n");
}

/* --- records ----------------------------------------------------------------------------------------------------------------- */

struct best
{
    const struct lift_records *records;
    const char *name;
};

static void get_best_lift(const void *row, struct cell *cell)
{
    cell_text(cell, ((const struct best *)row)->name);
}

#define BEST(name, measure, reps)                                                                    \
    static void get_best_##name(const void *row, struct cell *cell)                                  \
    {                                                                                                \
        cell_number(cell, ((const struct best *)row)->records->best[measure][(reps) - 1].kg);        \
    }
BEST(single, LOAD_STRAIGHT, 1)
BEST(triple, LOAD_STRAIGHT, 3)
BEST(five, LOAD_STRAIGHT, 5)
BEST(bottom, LOAD_BOTTOM, 1)
BEST(top, LOAD_TOP, 1)

static const struct column best_columns[] = {
    {"lift", "lift", QUANTITY_PLAIN, 0, get_best_lift},
    {"single_kg", "single", QUANTITY_LOAD, 1, get_best_single},
    {"triple_kg", "triple", QUANTITY_LOAD, 1, get_best_triple},
    {"five_kg", "five", QUANTITY_LOAD, 1, get_best_five},
    {"bottom_kg", "heaviest at bottom", QUANTITY_LOAD, 1, get_best_bottom},
    {"top_kg", "at top", QUANTITY_LOAD, 1, get_best_top},
};

void report_records(const struct report *report)
{
    if (!report->record_count)
        return;
    heading(report, "Bests");
    output_printf(report->output, "  In %s. Single, triple and five are straight weight without chain or band.\n\n", mass_unit_name(report->session->unit));
    struct table_writer *writer =
        table_open(report->session->arena, report->output, best_columns, sizeof best_columns / sizeof *best_columns, &report->style);
    for (size_t i = 0; i < report->record_count; i++) {
        struct best best = {&report->records[i], series_name(report, report->records[i].lifter, report->records[i].lift, FOCUS_UNSAID)};
        table_row(writer, &best);
    }
    table_close(writer);
    output_text(report->output, "\n");
}

/* --- what was refused, what would help, what to mind -------------------------------------------------------------------------- */

#define REFUSED_SHOWN 10

void report_refused(const struct report *report)
{
    const struct diags *diags = report->session->diags;
    size_t all = diags_total(diags, SEVERITY_ERROR), shown = 0;
    if (!all)
        return;
    heading(report, "Refused");
    for (const struct diag *diag = diags_first(diags); diag && shown < REFUSED_SHOWN; diag = diag->next) {
        if (diag_severity(diag->id) != SEVERITY_ERROR)
            continue;
        struct arena *arena = report->session->arena;
        paragraph(report, arena_printf(arena, "%s:%u: %s", text_visible(arena, diag->at.file ? diag->at.file : ""), diag->at.line,
                                       text_visible(arena, diag->message)), 2);
        shown++;
    }
    if (all > shown)
        output_printf(report->output, "  and %zu more; `tautline check` lists them all.\n", all - shown);
    output_text(report->output, "\n");
}

static bool any_assumed(const struct report *report, unsigned assumed)
{
    const struct training *training = report->session->training;
    for (size_t i = 0; i < training->count; i++)
        if (training->sets[i].assumed & assumed)
            return true;
    return false;
}

void report_sharpen(const struct report *report)
{
    const struct gym *gym = report->session->gym;
    bool gear = any_assumed(report, ASSUMED_UNKNOWN_GEAR | ASSUMED_CHAIN_MASS | ASSUMED_NO_HEIGHTS);
    if (gym->path && !gear && !any_assumed(report, ASSUMED_ONE_REP_MAX))
        return;
    heading(report, "What would sharpen this");
    if (!gym->path)
        paragraph(report, "A gym file: write gym.ini beside the log, and it is found by itself (tautline-gym(5)).", 2);
    if (gear)
        paragraph(report, "Weigh and measure each chain and band once, and the bar's height at bottom and top of each lift: then the load is "
                          "computed at every height instead of assumed.", 2);
    if (any_assumed(report, ASSUMED_ONE_REP_MAX))
        paragraph(report, "Give the tested 1RM with its date (max = LIFT LOAD DATE under [lifter]), or call the session that tests it \"test\".", 2);
    output_text(report->output, "\n");
}

void report_cautions(const struct report *report)
{
    heading(report, "Mind");
    paragraph(report, "Loads can hurt. Use collars and safeties; look over bands and anchors before each session and retire worn ones; keep feet and "
                      "hands clear of chains. Have set-ups and loads checked on the spot by a qualified coach. Nothing here is medical advice.", 2);
}
