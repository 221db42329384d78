#include "commands/team/gather/team_summary.h"

#include "base/text.h"
#include "commands/session/summary.h"

#include <stdio.h>
#include <string.h>

#define MOST_LINES 20u
#define LAST_LINES 1u /* kept free for the line that says where to read on */

struct lines
{
    struct arena *arena;
    struct output *output;
    size_t written, dropped;
};

static void put_line(struct lines *lines, const char *text)
{
    if (lines->written + LAST_LINES >= MOST_LINES - 1) {
        lines->dropped++;
        return;
    }
    output_printf(lines->output, "%s\n", text_cut(lines->arena, text_visible(lines->arena, text), 160));
    lines->written++;
}

static void put_texts(struct lines *lines, const char *heading, const char *const *texts, size_t count)
{
    if (!count)
        return;
    put_line(lines, arena_printf(lines->arena, "%s: %zu", heading, count));
    for (size_t i = 0; i < count; i++)
        put_line(lines, arena_printf(lines->arena, "  %s", texts[i]));
}

static void put_works(struct lines *lines, const struct team *team, enum team_work work, const char *heading)
{
    size_t count = 0;
    for (size_t i = 0; i < team->count; i++)
        count += team->lifters[i].work == work;
    if (count)
        put_line(lines, arena_printf(lines->arena, "%s: %zu", heading, count));
    for (size_t i = 0; i < team->count && count; i++)
        if (team->lifters[i].work == work)
            put_line(lines,
                     arena_printf(lines->arena, "  %s: %s", team->lifters[i].block->name, team->lifters[i].message));
}

static void put_news(struct lines *lines, const struct team_page *page)
{
    if (page->first_night) {
        put_line(lines, arena_printf(lines->arena, "The first night: all %zu %s are new.", page->fresh.count,
                                     plural(page->fresh.count, "finding", "findings")));
        return;
    }
    if (page->fresh.count)
        put_line(lines, arena_printf(lines->arena, "New findings: %zu", page->fresh.count));
    for (size_t i = 0; i < page->fresh.count; i++) {
        const struct team_finding *finding = &page->fresh.items[i];
        put_line(lines, arena_printf(lines->arena, "  %s, %s, %s: %s, %s: %s", finding->lifter, finding->lift,
                                     finding->date, finding->severity, finding->id, finding->message));
    }
}

static void put_refusals(struct lines *lines, const struct team_page *page)
{
    if (!page->new_refused)
        return;
    put_line(lines, arena_printf(lines->arena, "New refused lines: %zu (%zu already known)", page->new_refused,
                                 page->refused - page->new_refused));
    for (size_t i = 0; i < page->refusals.count; i++)
        put_line(lines, arena_printf(lines->arena, "  %s", page->refusals.items[i]));
}

static void put_troubles(struct lines *lines, const struct team *team, const struct team_page *page)
{
    put_texts(lines, "Refused in the gym file", team->gym_errors.items, team->gym_errors.count);
    if (page->clock)
        put_line(lines, page->clock);
    if (page->store_trouble)
        put_line(lines, page->store_trouble);
    if (page->news_unknown)
        put_line(
            lines,
            "Which findings are new is unknown: neither the database nor findings.csv of the last night can be read.");
    if (page->news_from_csv)
        put_line(
            lines,
            "New findings were worked out from findings.csv of the last night, because the database cannot be read.");
    put_works(lines, team, WORK_KEPT, "Results of an earlier night kept");
    put_works(lines, team, WORK_FAILED, "Failed");
    put_works(lines, team, WORK_UNDRAWN, "Without a picture");
    put_texts(lines, "No longer in the gym file", page->left.items, page->left.count);
}

bool team_summary_write(const struct team *team, const struct team_page *page, int status, const char *path)
{
    static const char *const words[] = {"nothing new", "something new", "", "something failed"};
    struct lines lines = {.arena = arena_new()};
    char today[16];
    lines.output = output_open(lines.arena, path);
    if (!lines.output) {
        arena_free(lines.arena);
        return false;
    }
    date_print(today, team->today);
    put_line(&lines, arena_printf(lines.arena, "Team, %s: %s (status %d)", today, words[status & 3], status));
    put_line(&lines,
             arena_printf(lines.arena, "%zu %s: %zu done, %zu unchanged, %zu without a picture, %zu kept, %zu failed",
                          team->count, plural(team->count, "lifter", "lifters"), page->counts[WORK_DONE],
                          page->counts[WORK_UNCHANGED], page->counts[WORK_UNDRAWN], page->counts[WORK_KEPT],
                          page->counts[WORK_FAILED]));
    put_troubles(&lines, team, page);
    put_news(&lines, page);
    put_refusals(&lines, page);
    if (page->new_said)
        put_line(&lines, "The logs name lifters who have no block, or whose log this is not: see the page.");
    if (lines.dropped)
        output_printf(lines.output, "... and %zu more lines\n", lines.dropped);
    output_printf(lines.output, "The page: %s/index.html\n", text_visible(lines.arena, team->into));
    bool good = output_commit(lines.output);
    arena_free(lines.arena);
    return good;
}
