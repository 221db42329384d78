/* index.html: one page for the coach in the morning. It needs no script and no other file to be read. */
#include "commands/team.h"

#include "commands/summary.h"
#include "writing/escape.h"

#include <string.h>

static const char style[] =
    "body{font:16px/1.5 system-ui,sans-serif;max-width:70rem;margin:2rem auto;padding:0 1rem;color:#1a1a1a;background:#fff}"
    "table{border-collapse:collapse;width:100%}th,td{text-align:left;vertical-align:top;padding:.3rem .6rem;border-bottom:1px solid #ccc}"
    "th{border-bottom:2px solid #666}td.n,th.n{text-align:right;font-variant-numeric:tabular-nums}ul{padding-left:1.2rem}"
    "a{color:#004b87}.fault{font-weight:700;color:#8a1c00}.scroll{overflow-x:auto}"
    "@media(prefers-color-scheme:dark){body{background:#16181b;color:#e6e6e6}a{color:#8ec5ff}.fault{color:#ff9d80}th,td{border-color:#444}}";

struct page
{
    const struct team *team;
    const struct team_page *page;
    struct output *output;
    struct arena *scratch;
};

static const char *safe(const struct page *page, const char *text)
{
    return escape_html(page->scratch, text);
}

/* A folder's name holds letters, digits, - and _ only, and these letters are no part of a URL's grammar. */
static void put_link(const struct page *page, const struct team_lifter *lifter, const char *file)
{
    output_printf(page->output, "<a href=\"lifters/%s/%s\">", safe(page, lifter->folder), file);
}

static void put_lifter(const struct page *page, const struct team_lifter *lifter)
{
    const struct team_state *state = lifter->state;
    struct output *output = page->output;
    output_text(output, "<tr><td>");
    if (state)
        put_link(page, lifter, state->report);
    output_printf(output, "%s%s</td>", safe(page, lifter->block->name), state ? "</a>" : "");
    if (!state) {
        output_printf(output, "<td colspan=\"7\" class=\"fault\">%s</td></tr>\n", safe(page, lifter->message));
        return;
    }
    output_printf(output, "<td>%s</td><td class=\"n\">%zu</td><td class=\"n%s\">%zu</td><td class=\"n\">%zu</td><td class=\"n\">%zu</td>",
                  safe(page, state->last), state->sets, state->findings[FINDING_FAULT] ? " fault" : "", state->findings[FINDING_FAULT],
                  state->findings[FINDING_CAUTION], lifter->new_findings);
    output_text(output, "<td class=\"n\">");
    if (state->refused)
        put_link(page, lifter, "refused.csv");
    output_printf(output, "%zu%s</td><td>", state->refused, state->refused ? "</a>" : "");
    if (*lifter->message)
        output_printf(output, "<p class=\"fault\">%s</p>", safe(page, lifter->message));
    for (size_t i = 0; i < state->sentences.count; i++)
        output_printf(output, "%s%s", i ? "<br>" : "", safe(page, state->sentences.items[i]));
    output_text(output, "</td></tr>\n");
}

static void put_lifters(const struct page *page)
{
    output_text(page->output, "<h2>Lifters</h2>\n<div class=\"scroll\"><table>\n<thead><tr><th>Lifter</th><th>Last day</th><th class=\"n\">Sets</th>"
                              "<th class=\"n\">Faults</th><th class=\"n\">Cautions</th><th class=\"n\">New</th><th class=\"n\">Refused</th>"
                              "<th>Is it overloading?</th></tr></thead>\n<tbody>\n");
    for (size_t i = 0; i < page->team->count; i++) {
        put_lifter(page, &page->team->lifters[i]);
        arena_reset(page->scratch);
    }
    output_text(page->output, "</tbody></table></div>\n");
}

static void put_fresh(const struct page *page)
{
    const struct team_page *found = page->page;
    output_text(page->output, "<h2>New since the night before</h2>\n");
    if (found->first_night)
        output_printf(page->output, "<p>This is the first night: all %zu %s are new. They stand in findings.csv.</p>\n", found->fresh.count,
                      plural(found->fresh.count, "finding", "findings"));
    else if (!found->fresh.count)
        output_text(page->output, "<p>No finding is new.</p>\n");
    else
        output_text(page->output, "<ul>\n");
    for (size_t i = 0; !found->first_night && i < found->fresh.count; i++) {
        const struct team_finding *finding = &found->fresh.items[i];
        output_printf(page->output, "<li><b>%s</b>, %s, %s: %s, %s: %s</li>\n", safe(page, finding->lifter), safe(page, finding->lift),
                      safe(page, finding->date), safe(page, finding->severity), safe(page, finding->id), safe(page, finding->message));
        arena_reset(page->scratch);
    }
    if (!found->first_night && found->fresh.count)
        output_text(page->output, "</ul>\n");
}

static void put_texts(const struct page *page, const char *heading, const char *const *items, size_t count)
{
    if (!count)
        return;
    output_printf(page->output, "<h2>%s</h2>\n<ul>\n", heading);
    for (size_t i = 0; i < count; i++)
        output_printf(page->output, "<li>%s</li>\n", safe(page, items[i]));
    output_text(page->output, "</ul>\n");
    arena_reset(page->scratch);
}

static void put_strangers(const struct page *page)
{
    const struct team_page *found = page->page;
    if (!found->strangers.count)
        return;
    output_text(page->output, "<h2>In the logs, without a [lifter] block</h2>\n<p>Their sets are in no folder here. Give each a block in the "
                              "gym file, with the log that names them.</p>\n<ul>\n");
    for (size_t i = 0; i < found->strangers.count; i++)
        output_printf(page->output, "<li>%s: %zu %s</li>\n", *found->strangers.items[i].name ? safe(page, found->strangers.items[i].name) : "no name",
                      found->strangers.items[i].sets, plural(found->strangers.items[i].sets, "set", "sets"));
    output_text(page->output, "</ul>\n");
    arena_reset(page->scratch);
}

void team_page_write(const struct team *team, const struct team_page *found, struct output *output)
{
    struct page page = {team, found, output, arena_new()};
    char today[16];
    date_print(today, team->today);
    output_printf(output, "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" "
                          "content=\"width=device-width, initial-scale=1\">\n<title>Team, %s</title>\n<style>%s</style>\n</head>\n<body>\n",
                  today, style);
    output_printf(output, "<h1>Team, %s</h1>\n<p>%zu %s; %zu not made tonight; %zu refused lines (<a href=\"refused.csv\">refused.csv</a>). All findings: "
                          "<a href=\"findings.csv\">findings.csv</a>; this table: <a href=\"team.csv\">team.csv</a>; all of it for queries: "
                          "<a href=\"team.sqlite\">team.sqlite</a>.</p>\n",
                  today, team->count, plural(team->count, "lifter", "lifters"), found->failed, found->refused);
    put_fresh(&page);
    put_strangers(&page);
    put_texts(&page, "In logs that are not theirs", found->misplaced.items, found->misplaced.count);
    put_lifters(&page);
    put_texts(&page, "Folders without a [lifter] block, left as they were", found->gone.items, found->gone.count);
    output_text(output, "<p>Nothing here is medical advice. Have set-ups and loads checked on the spot by a qualified coach.</p>\n</body>\n</html>\n");
    arena_free(page.scratch);
}
