#include "commands/report_text.h"

#include "base/text.h"
#include "commands/summary.h"

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

void report_heading(const struct report *report, const char *title)
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

void report_paragraph(const struct report *report, const char *text, size_t indent)
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
    report_heading(report, "Is it overloading?");
    for (size_t i = 0; i < report->overload_count; i++) {
        const struct overload *overload = &report->overloads[i];
        if (!worth_a_sentence(overload)) {
            silent++;
            continue;
        }
        output_printf(report->output, "  %s\n", series_name(report, overload->lifter, overload->lift, overload->focus));
        report_paragraph(report, overload_sentence(report->session->arena, overload, report->session->unit), 4);
    }
    if (silent == report->overload_count)
        output_text(report->output, "  No lift has a wave yet: no two weeks in a row hold or raise the working load.\n");
    else if (silent)
        output_printf(report->output, "  %zu more %s no wave.\n", silent, plural(silent, "lift and focus has", "lifts and focuses have"));
    output_text(report->output, "\n");
}
