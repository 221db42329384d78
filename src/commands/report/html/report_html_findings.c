#include "commands/report/html/report_html_findings.h"

#include "commands/report/html/report_html_parts.h"

#include "commands/report/cause_text.h"
#include "commands/report/html/report_html.h"
#include "commands/report/report_findings.h"
#include "commands/session/session_part.h"
#include "commands/session/summary.h"

#include <string.h>

#define FIRST_FEW 5 /* causes of a kind that are shown; the rest can be expanded */

static bool is_of(const struct cause *cause, const char *lifter)
{
    return !strcmp(cause->newest->first->lifter, lifter);
}

size_t page_finding_count(const struct page *page, const char *lifter, enum finding_severity severity)
{
    const struct findings *findings = session_findings(page->report.session);
    size_t count = 0;
    struct lifter_span own = lifter_span(findings->items, findings->count, sizeof *findings->items, lifter_of_finding,
                                         lifter);
    for (size_t i = own.first; i < own.first + own.count; i++)
        count += finding_kinds[findings->items[i]->id].severity == severity;
    return count;
}

static void put_episode(struct page *page, const struct cause *cause, const struct finding *finding)
{
    struct html *html = page->html;
    struct arena *arena = page->report.session->arena;
    char day[16];
    date_print_words(day, finding->first->set->day);
    const char *id = finding->id == cause->id ? "" : arena_printf(arena, "%s: ", finding_kinds[finding->id].id);
    const char *lift = cause->lift_count > 1 ? arena_printf(arena, "%s: ", finding->first->lift) : "";
    const char *limit = finding_limit_words(&page->report, finding);
    html_text(html, arena_printf(arena, "%s: %s%s%s. %s%s", day, id, lift, with_day_words(arena, finding->fact), limit,
                                 *limit ? " " : ""));
    html_put(html, "span", "lines", finding_lines_words(&page->report, finding));
}

static void put_others(struct page *page, const struct cause *cause)
{
    struct html *html = page->html;
    html_open(html, "details");
    html_put(html, "summary", NULL,
             arena_printf(page->report.session->arena, "%zu more %s from this cause", cause->count - 1,
                          plural(cause->count - 1, "finding", "findings")));
    html_open(html, "ul");
    for (size_t i = 0; i < cause->count; i++) {
        if (cause->findings[i] == cause->newest)
            continue;
        html_open(html, "li");
        put_episode(page, cause, cause->findings[i]);
        html_close(html);
    }
    html_close(html);
    html_close(html);
}

static void put_cause(struct page *page, const struct cause *cause)
{
    struct html *html = page->html;
    struct arena *arena = page->report.session->arena;
    html_open(html, "li");
    html_put(html, "strong", NULL, cause_of_what(&page->report, cause));
    html_text(html, arena_printf(arena, ", %s. ", cause_when(arena, cause)));
    put_episode(page, cause, cause->newest);
    if (cause->count > 1)
        put_others(page, cause);
    html_close(html);
}

static void put_causes(struct page *page, const struct cause *const *causes, size_t count)
{
    html_open(page->html, "ul");
    for (size_t i = 0; i < count; i++)
        put_cause(page, causes[i]);
    html_close(page->html);
}

/* What applies to all findings of a kind is written once: why it matters, what to do, the source. */
static void put_kind(struct page *page, const struct cause *const *causes, size_t count)
{
    struct html *html = page->html;
    struct arena *arena = page->report.session->arena;
    const struct finding_kind *kind = &finding_kinds[causes[0]->id];
    const char *severity = finding_severity_name(kind->severity);
    html_open_class(html, "div", "kind");
    html_open(html, "p");
    html_put(html, "span", arena_printf(arena, "severity %s", severity), severity);
    html_text(html, " ");
    html_put(html, "code", NULL, kind->id);
    html_text(html, arena_printf(arena, ": %s. %s. Source: %s.", kind->why, cause_remedy(causes[0]),
                                 causes[0]->newest->source));
    html_close(html);
    put_causes(page, causes, count < FIRST_FEW ? count : FIRST_FEW);
    if (count > FIRST_FEW) {
        html_open(html, "details");
        html_put(html, "summary", NULL, arena_printf(arena, "%zu more", count - FIRST_FEW));
        put_causes(page, causes + FIRST_FEW, count - FIRST_FEW);
        html_close(html);
    }
    html_close(html);
}

static size_t of_kind(const struct causes *causes, const char *lifter, enum finding_id id, const struct cause **found)
{
    size_t count = 0;
    for (size_t i = 0; i < causes->count; i++)
        if (causes->items[i].id == id && is_of(&causes->items[i], lifter))
            found[count++] = &causes->items[i];
    return count;
}

/* -1: there is none. */
static int gravest(const struct causes *causes, const char *lifter, enum finding_advice advice)
{
    int severity = -1;
    for (size_t i = 0; i < causes->count; i++) {
        const struct finding_kind *kind = &finding_kinds[causes->items[i].id];
        if (is_of(&causes->items[i], lifter) && kind->advice == advice && (int)kind->severity > severity)
            severity = (int)kind->severity;
    }
    return severity;
}

static void put_group(struct page *page, const struct causes *causes, const char *lifter, enum finding_advice advice)
{
    const struct cause **found = ARENA_ARRAY(page->report.session->arena, const struct cause *, causes->count);
    html_heading(page->html, page->level + 1, finding_advice_words(advice));
    for (int severity = FINDING_FAULT; severity >= FINDING_NOTE; severity--) {
        for (int id = 0; id < FINDING_COUNT; id++) {
            if (finding_kinds[id].advice != advice || (int)finding_kinds[id].severity != severity)
                continue;
            size_t count = of_kind(causes, lifter, (enum finding_id)id, found);
            if (count)
                put_kind(page, found, count);
        }
    }
}

void page_findings(struct page *page, const char *lifter)
{
    const struct causes *causes = session_causes(page->report.session);
    bool any = false;
    page_section(page, lifter, "Findings");
    for (size_t i = 0; i < causes->count; i++)
        any |= is_of(&causes->items[i], lifter);
    html_put(page->html, "p", NULL,
             any ? "What a coach would point out, grouped by what to do about it: one entry per cause."
                 : "Nothing was found.");
    for (int severity = FINDING_FAULT; severity >= FINDING_NOTE; severity--)
        for (int advice = 0; advice < ADVICE_COUNT; advice++)
            if (gravest(causes, lifter, (enum finding_advice)advice) == severity)
                put_group(page, causes, lifter, (enum finding_advice)advice);
    html_close(page->html);
}
