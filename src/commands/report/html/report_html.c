#include "commands/report/html/report_html.h"

#include "analysis/evaluated_set.h"
#include "base/text.h"
#include "commands/report/html/report_html_closing.h"
#include "commands/report/html/report_html_drawing.h"
#include "commands/report/html/report_html_findings.h"
#include "commands/report/html/report_html_lifter.h"
#include "commands/report/html/report_html_parts.h"
#include "commands/session/session_part.h"
#include "commands/session/summary.h"

#include <stdlib.h>
#include <string.h>

#define PICTURE_WIDTH 720
#define PICTURE_HEIGHT 500
/* A page of more is too large to send, and takes minutes to draw: no pictures of lifts without chain or band. */
#define FEW_LIFTERS 6
#define FEW_LIFTS 200 /* each lifter's own */

static const char *name_or_nobody(const char *lifter)
{
    return *lifter ? lifter : "No lifter named";
}

void page_section(struct page *page, const char *lifter, const char *title)
{
    static const char *const headings[] = {"h1", "h2", "h3", "h4"};
    struct arena *arena = page->report.session->arena;
    const char *id = html_id(page->html, arena_printf(arena, "%s %s", lifter, title));
    html_open(page->html, "section");
    if (page->level > 2) /* several sections have this title */
        html_attribute(page->html, "aria-label", arena_printf(arena, "%s: %s", name_or_nobody(lifter), title));
    else
        html_attribute(page->html, "aria-labelledby", id);
    html_open(page->html, headings[page->level - 1]);
    html_attribute(page->html, "id", id);
    html_text(page->html, title);
    html_close(page->html);
    if (page->level == 2)
        *LIST_ADD(arena, &page->entries) = (struct page_entry){id, title};
}

/* --- who is on it ---------------------------------------------------------------------------------------------------
 */

struct gravity
{
    const char *lifter;
    size_t findings[FINDING_FAULT + 1];
};

static int by_gravity(const void *left, const void *right)
{
    const struct gravity *a = left, *b = right;
    for (int severity = FINDING_FAULT; severity >= FINDING_NOTE; severity--)
        if (a->findings[severity] != b->findings[severity])
            return a->findings[severity] < b->findings[severity] ? 1 : -1;
    return strcmp(a->lifter, b->lifter);
}

static void find_lifters(struct page *page)
{
    struct arena *arena = page->report.session->arena;
    const struct training *training = page->report.session->training;
    LIST(struct gravity) list = {0};
    for (size_t i = 0; i < training->count; i++) {
        if (i && !strcmp(training->sets[i].lifter, training->sets[i - 1].lifter))
            continue;
        struct gravity *gravity = LIST_ADD(arena, &list);
        gravity->lifter = training->sets[i].lifter;
        for (int severity = FINDING_NOTE; severity <= FINDING_FAULT; severity++)
            gravity->findings[severity] = page_finding_count(page, gravity->lifter, (enum finding_severity)severity);
    }
    if (list.count)
        qsort(list.items, list.count, sizeof *list.items, by_gravity);
    const char **lifters = ARENA_ARRAY(arena, const char *, list.count);
    for (size_t i = 0; i < list.count; i++)
        lifters[i] = list.items[i].lifter;
    page->lifters = lifters;
    page->lifter_count = list.count;
}

/* --- the index of a team
 * ------------------------------------------------------------------------------------------------ */

struct verdicts
{
    size_t rising, level, falling, other;
};

static struct verdicts count_verdicts(const struct page *page, const char *lifter)
{
    struct verdicts verdicts = {0};
    struct lifter_span own = lifter_span(page->report.verdicts, page->report.verdict_count,
                                         sizeof *page->report.verdicts, lifter_of_verdict, lifter);
    for (size_t i = 0; i < own.count; i++) {
        const struct verdict *verdict = &page->report.verdicts[own.first + i];
        bool rising = verdict->kind == VERDICT_RISING, level = verdict->kind == VERDICT_LEVEL,
             falling = verdict->kind == VERDICT_FALLING;
        verdicts.rising += rising;
        verdicts.level += level;
        verdicts.falling += falling;
        verdicts.other += verdict->waves && !rising && !level && !falling;
    }
    return verdicts;
}

