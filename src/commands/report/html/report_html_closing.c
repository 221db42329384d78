#include "commands/report/html/report_html_closing.h"

#include "commands/report/html/report_html_parts.h"

#include "commands/report/html/report_html.h"
#include "commands/session/summary.h"

#include <string.h>

void page_assumed(struct page *page)
{
    struct arena *arena = page->report.session->arena;
    size_t counts[ASSUMPTION_BITS];
    LIST(const char *) cells = {0};
    assumptions_count(page->report.session->training, counts);
    for (int bit = 0; bit < ASSUMPTION_BITS; bit++) {
        char sets[32];
        const char *meaning, *settle;
        if (!counts[bit] || !assumption_explain(page->report.session, (enum assumption)(1 << bit), &meaning, &settle))
            continue;
        *LIST_ADD(arena, &cells) = meaning;
        *LIST_ADD(arena, &cells) = arena_copy(arena, grouped_count(sets, counts[bit]));
        *LIST_ADD(arena, &cells) = settle;
    }
    page_section(page, "", "What was assumed");
    static const char *const titles[] = {"assumed", "sets", "to fix"};
    if (cells.count)
        html_table_of_words(page->html, "Assumptions behind the loads and percentages", titles, 3, cells.items,
                            cells.count);
    else
        html_put(page->html, "p", NULL, "Nothing: everything behind the loads was measured or logged.");
    if (!page->report.session->gym->path)
        html_put(page->html, "p", NULL,
                 "No gym file was read. Describe chains, bands, heights and tested maxes in gym.ini, in the folder of "
                 "the log, "
                 "and these numbers become more exact; tautline-gym(5) says how.");
    html_close(page->html);
}

void page_refused(struct page *page)
{
    struct arena *arena = page->report.session->arena;
    const struct diags *diags = page->report.session->diags;
    size_t all = diags_total(diags, SEVERITY_ERROR) + diags_total(diags, SEVERITY_FAILURE), shown = 0;
    LIST(const char *) cells = {0};
    for (const struct diag *diag = diags_first(diags); diag; diag = diag->next) {
        if (diag_severity(diag->id) < SEVERITY_ERROR)
            continue;
        const char *hint = diag->hint ? diag->hint : diag_hint(diag->id);
        const char *file = diag->at.file ? diag->at.file : "";
        *LIST_ADD(arena, &cells) = diag->at.line ? arena_printf(arena, "%s:%u", file, diag->at.line) : file;
        *LIST_ADD(arena, &cells) = diag->message;
        *LIST_ADD(arena, &cells) = hint ? hint : "";
        shown++;
    }
    page_section(page, "", "What was refused");
    static const char *const titles[] = {"where", "why", "to fix"};
    if (all)
        html_put(page->html, "p", NULL,
                 "These lines could not be read reliably and are not counted; fix them and they "
                 "will be.");
    if (cells.count)
        html_table_of_words(page->html, "Lines refused", titles, 3, cells.items, cells.count);
    if (all > shown)
        html_put(page->html, "p", NULL,
                 arena_printf(arena, "And %zu more; tautline check lists them all.", all - shown));
    if (!all)
        html_put(page->html, "p", NULL, "Nothing: every line was read.");
    html_close(page->html);
}

static const struct
{
    const char *word, *meaning;
} words[] = {
    {"straight weight", "bar and plates: the same at every height."},
    {"bottom, top, mean",
     "the load at the lowest and at the highest point of the lift, chain and band included, and its average "
     "between them."},
    {"share", "what chain and band add from bottom to top, as a share of the 1RM."},
    {"working load", "of a week: in strength work the heaviest set that is not far above the lifter's usual top; in "
                     "speed work the load with the most "
                     "repetitions; in other work the same among loads of at least 80 % of the heaviest."},
    {"wave", "a run of training weeks in which the working load does not fall. When it falls, the next wave begins."},
    {"rising, falling", "over the newest eight waves, each week compared with the same step of the others with the "
                        "same set-up: the seasonal Kendall test, "
                        "p below 0.05."},
    {"level, open", "level: no direction, and a change that matters (0.5 % of the load per wave) can be excluded. "
                    "Open: neither can be said yet."},
    {"volume", "load times repetitions, summed. Warm-ups and misses do not count."},
    {"intensity",
     "load as a share of the 1RM current on that day: the newest tested one, else the best estimate of twelve "
     "weeks."},
    {"estimate of the 1RM",
     "from a set's load and repetitions, by a published formula. With chain and band it is an interval, by "
     "the load at the bottom and at the top, and never a record."},
    {"trend", "the median of all slopes between two weeks (Theil and Sen); named only where p is below 0.05."},
    {"\u00B1", "twice the standard uncertainty (k = 2): of heights, masses and bands as the gym file gives them."},
};

void page_words(struct page *page)
{
    page_section(page, "", "What the terms mean");
    html_open(page->html, "dl");
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        html_put(page->html, "dt", NULL, words[i].word);
        html_put(page->html, "dd", NULL, words[i].meaning);
    }
    html_close(page->html);
    html_close(page->html);
}

void page_cautions(struct page *page)
{
    page_section(page, "", "Safety");
    html_open_class(page->html, "div", "mind");
    html_put(page->html, "p", NULL, words_to_mind);
    html_close(page->html);
    html_close(page->html);
}
