#include "commands/team/gather/team_page.h"

#include "base/text.h"
#include "commands/session/summary.h"
#include "commands/team/gather/team_page_parts.h"
#include "commands/team/gather/team_rows.h"
#include "commands/team/gather/team_sheets.h"
#include "writing/html/html_search.h"

#include <stdio.h>
#include <string.h>

#define FRESH_SHOWN 200 /* at most, lifters with new findings on the page of a large team */

/* --- what is new, and who is missing -------------------------------------------------------------------------------- */

static const char *finding_words(const struct page *page, const struct team_finding *finding)
{
    return arena_printf(page->arena, "%s, %s: %s, %s: %s", finding->lift, finding->date, finding->severity, finding->id,
                        finding->message);
}

/* A single finding is shown at once; several can be expanded. */
static void put_fresh_of_lifter(const struct page *page, const struct team_finding *findings, size_t count)
{
    struct html *html = page->html;
    html_open(html, "li");
    if (count == 1) {
        html_put(html, "strong", NULL, findings->lifter);
        html_text(html, arena_printf(page->arena, ", %s", finding_words(page, findings)));
        html_close(html);
        return;
    }
    html_open(html, "details");
    html_open(html, "summary");
    html_put(html, "strong", NULL, findings->lifter);
    html_text(html, arena_printf(page->arena, ": %zu findings", count));
    html_close(html);
    html_open(html, "ul");
    for (size_t i = 0; i < count; i++)
        html_put(html, "li", NULL, finding_words(page, &findings[i]));
    html_close(html);
    html_close(html);
    html_close(html);
}

static void put_fresh(const struct page *page)
{
    const struct team_page *found = page->found;
    struct html *html = page->html;
    html_heading(html, 2, "New since the night before");
    if (found->news_unknown)
        html_put(
            html, "p", "message",
            "Which findings are new is unknown: neither the database nor findings.csv of the last night can be read.");
    if (found->news_from_csv)
        html_put(html, "p", "message",
                 "Compared with findings.csv of the last night, because the database cannot be read.");
    if (found->news_unknown)
        return;
    if (found->first_night)
        html_put(html, "p", NULL,
                 arena_printf(page->arena, "This is the first night: all %zu %s are new. They are in findings.csv.",
                              found->fresh.count, plural(found->fresh.count, "finding", "findings")));
    else if (!found->fresh.count)
        html_put(html, "p", NULL, "No finding is new.");
    if (found->first_night || !found->fresh.count)
        return;
    html_open(html, "ul");
    size_t shown = 0;
    for (size_t i = 0, end; i < found->fresh.count && shown < FRESH_SHOWN; i = end, shown++) {
        for (end = i + 1;
             end < found->fresh.count && !strcmp(found->fresh.items[end].lifter, found->fresh.items[i].lifter); end++)
            continue;
        put_fresh_of_lifter(page, &found->fresh.items[i], end - i);
    }
    if (shown == FRESH_SHOWN)
        html_put(html, "li", NULL, "The others are in team.sqlite; --new-findings lists them.");
    html_close(html);
}

static void put_texts(const struct page *page, const char *heading, const char *explained, const char *const *items,
                      size_t count)
{
    if (!count)
        return;
    html_heading(page->html, 2, heading);
    if (explained)
        html_put(page->html, "p", NULL, explained);
    html_open(page->html, "ul");
    for (size_t i = 0; i < count; i++)
        html_put(page->html, "li", NULL, items[i]);
    html_close(page->html);
}

static void put_strangers(const struct page *page)
{
    const struct team_page *found = page->found;
    const char **lines = ARENA_ARRAY(page->arena, const char *, found->strangers.count + 1);
    for (size_t i = 0; i < found->strangers.count; i++) {
        const struct name_count *stranger = &found->strangers.items[i];
        lines[i] = arena_printf(page->arena, "%s: %zu %s", *stranger->name ? stranger->name : "no name", stranger->sets,
                                plural(stranger->sets, "set", "sets"));
    }
    put_texts(page, "In the logs, without a [lifter] block",
              "These lifters have no folder here. Give each a block in the gym file, with the log that names them.",
              lines, found->strangers.count);
}