static void count_cell(struct html *html, struct arena *arena, size_t count)
{
    html_put(html, "td", "number", arena_printf(arena, "%zu", count));
}

static void index_row(struct page *page, const char *lifter, const char *id)
{
    struct html *html = page->html;
    struct arena *arena = page->report.session->arena;
    struct verdicts verdicts = count_verdicts(page, lifter);
    html_open(html, "tr");
    html_open(html, "th");
    html_attribute(html, "scope", "row");
    html_open(html, "a");
    html_attribute(html, "href", arena_printf(arena, "#%s", id));
    html_text(html, name_or_nobody(lifter));
    html_close(html);
    html_close(html);
    for (int severity = FINDING_FAULT; severity >= FINDING_NOTE; severity--)
        count_cell(html, arena, page_finding_count(page, lifter, (enum finding_severity)severity));
    count_cell(html, arena, verdicts.rising);
    count_cell(html, arena, verdicts.level);
    count_cell(html, arena, verdicts.falling);
    count_cell(html, arena, verdicts.other);
    html_close(html);
}

static void put_index(struct page *page, const char *const *ids)
{
    static const char *const titles[] = {"lifter", "faults", "cautions", "notes",
                                         "rising", "level",  "falling",  "other"};
    struct html *html = page->html;
    page_section(page, "", "Lifters to look at first");
    html_put(html, "p", "quiet",
             "The lifters with the most severe findings come first. Then: how many lifts rise from wave to wave, by "
             "lift and focus. Other: nothing "
             "can be said yet, or the lift is no longer trained.");
    html_open_class(html, "div", "scroll");
    html_attribute(html, "tabindex", "0");
    html_attribute(html, "role", "group");
    html_attribute(html, "aria-label", "Lifters");
    html_open(html, "table");
    html_put(html, "caption", NULL, "Findings and verdicts on the newest waves");
    html_open(html, "thead");
    html_open(html, "tr");
    for (size_t i = 0; i < sizeof titles / sizeof *titles; i++) {
        html_open_class(html, "th", i ? "number" : NULL);
        html_attribute(html, "scope", "col");
        html_text(html, titles[i]);
        html_close(html);
    }
    html_close(html);
    html_close(html);
    html_open(html, "tbody");
    for (size_t i = 0; i < page->lifter_count; i++)
        index_row(page, page->lifters[i], ids[i]);
    for (int i = 0; i < 3; i++)
        html_close(html);
    if (page->pictures.style.only_ar && page->lifter_count > FEW_LIFTERS)
        html_put(html, "p", "quiet",
                 "With this many lifters, only lifts with chain or band have pictures here: tautline report "
                 "--lifter NAME --html FILE makes a page of one lifter with all of them.");
    page_figure(page, picture_find(&page->pictures, PICTURE_TEAM, "", "", FOCUS_UNSAID));
    html_close(html);
}

/* --- from top to bottom
 * -------------------------------------------------------------------------------------------------- */

static void put_lifter(struct page *page, const char *lifter)
{
    page_year(page, lifter);
    page_verdicts(page, lifter);
    page_findings(page, lifter);
    page_waves(page, lifter);
    page_loads(page, lifter);
    page_weeks(page, lifter);
    page_strength(page, lifter);
}

static void put_lifters(struct page *page)
{
    struct html *html = page->html;
    if (page->lifter_count < 2) {
        page->level = 2;
        if (page->lifter_count)
            put_lifter(page, page->lifters[0]);
        return;
    }
    const char **ids = ARENA_ARRAY(page->report.session->arena, const char *, page->lifter_count);
    for (size_t i = 0; i < page->lifter_count; i++)
        ids[i] = html_id(html, name_or_nobody(page->lifters[i]));
    put_index(page, ids);
    page->level = 3;
    for (size_t i = 0; i < page->lifter_count; i++) {
        *LIST_ADD(page->report.session->arena, &page->entries) = (struct page_entry){ids[i],
                                                                                     name_or_nobody(page->lifters[i])};
        html_open_class(html, "section", "lifter");
        html_attribute(html, "aria-labelledby", ids[i]);
        html_open(html, "h2");
        html_attribute(html, "id", ids[i]);
        html_text(html, name_or_nobody(page->lifters[i]));
        html_close(html);
        page_one_of_many(page, page->lifters[i], put_lifter);
        html_close(html);
    }
}

