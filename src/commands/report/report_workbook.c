#include "commands/report/report_workbook.h"

#include "analysis/verdict.h"
#include "commands/audit.h"
#include "commands/loads.h"
#include "commands/session/summary.h"
#include "commands/trend.h"
#include "commands/waves.h"
#include "commands/waves_verdicts.h"
#include "writing/workbook/book_file.h"

#include <config.h>
#include <string.h>

#define LARGE_SETS 50000 /* from this many on, rows are kept in temporary files while the workbook is made */
#define CHARTS_OF_A_KIND 12
#define LIST_COUNT(list) (sizeof(list) / sizeof *(list))

struct workbook_report
{
    struct session *session;
    struct book_file *file;
    struct book_page *summary;
    struct book_sheet *waves, *weeks;
};

bool report_has_workbooks(void)
{
    return true;
}

/* --- the tables: those of the commands, each in a sheet ---------------------------------------------------------- */

typedef void table_maker(struct session *session, struct output *output);

/* Each run of rows in which the first `group_columns` columns stay the same becomes a chart; 0: no charts. */
static struct book_sheet *put_table(struct workbook_report *report, const char *name, table_maker *make,
                                    size_t group_columns)
{
    struct book_sheet *sheet = book_sheet_new(report->file, name);
    const struct table_sink sink = book_sheet_sink(sheet);
    book_sheet_group_by(sheet, group_columns);
    report->session->sink = &sink;
    make(report->session, NULL);
    report->session->sink = NULL;
    book_sheet_end(sheet);
    return sheet;
}

/* --- the summary ------------------------------------------------------------------------------------------------- */

static struct cell text_cell(const char *text)
{
    struct cell cell = {.decimals = -1};
    cell_text(&cell, text);
    return cell;
}

static struct cell number_of(long count)
{
    struct cell cell = {.decimals = -1};
    cell_count(&cell, count);
    return cell;
}

static struct cell day_of(day_number day)
{
    struct cell cell = {.decimals = -1};
    cell_day(&cell, day);
    return cell;
}

static struct cell load_of(double kg)
{
    struct cell cell = {.quantity = QUANTITY_LOAD, .decimals = 1};
    cell_number(&cell, kg);
    return cell;
}

static void put_line(struct workbook_report *report, const char *label, struct cell value)
{
    const struct cell cells[] = {text_cell(label), value};
    book_page_row(report->summary, cells, LIST_COUNT(cells), report->session->unit);
}

static void put_facts(struct workbook_report *report)
{
    const struct session *session = report->session;
    const struct training *training = session->training;
    day_number first = NO_DAY, last = NO_DAY;
    uint32_t refused = 0;
    for (size_t i = 0; i < training->count; i++) {
        day_number day = training->sets[i].set->day;
        first = first == NO_DAY || day < first ? day : first;
        last = last == NO_DAY || day > last ? day : last;
    }
    for (size_t i = 0; i < session->log->files.count; i++)
        refused += session->log->files.items[i].refused;
    book_page_heading(report->summary, "Training report");
    put_line(report, "First day", day_of(first));
    put_line(report, "Last day", day_of(last));
    put_line(report, "Sets", number_of((long)training->count));
    put_line(report, "Files and sheets read", number_of((long)session->log->files.count));
    put_line(report, "Lines refused and not counted", number_of((long)refused));
    put_line(report, "Loads are in", text_cell(mass_unit_name(session->unit)));
}

static void put_verdicts(struct workbook_report *report)
{
    struct session *session = report->session;
    struct arena *arena = session->arena;
    size_t count;
    const struct verdict *verdicts = session_verdicts(session, &count);
    if (!count)
        return;
    const char *slope = arena_printf(arena, "Top, %s per wave", mass_unit_name(session->unit));
    const struct cell heads[] = {text_cell("Lifter, lift, focus"), text_cell("Verdict"), text_cell("As of"),
                                 text_cell(slope)};
    book_page_heading(report->summary, "Is each wave heavier?");
    book_page_row(report->summary, heads, LIST_COUNT(heads), session->unit);
    for (size_t i = 0; i < count; i++) {
        const struct verdict *verdict = &verdicts[i];
        const char *who = arena_printf(arena, "%s%s%s, %s", verdict->lifter, *verdict->lifter ? ", " : "",
                                       verdict->lift, focus_name(verdict->focus));
        bool by_wave = !verdict->trend.by_week;
        const struct cell cells[] = {text_cell(who), text_cell(verdict_word(verdict->kind)), day_of(verdict->as_of),
                                     load_of(by_wave ? verdict->trend.slope_kg[LOAD_TOP] : NAN)};
        book_page_row(report->summary, cells, LIST_COUNT(cells), session->unit);
    }
}