static void put_refusals(const struct page *page)
{
    const struct team_page *found = page->found;
    if (found->first_night || !found->new_refused)
        return;
    put_texts(page, "Newly refused lines",
              found->refusals.count < found->new_refused ? "The first of them; all are in refused.csv." : NULL,
              found->refusals.items, found->refusals.count);
}

/* What concerns more than one lifter. Without it, the night would look like a good one. */
static void put_troubles(const struct page *page)
{
    const struct team_page *found = page->found;
    const struct team *team = page->team;
    if (found->clock)
        html_put(page->html, "p", "message", found->clock);
    if (found->store_trouble)
        html_put(page->html, "p", "message", found->store_trouble);
    put_texts(page, "Refused in the gym file", "A lifter who is missing may be missing because of it.",
              team->gym_errors.items, team->gym_errors.count);
    put_texts(page, "No longer in the gym file", "Their folders are left as they were.", found->left.items,
              found->left.count);
}

static void put_file(const struct page *page, const char *before, const char *file)
{
    html_text(page->html, before);
    html_open(page->html, "a");
    html_attribute(page->html, "href", file);
    html_text(page->html, file);
    html_close(page->html);
}

static void put_summary(const struct page *page, const char *title)
{
    struct html *html = page->html;
    const struct team_page *found = page->found;
    html_heading(html, 1, title);
    html_open(html, "p");
    html_text(html, arena_printf(page->arena, "%zu %s; %zu failed tonight; %zu refused %s, %zu of them new,",
                                 page->team->count, plural(page->team->count, "lifter", "lifters"), found->failed,
                                 found->refused, plural(found->refused, "line", "lines"), found->new_refused));
    put_file(page, " in ", "refused.csv");
    put_file(page, ". All findings: ", "findings.csv");
    put_file(page, ". One row per lifter: ", "team.csv");
    put_file(page, ". Everything, as a database: ", "team.sqlite");
    html_text(html, ".");
    html_close(html);
}

static void put_lifters(const struct page *page)
{
    html_heading(page->html, 2, "Lifters");
    page_explain_rows(page);
    if (page_is_large(page->team))
        page_put_groups(page);
    else
        page_put_all_rows(page);
}

static void put_main(const struct page *page)
{
    const struct team_page *found = page->found;
    html_open(page->html, "main");
    put_troubles(page);
    put_fresh(page);
    put_refusals(page);
    put_strangers(page);
    put_texts(page, "In logs that are not theirs", NULL, found->misplaced.items, found->misplaced.count);
    put_lifters(page);
    put_texts(page, "Folders without a [lifter] block, left as they were", NULL, found->gone.items, found->gone.count);
    html_close(page->html);
}

bool team_page_write(const struct team *team, const struct team_page *found, struct output *output)
{
    struct arena *arena = arena_new();
    struct page page = {.team = team, .found = found, .html = html_new(arena, output), .arena = arena};
    char today[16];
    for (size_t i = 0; i < team->count; i++)
        if (team->lifters[i].state && team->lifters[i].state->volume_week > page.newest)
            page.newest = team->lifters[i].state->volume_week;
    date_print(today, team->today);
    const char *title = arena_printf(arena, "Team, %s", today);
    html_page_open_with(page.html, title, "report.css", page_is_large(team) ? html_search_policy : NULL);
    html_open(page.html, "header");
    put_summary(&page, title);
    html_close(page.html);
    put_main(&page);
    html_open(page.html, "footer");
    html_heading(page.html, 2, "Safety");
    html_put(page.html, "p", NULL, words_to_mind);
    html_close(page.html);
    html_page_close(page.html);
    bool written = page_write_sheets(&page, title);
    arena_free(arena);
    return written;
}