static void put_lines(struct html *html, struct arena *arena, struct output *lines)
{
    size_t length;
    const char *text = output_memory(lines, &length), *end = text + length;
    for (const char *line = text, *next; line < end; line = next + 1) {
        next = memchr(line, '\n', (size_t)(end - line));
        next = next ? next : end;
        html_put(html, "p", "quiet", arena_text(arena, line, (size_t)(next - line)));
    }
}

/* One line under the title; the full text is the last section. */
static void put_safety_link(const struct page *page, struct html *html)
{
    html_open_class(html, "p", "quiet");
    html_text(html, "Have set-ups and loads checked on the spot by a qualified coach: ");
    html_open(html, "a");
    html_attribute(html, "href",
                   arena_printf(page->report.session->arena, "#%s", page->entries.items[page->entries.count - 1].id));
    html_text(html, "Safety");
    html_close(html);
    html_text(html, ".");
    html_close(html);
}

static void put_header(const struct page *page, struct html *html, const char *title)
{
    struct arena *arena = page->report.session->arena;
    struct output *summary = output_to_memory(arena);
    summary_read(page->report.session, summary);
    html_open(html, "header");
    html_heading(html, 1, title);
    put_lines(html, arena, summary);
    if (page->undrawn)
        html_put(html, "p", "drawing-note", page->undrawn);
    if (page->pictures.style.only_ar && page->lifter_count <= FEW_LIFTERS)
        html_put(html, "p", "drawing-note",
                 "With this many lifts, only lifts with chain or band have pictures here: tautline report --lift NAME "
                 "--html FILE makes a page of one lift with all of them.");
    const char *sheet = page->report.session->options->page;
    if (sheet) {
        const char *slash = strrchr(sheet, '/');
        html_open(html, "p");
        html_open(html, "a");
        html_attribute(html, "href", slash ? slash + 1 : sheet);
        html_text(html, "One page to print");
        html_close(html);
        html_close(html);
    }
    put_safety_link(page, html);
    html_open(html, "nav");
    html_attribute(html, "aria-label", "On this page");
    html_open(html, "ul");
    for (size_t i = 0; i < page->entries.count; i++) {
        html_open(html, "li");
        html_open(html, "a");
        html_attribute(html, "href", arena_printf(arena, "#%s", page->entries.items[i].id));
        html_text(html, page->entries.items[i].title);
        html_close(html);
        html_close(html);
    }
    for (int i = 0; i < 3; i++)
        html_close(html);
}

/* `body` is written before the header, because the header lists its sections. */
static struct page page_make(struct session *session, struct output *body)
{
    struct page page = {.report = report_make(session, body), .html = html_new(session->arena, body), .level = 2};
    page.report.several_lifters = false;
    find_lifters(&page);
    size_t lifts;
    training_by_lift(session->arena, session->training, &lifts);
    page.pictures = pictures_make(
        session, &(struct picture_style){.kind = GP_SVG,
                                         .width = PICTURE_WIDTH,
                                         .height = PICTURE_HEIGHT,
                                         .for_page = true,
                                         .only_ar = page.lifter_count > FEW_LIFTERS || lifts > FEW_LIFTS});
    page_draw(&page);
    return page;
}

static void put_body(struct page *page)
{
    html_open(page->html, "main");
    put_lifters(page);
    page->level = 2;
    page_assumed(page);
    page_refused(page);
    page_words(page);
    html_close(page->html);
    html_open(page->html, "footer");
    page_cautions(page);
    html_close(page->html);
}

void report_html(struct session *session, struct output *output)
{
    struct output *body = output_to_spool(session->arena);
    struct page page = page_make(session, body);
    struct html *whole = html_new(session->arena, output);
    const char *title = "Training report";
    if (page.lifter_count == 1 && *page.lifters[0])
        title = arena_printf(session->arena, "Training report: %s", text_visible(session->arena, page.lifters[0]));
    put_body(&page);
    html_page_open(whole, title, "report.css");
    put_header(&page, whole, title);
    html_include(whole, body);
    html_page_close(whole);
    page_end_drawing(&page);
}
