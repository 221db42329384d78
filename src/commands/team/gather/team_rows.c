#include "commands/team/gather/team_rows.h"

#include "base/number.h"
#include "base/text.h"
#include "commands/report/html/report_html_lifter.h"
#include "commands/session/summary.h"
#include "commands/team/gather/team_page_parts.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define BAR_STEP 4 /* units of the picture; a bar is one unit narrower */
#define BAR_HEIGHT 24.0

/* --- reasons for attention ---------------------------------------------------------------------------------------- */

static bool has_failed(const struct page *page, const struct team_lifter *lifter)
{
    (void)page;
    return lifter->work >= WORK_UNDRAWN || !lifter->state;
}

static bool has_faults(const struct page *page, const struct team_lifter *lifter)
{
    (void)page;
    return lifter->state->findings[FINDING_FAULT] > 0;
}

static bool has_news(const struct page *page, const struct team_lifter *lifter)
{
    return lifter->new_findings && !page->found->first_night;
}

static bool has_refusals(const struct page *page, const struct team_lifter *lifter)
{
    (void)page;
    return lifter->state->refused > 0;
}

static bool is_lighter(const struct page *page, const struct team_lifter *lifter)
{
    (void)page;
    for (size_t i = 0; i < lifter->state->answers.count; i++)
        if (lifter->state->answers.items[i].verdict == VERDICT_FALLING)
            return true;
    return false;
}

static bool is_quiet(const struct page *page, const struct team_lifter *lifter)
{
    return page && lifter;
}

/* A lifter belongs to the first group that applies. */
static const struct group
{
    const char *heading;
    bool (*holds)(const struct page *page, const struct team_lifter *lifter);
} groups[] = {
    {"Failed tonight", has_failed},
    {"Faults in the set-up", has_faults},
    {"New findings", has_news},
    {"Lines refused", has_refusals},
    {"A newest wave that is lighter", is_lighter},
    {"No fault, nothing refused", is_quiet},
};
_Static_assert(sizeof groups / sizeof *groups == PAGE_GROUPS, "the header counts them");
#define COLUMNS 8

size_t page_group_of(const struct page *page, const struct team_lifter *lifter)
{
    size_t group = 0;
    while (!groups[group].holds(page, lifter))
        group++;
    return group;
}

/* --- a lifter's row ------------------------------------------------------------------------------------------------- */

static const char *count_words(struct arena *arena, size_t count)
{
    return arena_printf(arena, "%zu", count);
}

static const char *tonnes(struct arena *arena, double kg)
{
    char text[32];
    number_fixed(text, sizeof text, kg / 1000, 1);
    return arena_printf(arena, "%s t", text);
}

/* Needs no escaping: a folder's name holds only letters, digits, - and _, none of which is special in a URL. */
static void put_link(const struct page *page, const struct team_lifter *lifter, const char *file, const char *text)
{
    html_open(page->html, "a");
    html_attribute(page->html, "href", arena_printf(page->arena, "lifters/%s/%s", lifter->folder, file));
    html_text(page->html, text);
    html_close(page->html);
}

/* Where there is no room for columns, the page shows the column's name next to the number. */
static void open_number(const struct page *page, const char *name)
{
    html_open_class(page->html, "td", "number");
    html_attribute(page->html, "data-name", name);
}

static void put_count(const struct page *page, const char *name, size_t count, const char *class_name)
{
    open_number(page, name);
    if (count && class_name)
        html_put(page->html, "span", class_name, count_words(page->arena, count));
    else if (count)
        html_text(page->html, count_words(page->arena, count));
    html_close(page->html);
}

static void put_path(const struct page *page, const char *class_name, const char *path)
{
    html_open_class(page->html, "path", class_name);
    html_attribute(page->html, "d", path);
    html_close(page->html);
}

