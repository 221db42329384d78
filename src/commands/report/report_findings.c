/* The report: findings, by what to do about them, the gravest first. */
#include "commands/report/report_text.h"

#include "base/number.h"
#include "base/text.h"
#include "commands/session/summary.h"

#include <math.h>
#include <string.h>

#define FIRST_FEW 5 /* of a kind, in a report; `tautline audit` has all */

struct findings_text
{
    const struct report *report;
    const struct findings *findings;
    size_t most; /* of a kind */
};

static size_t count_of(const struct findings *findings, enum finding_id id)
{
    size_t count = 0;
    for (size_t i = 0; i < findings->count; i++)
        count += findings->items[i]->id == id;
    return count;
}

static size_t count_as_grave(const struct findings *findings, enum finding_severity severity)
{
    size_t count = 0;
    for (size_t i = 0; i < findings->count; i++)
        count += finding_kinds[findings->items[i]->id].severity == severity;
    return count;
}

static const char *number_words(const struct report *report, const struct finding *finding, double number)
{
    struct arena *arena = report->session->arena;
    enum mass_unit unit = report->session->unit;
    char buffer[32];
    switch (finding->unit) {
    case FINDING_KG:
        number_fixed(buffer, sizeof buffer, kg_to(number, unit), 1);
        return arena_printf(arena, "%s %s", buffer, mass_unit_name(unit));
    case FINDING_SHARE:
        number_fixed(buffer, sizeof buffer, 100 * number, 1);
        return arena_printf(arena, "%s %%", buffer);
    case FINDING_DAYS:
        number_fixed(buffer, sizeof buffer, number, 0);
        return arena_printf(arena, "%s days", buffer);
    case FINDING_PLAIN:
    case FINDING_LINKS:
        break;
    }
    number_print(buffer, round(100 * number) / 100);
    return arena_printf(arena, "%s%s", buffer, finding->unit == FINDING_LINKS ? " links" : "");
}

/* logs/a.csv:44, 52, 61-68 and 3 more places */
const char *finding_lines_words(const struct report *report, const struct finding *finding)
{
    struct arena *arena = report->session->arena;
    size_t shown = finding->runs < FINDING_LINES ? finding->runs : FINDING_LINES;
    const char *words = "";
    for (size_t i = 0; i < shown; i++) {
        const struct finding_lines *run = &finding->lines[i];
        const char *path = report->session->log->files.items[run->file].path;
        bool same_file = i && finding->lines[i - 1].file == run->file;
        words = arena_printf(arena, "%s%s%s%u", words, i ? ", " : "", same_file ? "" : arena_printf(arena, "%s:", path),
                             run->first);
        if (run->last > run->first)
            words = arena_printf(arena, "%s-%u", words, run->last);
    }
    if (finding->runs > shown)
        words = arena_printf(arena, "%s and %zu more %s", words, finding->runs - shown,
                             plural(finding->runs - shown, "place", "places"));
    return words;
}

const char *finding_sentence(const struct report *report, const struct finding *finding)
{
    struct arena *arena = report->session->arena;
    char day[16];
    date_print(day, finding->first->set->day);
    if (isnan(finding->value))
        return arena_printf(arena, "%s: %s.", day, finding->fact);
    return arena_printf(arena, "%s: %s. Found %s, limit %s.", day, finding->fact,
                        number_words(report, finding, finding->value), number_words(report, finding, finding->limit));
}

static void write_finding(const struct findings_text *text, const struct finding *finding)
{
    const struct report *report = text->report;
    struct arena *arena = report->session->arena;
    const char *sentence = arena_printf(arena, "%s Source: %s. %s", finding_sentence(report, finding), finding->source,
                                        finding_lines_words(report, finding));
    output_printf(report->output, "      %s\n",
                  series_name(report, finding->first->lifter, finding->first->lift, FOCUS_UNSAID));
    report_paragraph(report, text_visible(arena, sentence), 8);
}

static void write_kind(const struct findings_text *text, enum finding_id id)
{
    const struct report *report = text->report;
    struct arena *arena = report->session->arena;
    const struct finding_kind *kind = &finding_kinds[id];
    size_t count = count_of(text->findings, id), shown = 0;
    if (!count)
        return;
    report_paragraph(
        report, arena_printf(arena, "%s (%s): %s.", kind->id, finding_severity_name(kind->severity), kind->why), 4);
    for (size_t i = 0; i < text->findings->count && shown < text->most; i++) {
        if (text->findings->items[i]->id != id)
            continue;
        write_finding(text, text->findings->items[i]);
        shown++;
    }
    if (count > shown)
        output_printf(report->output, "      and %zu more; `tautline audit` lists them all.\n", count - shown);
}

/* -1: there is none. */
static int gravest(const struct findings *findings, enum finding_advice advice)
{
    int severity = -1;
    for (size_t i = 0; i < findings->count; i++) {
        const struct finding_kind *kind = &finding_kinds[findings->items[i]->id];
        if (kind->advice == advice && (int)kind->severity > severity)
            severity = (int)kind->severity;
    }
    return severity;
}

static void write_group(const struct findings_text *text, enum finding_advice advice)
{
    output_printf(text->report->output, "  %s\n", finding_advice_words(advice));
    for (int severity = FINDING_FAULT; severity >= FINDING_NOTE; severity--)
        for (int id = 0; id < FINDING_COUNT; id++)
            if (finding_kinds[id].advice == advice && (int)finding_kinds[id].severity == severity)
                write_kind(text, (enum finding_id)id);
    output_text(text->report->output, "\n");
}

static const char *heading_words(struct arena *arena, const struct findings *findings)
{
    const char *words = "Findings:";
    for (int severity = FINDING_FAULT; severity >= FINDING_NOTE; severity--) {
        size_t count = count_as_grave(findings, (enum finding_severity)severity);
        const char *name = finding_severity_name((enum finding_severity)severity);
        if (count)
            words = arena_printf(arena, "%s%s %zu %s%s", words, strchr(words, ' ') ? "," : "", count, name,
                                 count == 1 ? "" : "s");
    }
    return findings->count ? words : "Findings: none";
}

static void write_findings(const struct report *report, size_t most)
{
    struct findings_text text = {report, session_findings(report->session), most};
    report_heading(report, heading_words(report->session->arena, text.findings));
    for (int severity = FINDING_FAULT; severity >= FINDING_NOTE; severity--)
        for (int advice = 0; advice < ADVICE_COUNT; advice++)
            if (gravest(text.findings, (enum finding_advice)advice) == severity)
                write_group(&text, (enum finding_advice)advice);
    if (!text.findings->count)
        output_text(report->output, "\n");
}

void report_findings(const struct report *report)
{
    write_findings(report, FIRST_FEW);
}

void report_every_finding(const struct report *report)
{
    write_findings(report, SIZE_MAX);
}
