#include "commands/team/gather/team_sheets.h"

#include "commands/team/gather/team_page_parts.h"
#include "commands/team/gather/team_rows.h"
#include "writing/html/html_search.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#define LARGE 500u /* lifters, at most, on one page */

bool page_is_large(const struct team *team)
{
    return team->count > LARGE;
}

static const char *sheet_name(const struct page *page, size_t number)
{
    return arena_printf(page->arena, "lifters-%zu.html", number);
}

static size_t sheets_of(size_t members)
{
    return (members + LARGE - 1) / LARGE;
}

static void put_link(const struct page *page, const char *file, const char *text)
{
    html_open(page->html, "a");
    html_attribute(page->html, "href", file);
    html_text(page->html, text);
    html_close(page->html);
}

static void put_search(const struct page *page)
{
    const struct team *team = page->team;
    const char **names = ARENA_ARRAY(page->arena, const char *, team->count + 1),
               **links = ARENA_ARRAY(page->arena, const char *, team->count + 1);
    for (size_t i = 0; i < team->count; i++) {
        const struct team_state *state = team->lifters[i].state;
        names[i] = team->lifters[i].block->name;
        links[i] = state && *state->report
                       ? arena_printf(page->arena, "lifters/%s/%s", team->lifters[i].folder, state->report)
                       : "";
    }
    html_search(page->html, "Find a lifter", names, links, team->count);
}

void page_put_groups(const struct page *page)
{
    struct html *html = page->html;
    size_t members[PAGE_GROUPS], number = 1;
    page_count_groups(page, members);
    put_search(page);
    html_open(html, "ul");
    for (size_t i = 0; i < PAGE_GROUPS; i++) {
        if (!members[i])
            continue;
        html_open(html, "li");
        html_text(html, arena_printf(page->arena, "%s: %zu: ", page_group_heading(i), members[i]));
        for (size_t j = 0; j < sheets_of(members[i]); j++, number++) {
            html_text(html, j ? ", " : "");
            put_link(page, sheet_name(page, number),
                     arena_printf(page->arena, "%zu to %zu", j * LARGE + 1,
                                  j * LARGE + LARGE < members[i] ? j * LARGE + LARGE : members[i]));
        }
        html_close(html);
    }
    html_close(html);
}

static bool write_sheet(const struct page *page, const char *title, size_t number, size_t group, size_t members,
                        size_t first)
{
    struct arena *arena = arena_new();
    struct output *output = output_open_in(arena, page->team->root, sheet_name(page, number));
    struct page sheet = *page;
    if (output) {
        sheet.arena = arena;
        sheet.html = html_new(arena, output);
        html_page_open(sheet.html, title, "report.css");
        html_open(sheet.html, "header");
        html_heading(sheet.html, 1, title);
        html_open(sheet.html, "p");
        put_link(&sheet, "index.html", "The whole team");
        html_close(sheet.html);
        html_close(sheet.html);
        html_open(sheet.html, "main");
        html_heading(sheet.html, 2, page_group_heading(group));
        page_explain_rows(&sheet);
        page_put_rows(&sheet, group, members, first, first + LARGE);
        html_close(sheet.html);
        html_page_close(sheet.html);
    }
    bool written = output && output_commit(output);
    int error = errno;
    arena_free(arena);
    errno = error;
    return written;
}

bool page_write_sheets(const struct page *page, const char *title)
{
    size_t members[PAGE_GROUPS], number = 1;
    page_count_groups(page, members);
    for (size_t i = 0; i < PAGE_GROUPS && page_is_large(page->team); i++)
        for (size_t j = 0; j < sheets_of(members[i]); j++)
            if (!write_sheet(page, title, number++, i, members[i], j * LARGE))
                return false;
    while (!unlinkat(page->team->root, sheet_name(page, number), 0))
        number++;
    return true;
}