/* One bar per week, with the team's newest week at the right; the weeks after a lifter stopped are empty. */
static void put_volumes(const struct page *page, const struct team_state *state)
{
    double most_kg = 0;
    int late = page->newest - state->volume_week;
    for (size_t i = 0; i < state->volumes_kg.count; i++)
        most_kg = fmax(most_kg, state->volumes_kg.items[i]);
    if (!(most_kg > 0))
        return;
    struct output *path = output_to_memory(page->arena);
    for (size_t i = 0; i < state->volumes_kg.count; i++) {
        int place = (int)TEAM_WEEKS - late - (int)(state->volumes_kg.count - i);
        int height = (int)lround(state->volumes_kg.items[i] / most_kg * BAR_HEIGHT);
        if (place >= 0 && height > 0)
            output_printf(path, "M%d 24v-%dh%dv%dz", place * BAR_STEP, height, BAR_STEP - 1, height);
    }
    html_open_class(page->html, "svg", "bars");
    html_attribute(page->html, "viewBox", arena_printf(page->arena, "0 0 %u 25", TEAM_WEEKS * BAR_STEP));
    html_attribute(page->html, "role", "img");
    html_attribute(page->html, "aria-label",
                   arena_printf(page->arena, "weekly volume: most %s, in the last week %s",
                                tonnes(page->arena, most_kg),
                                tonnes(page->arena, state->volumes_kg.items[state->volumes_kg.count - 1])));
    put_path(page, "ground",
             arena_printf(page->arena, "M0 24h%uv1h-%uz", TEAM_WEEKS * BAR_STEP, TEAM_WEEKS * BAR_STEP));
    put_path(page, NULL, output_memory(path, NULL));
    html_close(page->html);
}

/* How many lifts have which verdict; expand it for what each verdict is based on. */
static void put_answers(const struct page *page, const struct team_state *state)
{
    static const struct
    {
        enum verdict_kind verdict;
        const char *words;
    } shown[] = {{VERDICT_FALLING, "falling"},
                 {VERDICT_NEW_SETUP, "with a new set-up"},
                 {VERDICT_STALE, "not trained lately"},
                 {VERDICT_RISING, "rising"},
                 {VERDICT_LEVEL, "level"},
                 {VERDICT_OPEN, "open"},
                 {VERDICT_RESTARTED, "restarted"},
                 {VERDICT_TOO_EARLY, "too early to tell"},
                 {VERDICT_NO_WAVES, "without waves"}};
    struct html *html = page->html;
    if (!state->answers.count)
        return;
    html_open(html, "details");
    html_open(html, "summary");
    for (size_t i = 0; i < sizeof shown / sizeof *shown; i++) {
        size_t count = 0;
        for (size_t j = 0; j < state->answers.count; j++)
            count += state->answers.items[j].verdict == shown[i].verdict;
        if (!count)
            continue;
        html_put(html, "span", verdict_class(shown[i].verdict),
                 arena_printf(page->arena, "%zu %s", count, shown[i].words));
        html_text(html, " ");
    }
    html_close(html);
    html_open(html, "ul");
    for (size_t i = 0; i < state->answers.count; i++)
        html_put(html, "li", NULL,
                 arena_printf(page->arena, "%s: %s", state->answers.items[i].what, state->answers.items[i].text));
    html_close(html);
    html_close(html);
}

