/* The page's findings of one lifter, by what to do about them, the gravest first. */
#include "commands/report/html/report_html_parts.h"

#include "commands/session/summary.h"

#include <string.h>

#define FIRST_FEW 5 /* of a kind; the rest is a click away */

static bool is_of(const struct finding *finding, const char *lifter)
{
    return !strcmp(finding->first->lifter, lifter);
}

size_t page_finding_count(const struct page *page, const char *lifter, enum finding_severity severity)
{
    const struct findings *findings = session_findings(page->report.session);
    size_t count = 0;
    for (size_t i = 0; i < findings->count; i++)
        count += is_of(findings->items[i], lifter) && finding_kinds[findings->items[i]->id].severity == severity;
    return count;
}

static void put_finding(struct page *page, const struct finding *finding)
{
    struct html *html = page->html;
    html_open(html, "li");
    html_put(html, "strong", NULL, finding->first->lift);
    html_text(html, " ");
    html_text(html, finding_sentence(&page->report, finding));
    html_text(html, " ");
    html_put(html, "span", "lines", finding_lines_words(&page->report, finding));
    html_close(html);
}

static void put_kind(struct page *page, enum finding_id id, const struct finding *const *found, size_t count)
{
    struct html *html = page->html;
    const struct finding_kind *kind = &finding_kinds[id];
    const char *severity = finding_severity_name(kind->severity);
    html_open_class(html, "div", "kind");
    html_open(html, "p");
    html_put(html, "span", arena_printf(page->report.session->arena, "severity %s", severity), severity);
    html_text(html, " ");
    html_put(html, "code", NULL, kind->id);
    html_text(html, arena_printf(page->report.session->arena, ": %s. Source: %s.", kind->why, kind->source));
    html_close(html);
    html_open(html, "ul");
    for (size_t i = 0; i < count && i < FIRST_FEW; i++)
        put_finding(page, found[i]);
    html_close(html);
    if (count > FIRST_FEW) {
        html_open(html, "details");
        html_put(html, "summary", NULL, arena_printf(page->report.session->arena, "%zu more", count - FIRST_FEW));
        html_open(html, "ul");
        for (size_t i = FIRST_FEW; i < count; i++)
            put_finding(page, found[i]);
        html_close(html);
        html_close(html);
    }
    html_close(html);
}

/* Those of one kind, newest first: what to change next is about the newest. */
static size_t of_kind(const struct page *page, const char *lifter, enum finding_id id, const struct finding **found)
{
    const struct findings *findings = session_findings(page->report.session);
    size_t count = 0;
    for (size_t i = 0; i < findings->count; i++) {
        const struct finding *finding = findings->items[i];
        if (finding->id != id || !is_of(finding, lifter))
            continue;
        size_t at = count++;
        for (; at > 0 && found[at - 1]->last->set->day < finding->last->set->day; at--)
            found[at] = found[at - 1];
        found[at] = finding;
    }
    return count;
}

/* -1: there is none. */
static int gravest(const struct page *page, const char *lifter, enum finding_advice advice)
{
    const struct findings *findings = session_findings(page->report.session);
    int severity = -1;
    for (size_t i = 0; i < findings->count; i++) {
        const struct finding_kind *kind = &finding_kinds[findings->items[i]->id];
        if (is_of(findings->items[i], lifter) && kind->advice == advice && (int)kind->severity > severity)
            severity = (int)kind->severity;
    }
    return severity;
}

static void put_group(struct page *page, const char *lifter, enum finding_advice advice)
{
    const struct findings *findings = session_findings(page->report.session);
    const struct finding **found = ARENA_ARRAY(page->report.session->arena, const struct finding *, findings->count);
    html_heading(page->html, page->level + 1, finding_advice_words(advice));
    for (int severity = FINDING_FAULT; severity >= FINDING_NOTE; severity--) {
        for (int id = 0; id < FINDING_COUNT; id++) {
            if (finding_kinds[id].advice != advice || (int)finding_kinds[id].severity != severity)
                continue;
            size_t count = of_kind(page, lifter, (enum finding_id)id, found);
            if (count)
                put_kind(page, (enum finding_id)id, found, count);
        }
    }
}

void page_findings(struct page *page, const char *lifter)
{
    size_t all = 0;
    for (int severity = FINDING_NOTE; severity <= FINDING_FAULT; severity++)
        all += page_finding_count(page, lifter, (enum finding_severity)severity);
    page_section(page, lifter, "Findings");
    html_put(page->html, "p", NULL,
             all ? "What a coach would point at, by what to do about it." : "Nothing was found.");
    for (int severity = FINDING_FAULT; severity >= FINDING_NOTE; severity--)
        for (int advice = 0; advice < ADVICE_COUNT; advice++)
            if (gravest(page, lifter, (enum finding_advice)advice) == severity)
                put_group(page, lifter, (enum finding_advice)advice);
    html_close(page->html);
}
