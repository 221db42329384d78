#include "commands/report/report_text.h"
#include "commands/session/session_part.h"

#include "base/text.h"
#include "commands/session/summary.h"

#include <stdlib.h>
#include <string.h>

#define REPORT_WIDTH 80 /* unless the terminal has another width */

/* Lifts with chains and bands come first: they are what the report is read for. */
static int rank_of(const struct verdict *verdict)
{
    int has_nothing_to_compare = !verdict->fact.exists;
    return verdict->has_ar ? has_nothing_to_compare : 2 + has_nothing_to_compare + (verdict->waves == 0);
}

static int by_rank(const void *left, const void *right)
{
    const struct verdict *a = *(const struct verdict *const *)left, *b = *(const struct verdict *const *)right;
    int order = strcmp(a->lifter, b->lifter);
    if (order)
        return order;
    if (rank_of(a) != rank_of(b))
        return rank_of(a) - rank_of(b);
    if (a->waves != b->waves)
        return a->waves < b->waves ? 1 : -1;
    return a < b ? -1 : a > b; /* in the order of their array: by lift, then focus */
}

static const struct verdict *const *ordered_verdicts(struct arena *arena, const struct verdict *verdicts, size_t count)
{
    const struct verdict **ordered = ARENA_ARRAY(arena, const struct verdict *, count);
    for (size_t i = 0; i < count; i++)
        ordered[i] = &verdicts[i];
    if (count)
        qsort(ordered, count, sizeof *ordered, by_rank);
    return ordered;
}

struct report report_of_findings(struct session *session, struct output *output)
{
    struct arena *arena = session->arena;
    struct report report = {.session = session, .output = output};
    report.style = session_style(session, output);
    report.style.format = FORMAT_TEXT;
    if (!report.style.width)
        report.style.width = REPORT_WIDTH;
    report.waves = session_waves(session);
    report.verdicts = session_verdicts(session, &report.verdict_count);
    report.ordered = ordered_verdicts(arena, report.verdicts, report.verdict_count);
    for (size_t i = 1; i < session->training->count; i++)
        report.several_lifters |= strcmp(session->training->sets[i].lifter, session->training->sets[i - 1].lifter) != 0;
    return report;
}

struct report report_make(struct session *session, struct output *output)
{
    struct report report = report_of_findings(session, output);
    report.weeks = session_weeks(session, &report.week_count);
    report.slopes = session_volume_slopes(session, &report.slope_count);
    report.records = records_make(session->arena, session->training, &report.record_count);
    return report;
}

static const char *lifter_of_ordered(const void *item)
{
    return (*(const struct verdict *const *)item)->lifter;
}

static const char *lifter_of_records(const void *item)
{
    return ((const struct lift_records *)item)->lifter;
}

struct report report_part(struct arena *arena, const struct report *report, const char *lifter)
{
    struct report part = *report;
    struct lifter_span ordered = lifter_span(report->ordered, report->verdict_count, sizeof *report->ordered,
                                             lifter_of_ordered, lifter),
                       records = lifter_span(report->records, report->record_count, sizeof *report->records,
                                             lifter_of_records, lifter);
    part.session = session_part(arena, report->session, lifter);
    part.verdicts = part.session->verdicts;
    part.verdict_count = part.session->verdict_count;
    part.ordered = report->ordered + ordered.first;
    part.weeks = part.session->weeks;
    part.week_count = part.session->week_count;
    part.slopes = part.session->slopes;
    part.slope_count = part.session->slope_count;
    part.records = report->records + records.first;
    part.record_count = records.count;
    return part;
}

void report_heading(const struct report *report, const char *title)
{
    output_printf(report->output, "%s%s%s\n", report->style.colour ? "\033[1m" : "", title,
                  report->style.colour ? "\033[0m" : "");
}

void report_table(const struct report *report, const struct report_rows *rows)
{
    struct table_writer *writer = table_open(report->session->arena, report->output, rows->columns, rows->column_count,
                                             &report->style);
    for (size_t i = 0; i < rows->count; i++)
        table_row(writer, (const char *)rows->rows + i * rows->row_size);
    table_close(writer);
    output_text(report->output, "\n");
}

char *series_name(const struct report *report, const char *lifter, const char *lift, enum focus focus)
{
    struct arena *arena = report->session->arena;
    const char *who = report->several_lifters && *lifter ? arena_printf(arena, "%s: ", lifter) : "";
    const char *what = focus == FOCUS_UNSAID ? "" : arena_printf(arena, ", %s", focus_name(focus));
    return arena_copy(arena, text_visible(arena, arena_printf(arena, "%s%s%s", who, lift, what)));
}

void report_paragraph(const struct report *report, const char *text, size_t indent)
{
    paragraph_print(report->session->arena, report->output, text, indent, report->style.width);
}