static void put_lifter(const struct page *page, const struct team_lifter *lifter)
{
    const struct team_state *state = lifter->state;
    struct html *html = page->html;
    html_open(html, "tr");
    html_open(html, "th");
    html_attribute(html, "scope", "row");
    if (state && *state->report)
        put_link(page, lifter, state->report, lifter->block->name);
    else
        html_text(html, lifter->block->name);
    html_close(html);
    if (!state) {
        html_open(html, "td");
        html_attribute(html, "colspan", count_words(page->arena, COLUMNS - 1));
        html_put(html, "p", "message", lifter->message);
        html_close(html);
        html_close(html);
        return;
    }
    html_put(html, "td", NULL, state->last);
    html_open(html, "td");
    put_volumes(page, state);
    html_close(html);
    html_open_class(html, "td", "answers");
    if (*lifter->message)
        html_put(html, "p", "message", lifter->message);
    put_answers(page, state);
    if (*state->next)
        html_put(html, "p", "quiet", arena_printf(page->arena, "Next: %s", state->next));
    html_close(html);
    size_t faults = state->findings[FINDING_FAULT], cautions = state->findings[FINDING_CAUTION];
    put_count(page, "new", lifter->new_findings, NULL);
    put_count(page, plural(faults, "fault", "faults"), faults, "severity fault");
    put_count(page, plural(cautions, "caution", "cautions"), cautions, NULL);
    open_number(page, "refused");
    if (state->refused)
        put_link(page, lifter, "refused.csv", count_words(page->arena, state->refused));
    html_close(html);
    html_close(html);
}

static void put_head(const struct page *page)
{
    static const struct
    {
        const char *title, *class_name;
    } columns[COLUMNS] = {
        {"Lifter", NULL},  {"Last day", NULL},   {"Volume per week", NULL}, {"Is each wave heavier?", NULL},
        {"New", "number"}, {"Faults", "number"}, {"Cautions", "number"},    {"Refused", "number"}};
    html_open(page->html, "thead");
    html_open(page->html, "tr");
    for (size_t i = 0; i < COLUMNS; i++) {
        html_open_class(page->html, "th", columns[i].class_name);
        html_attribute(page->html, "scope", "col");
        html_text(page->html, columns[i].title);
        html_close(page->html);
    }
    html_close(page->html);
    html_close(page->html);
}

/* Writes the lifters of one group, from `first` to before `end`. */
static void put_group(const struct page *page, size_t group, size_t members, size_t first, size_t end)
{
    struct html *html = page->html;
    size_t seen = 0;
    html_open(html, "tbody");
    html_open(html, "tr");
    html_open_class(html, "th", "group");
    html_attribute(html, "colspan", count_words(page->arena, COLUMNS));
    html_attribute(html, "scope", "rowgroup");
    html_text(html, arena_printf(page->arena, "%s: %zu", groups[group].heading, members));
    html_close(html);
    html_close(html);
    for (size_t i = 0; i < page->team->count && seen < end; i++)
        if (page_group_of(page, &page->team->lifters[i]) == group && seen++ >= first)
            put_lifter(page, &page->team->lifters[i]);
    html_close(html);
}

static void open_table(const struct page *page)
{
    html_open_class(page->html, "section", "scroll");
    html_attribute(page->html, "tabindex", "0");
    html_attribute(page->html, "aria-label", "Lifters");
    html_open_class(page->html, "table", "team");
    put_head(page);
}

static void close_table(const struct page *page)
{
    html_close(page->html);
    html_close(page->html);
}

void page_count_groups(const struct page *page, size_t members[PAGE_GROUPS])
{
    memset(members, 0, PAGE_GROUPS * sizeof *members);
    for (size_t i = 0; i < page->team->count; i++)
        members[page_group_of(page, &page->team->lifters[i])]++;
}

const char *page_group_heading(size_t group)
{
    return groups[group].heading;
}

void page_explain_rows(const struct page *page)
{
    html_put(page->html, "p", "quiet",
             "Lifters needing attention come first. Volume: a bar for each of the team's last 26 weeks, on the "
             "lifter's own scale. Is each wave "
             "heavier: how many lifts have which verdict; expand it for what each rests on. Next: "
             "the straight weights of the next waves.");
}

void page_put_rows(const struct page *page, size_t group, size_t members, size_t first, size_t end)
{
    open_table(page);
    put_group(page, group, members, first, end);
    close_table(page);
}

void page_put_all_rows(const struct page *page)
{
    size_t members[PAGE_GROUPS];
    page_count_groups(page, members);
    open_table(page);
    for (size_t i = 0; i < PAGE_GROUPS; i++)
        if (members[i])
            put_group(page, i, members[i], 0, members[i]);
    close_table(page);
}