static void put_assumed(struct workbook_report *report)
{
    size_t counts[ASSUMPTION_BITS];
    bool any = false;
    assumptions_count(report->session->training, counts);
    for (int bit = 0; bit < ASSUMPTION_BITS; bit++) {
        const char *meaning, *settle;
        if (!counts[bit] || !assumption_explain(report->session, (enum assumption)(1 << bit), &meaning, &settle))
            continue;
        if (!any)
            book_page_heading(report->summary, "Assumed");
        any = true;
        book_page_paragraph(report->summary,
                            arena_printf(report->session->arena, "%zu %s: %s. To fix: %s.", counts[bit],
                                         plural(counts[bit], "set", "sets"), meaning, settle));
    }
}

/* --- charts ------------------------------------------------------------------------------------------------------ */

/* The index of a column in a table. */
static size_t place_of(struct columns columns, const char *name)
{
    size_t place = 0;
    while (place + 1 < columns.count && strcmp(columns.items[place].name, name) != 0)
        place++;
    return place;
}

struct chart_kind
{
    const char *title;
    bool bars;
    struct columns columns; /* of the table */
    const char *shown[3];
    size_t count;
};

static void put_charts(struct workbook_report *report, const struct book_sheet *sheet, const struct chart_kind *kind)
{
    struct arena *arena = report->session->arena;
    size_t count, made = 0, columns[LIST_COUNT(kind->shown)];
    const struct book_group *groups = book_sheet_groups(sheet, &count);
    for (size_t i = 0; i < kind->count; i++)
        columns[i] = place_of(kind->columns, kind->shown[i]);
    for (size_t i = 0; i < count && made < CHARTS_OF_A_KIND; i++) {
        if (groups[i].last - groups[i].first < 2 || strstr(groups[i].key, "*"))
            continue; /* fewer than three weeks make no line; "all lifts" has no loads */
        if (!made++)
            book_page_heading(report->summary, kind->title);
        const struct book_chart chart = {
            .title = groups[i].key,
            .unit = mass_unit_name(report->session->unit),
            .bars = kind->bars,
            .of = sheet,
            .rows = groups[i],
            .category = place_of(kind->columns, "week"),
            .columns = columns,
            .count = kind->count,
        };
        book_page_chart(report->summary, &chart);
    }
    if (made == CHARTS_OF_A_KIND && count > made)
        book_page_paragraph(
            report->summary,
            arena_printf(arena, "The first %d of them; the sheets have the numbers of all.", CHARTS_OF_A_KIND));
}

static void put_all_charts(struct workbook_report *report)
{
    const struct chart_kind waves = {.title = "Waves: load at the bottom and at the top",
                                     .columns = waves_columns(report->session->options),
                                     .shown = {"straight_kg", "bottom_kg", "top_kg"},
                                     .count = 3};
    const struct chart_kind weeks = {.title = "Weeks: volume load with chains and bands",
                                     .bars = true,
                                     .columns = trend_columns(report->session->options),
                                     .shown = {"volume_mean_kg"},
                                     .count = 1};
    put_charts(report, report->waves, &waves);
    put_charts(report, report->weeks, &weeks);
}

/* --- the workbook ------------------------------------------------------------------------------------------------ */

bool report_workbook(struct session *session, struct output *output)
{
    const struct book_about about = {.title = "Training report",
                                     .program = "tautline " PACKAGE_VERSION,
                                     .made = session->options->today != NO_DAY ? session->options->today : date_today(),
                                     .large = session->training->count >= LARGE_SETS};
    struct workbook_report report = {.session = session, .file = book_file_new(session->arena, &about)};
    if (!report.file)
        return false;
    report.summary = book_page_new(report.file, "Summary");
    put_table(&report, "Verdicts", verdicts_table, 0);
    report.waves = put_table(&report, "Waves", waves_table, 3);
    report.weeks = put_table(&report, "Weeks", trend_table, 2);
    put_table(&report, "Sets", loads_table, 0);
    put_table(&report, "Findings", findings_table, 0);
    put_facts(&report);
    put_verdicts(&report);
    put_assumed(&report);
    book_page_heading(report.summary, "Safety");
    book_page_paragraph(report.summary, words_to_mind);
    put_all_charts(&report);
    return book_file_end(report.file, output);
}
