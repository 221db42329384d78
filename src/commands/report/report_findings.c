#include "commands/report/report_findings.h"

#include "commands/report/report_text.h"

#include "base/text.h"
#include "commands/report/cause_text.h"
#include "commands/session/summary.h"

#include <string.h>

#define FIRST_FEW 5 /* causes of a kind, in a report; `tautline audit` lists all of them, with all their episodes */

struct findings_text
{
    const struct report *report;
    const struct causes *causes;
    bool all;
};

static bool is_under(const struct cause *cause, enum finding_advice advice)
{
    return finding_kinds[cause->id].advice == advice;
}

static void write_episode(const struct findings_text *text, const struct cause *cause, const struct finding *finding)
{
    const struct report *report = text->report;
    struct arena *arena = report->session->arena;
    char day[16];
    date_print_words(day, finding->first->set->day);
    const char *id = finding->id == cause->id ? "" : arena_printf(arena, "%s: ", finding_kinds[finding->id].id);
    const char *lift = cause->lift_count > 1 ? arena_printf(arena, "%s: ", finding->first->lift) : "";
    const char *limit = finding_limit_words(report, finding);
    const char *sentence = arena_printf(arena, "%s: %s%s%s. %s%s%s", day, id, lift,
                                        with_day_words(arena, finding->fact), limit, *limit ? " " : "",
                                        finding_lines_words(report, finding));
    report_paragraph(report, text_visible(arena, sentence), 8);
}

/* The newest finding describes the cause; the audit also lists the others, and the findings that follow from the
 * cause. */
static void write_cause(const struct findings_text *text, const struct cause *cause)
{
    const struct report *report = text->report;
    struct arena *arena = report->session->arena;
    const char *effects = cause_effects(arena, cause);
    report_paragraph(report, arena_printf(arena, "%s: %s", cause_of_what(report, cause), cause_when(arena, cause)), 6);
    write_episode(text, cause, cause->newest);
    for (size_t i = 0; text->all && i < cause->count; i++)
        if (cause->findings[i] != cause->newest)
            write_episode(text, cause, cause->findings[i]);
    if (*effects && !text->all)
        report_paragraph(report, arena_printf(arena, "The same cause also led to %s.", effects), 8);
}

/* What applies to all findings of a kind is written once: why it matters, the source, what to do. */
static void write_kind_heading(const struct report *report, enum finding_id id, const struct cause *first)
{
    const struct finding_kind *kind = &finding_kinds[id];
    report_paragraph(report,
                     arena_printf(report->session->arena, "%s (%s): %s. %s. Source: %s.", kind->id,
                                  finding_severity_name(kind->severity), kind->why, cause_remedy(first),
                                  first->newest->source),
                     4);
}

static void write_kind(const struct findings_text *text, enum finding_id id)
{
    const struct report *report = text->report;
    size_t count = 0;
    for (size_t i = 0; i < text->causes->count; i++) {
        const struct cause *cause = &text->causes->items[i];
        if (cause->id != id)
            continue;
        if (!count++)
            write_kind_heading(report, id, cause);
        if (text->all || count <= FIRST_FEW)
            write_cause(text, cause);
    }
    if (!text->all && count > FIRST_FEW)
        output_printf(report->output, "      and %zu more; `tautline audit` lists them all.\n", count - FIRST_FEW);
}

/* -1: there is none. */
static int gravest(const struct causes *causes, enum finding_advice advice)
{
    int severity = -1;
    for (size_t i = 0; i < causes->count; i++)
        if (is_under(&causes->items[i], advice) && (int)finding_kinds[causes->items[i].id].severity > severity)
            severity = (int)finding_kinds[causes->items[i].id].severity;
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

static const char *heading_words(struct arena *arena, const struct findings *findings, const struct causes *causes)
{
    const char *words = "Findings:";
    for (int severity = FINDING_FAULT; severity >= FINDING_NOTE; severity--) {
        size_t count = 0;
        for (size_t i = 0; i < findings->count; i++)
            count += (int)finding_kinds[findings->items[i]->id].severity == severity;
        if (count)
            words = arena_printf(arena, "%s%s %zu %s%s", words, strchr(words, ' ') ? "," : "", count,
                                 finding_severity_name((enum finding_severity)severity), count == 1 ? "" : "s");
    }
    if (!findings->count)
        return "Findings: none";
    return arena_printf(arena, "%s, from %zu cause%s", words, causes->count, causes->count == 1 ? "" : "s");
}

static void write_findings(const struct report *report, bool all)
{
    struct arena *arena = report->session->arena;
    const struct findings *findings = session_findings(report->session);
    struct findings_text text = {report, causes_make(arena, findings, report->session->training), all};
    report_heading(report, heading_words(arena, findings, text.causes));
    for (int severity = FINDING_FAULT; severity >= FINDING_NOTE; severity--)
        for (int advice = 0; advice < ADVICE_COUNT; advice++)
            if (gravest(text.causes, (enum finding_advice)advice) == severity)
                write_group(&text, (enum finding_advice)advice);
    if (!findings->count)
        output_text(report->output, "\n");
}

void report_findings(const struct report *report)
{
    write_findings(report, false);
}

void report_every_finding(const struct report *report)
{
    write_findings(report, true);
}
