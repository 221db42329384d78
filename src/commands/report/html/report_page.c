#include "commands/report/html/report_page.h"

#include "base/pounds.h"
#include "base/text.h"
#include "commands/plan/plan_basis.h"
#include "commands/plan/plan_text.h"
#include "commands/report/cause_text.h"
#include "commands/report/html/report_html_drawing.h"
#include "commands/report/html/report_html_lifter.h"
#include "commands/report/html/report_html_parts.h"
#include "commands/report/report_next.h"
#include "commands/report/verdict_line.h"
#include "commands/session/summary.h"

#include <math.h>
#include <string.h>

/* What fits on Letter paper, the shorter of the two, along with a picture of 78 mm. */
#define MOST_VERDICTS 8
#define MOST_CHANGES 3
#define CHANGE_CHARS 230
#define MOST_PLANS 3
#define MOST_WEEKS 4 /* of each */
#define NAME_CHARS 30
#define LINE_CHARS 88

static struct arena *arena_of(const struct page *page)
{
    return page->report.session->arena;
}

static const char *short_name(const struct page *page, const char *lift, enum focus focus)
{
    return text_cut_middle(arena_of(page), series_name(&page->report, "", lift, focus), NAME_CHARS);
}

/* --- its parts ------------------------------------------------------------------------------------------------------ */

static void put_verdicts(struct page *page, const char *lifter)
{
    struct arena *arena = arena_of(page);
    struct html *html = page->html;
    const struct verdict *const *ranked = verdicts_ranked(arena, page->report.verdicts, page->report.verdict_count,
                                                          lifter);
    size_t shown = 0, more = 0;
    html_heading(html, 2, "Is each wave heavier?");
    html_open_class(html, "table", "verdicts");
    for (; shown < MOST_VERDICTS && ranked[shown]; shown++) {
        html_open(html, "tr");
        html_open(html, "th");
        html_attribute(html, "scope", "row");
        html_text(html, short_name(page, ranked[shown]->lift, ranked[shown]->focus));
        html_close(html);
        html_put(html, "td", NULL, verdict_line_within(arena, ranked[shown], page->report.session->unit, LINE_CHARS));
        html_close(html);
    }
    html_close(html);
    while (ranked[shown + more])
        more++;
    if (!shown)
        html_put(html, "p", NULL, "No lift has been trained in two weeks yet.");
    if (more)
        html_put(html, "p", "quiet", arena_printf(arena, "%zu more in the report, none more urgent.", more));
}

static void put_changes(struct page *page, const char *lifter)
{
    struct arena *arena = arena_of(page);
    struct html *html = page->html;
    const struct causes *causes = session_causes(page->report.session);
    size_t shown = 0, more = 0;
    html_heading(html, 2, "Change this first");
    for (size_t i = 0; i < causes->count; i++) {
        const struct cause *cause = &causes->items[i];
        if (strcmp(cause->newest->first->lifter, lifter) || cause->history)
            continue;
        if (shown == MOST_CHANGES) {
            more++;
            continue;
        }
        if (!shown++)
            html_open(html, "ol");
        html_put(html, "li", NULL, text_cut(arena, cause_sentence(&page->report, cause), CHANGE_CHARS));
    }
    if (shown)
        html_close(html);
    else
        html_put(html, "p", NULL, "Nothing: no fault, caution or note in the last eight weeks of the log.");
    if (more)
        html_put(html, "p", "quiet", arena_printf(arena, "%zu more in the report.", more));
}

static void put_year(struct page *page, const char *lifter)
{
    const struct picture *picture = picture_find(&page->pictures, PICTURE_YEAR, lifter, "", FOCUS_UNSAID);
    if (!picture)
        return;
    html_open(page->html, "figure");
    page_svg(page, picture);
    html_close(page->html);
}

static const char *load_words(const struct page *page, double kg)
{
    return isnan(kg) ? "" : load_number(arena_of(page), kg, page->report.session->unit);
}

struct word_list
{
    LIST(const char *) list;
};

static void add_word(struct page *page, struct word_list *words, const char *word)
{
    *LIST_ADD(arena_of(page), &words->list) = word;
}

static void add_week(struct page *page, struct word_list *words, const struct plan *plan, size_t at)
{
    struct arena *arena = arena_of(page);
    const struct plan_week *week = &plan->weeks[at];
    char day[16];
    date_print_short(day, week->day);
    add_word(page, words,
             at ? "" : arena_printf(arena, "%s%s", short_name(page, plan->lift, plan->focus), plan->done ? " *" : ""));
    add_word(page, words, arena_copy(arena, day));
    add_word(page, words, week->sets && week->reps ? arena_printf(arena, "%d x %d", week->sets, week->reps) : "");
    add_word(page, words, load_words(page, week->load_kg[LOAD_STRAIGHT]));
    add_word(page, words, plan_plates(arena, plan, week));
    add_word(page, words, load_words(page, week->load_kg[LOAD_BOTTOM]));
    add_word(page, words, load_words(page, week->load_kg[LOAD_TOP]));
}

static const char *rest_words(const struct page *page, const struct plan *plan)
{
    struct arena *arena = arena_of(page);
    char from[32];
    const char *hung = plan->ar && plan->weeks->set ? arena_printf(arena, ", with %s",
                                                                   load_in_unit(arena, plan->weeks->set->set->ar->ar,
                                                                                page->report.session->unit))
                                                    : "";
    const char *one_rm = "no 1RM";
    if (plan->one_rm.kg > 0)
        one_rm = arena_printf(arena, "1RM %s %s, %s", load_number(arena, plan->one_rm.kg, page->report.session->unit),
                              mass_unit_name(page->report.session->unit), one_rm_print(from, &plan->one_rm));
    return text_cut(arena,
                    arena_printf(arena, "%s%s: %s. %s", short_name(page, plan->lift, plan->focus), hung, one_rm,
                                 plan_basis_words(page->report.session, plan)),
                    CHANGE_CHARS);
}

static void put_next(struct page *page, const char *lifter)
{
    struct html *html = page->html;
    struct next_plans next = next_plans(&page->report, lifter, MOST_PLANS);
    struct word_list words = {0};
    const char *unit = mass_unit_name(page->report.session->unit);
    const char *const titles[] = {"lift",
                                  "date",
                                  "sets",
                                  arena_printf(arena_of(page), "straight, %s", unit),
                                  "plates per side",
                                  arena_printf(arena_of(page), "bottom, %s", unit),
                                  arena_printf(arena_of(page), "top, %s", unit)};
    html_heading(html, 2, "Next wave");
    if (!next.count) {
        html_put(html, "p", NULL, "No lift is in waves: tautline plan --lift NAME makes a first one.");
        return;
    }
    for (size_t i = 0; i < next.count; i++)
        for (size_t k = 0; k < next.plans[i]->week_count && k < MOST_WEEKS; k++)
            add_week(page, &words, next.plans[i], k);
    html_table_of_words(html, "Week by week", titles, sizeof titles / sizeof *titles, words.list.items,
                        words.list.count);
    bool begun = false;
    for (size_t i = 0; i < next.count; i++)
        begun = begun || next.plans[i]->done > 0;
    if (begun)
        html_put(html, "p", "rest", "* The rest of a wave that has begun.");
    for (size_t i = 0; i < next.count; i++)
        html_put(html, "p", "rest", rest_words(page, next.plans[i]));
    if (next.left)
        html_put(html, "p", "quiet", arena_printf(arena_of(page), "%zu more: tautline plan.", next.left));
}

/* --- a sheet -------------------------------------------------------------------------------------------------------- */

static void put_title(struct page *page, const char *lifter)
{
    struct arena *arena = arena_of(page);
    const struct training *training = page->report.session->training;
    size_t sets = 0;
    day_number first = NO_DAY, last = NO_DAY;
    for (size_t i = 0; i < training->count; i++) {
        const struct evaluated_set *set = &training->sets[i];
        if (strcmp(set->lifter, lifter))
            continue;
        sets++;
        first = first == NO_DAY || set->set->day < first ? set->set->day : first;
        last = last == NO_DAY || set->set->day > last ? set->set->day : last;
    }
    char from[16], to[16], count[32];
    date_print_words(from, first);
    date_print_words(to, last);
    html_heading(page->html, 1, *lifter ? text_cut_middle(arena, lifter, 48) : "No lifter named");
    html_put(page->html, "p", "quiet",
             arena_printf(arena, "%s sets, %s to %s; as of %s.", grouped_count(count, sets), from, to, to));
}

static void put_sheet(struct page *page, const char *lifter)
{
    html_open_class(page->html, "section", "sheet");
    html_attribute(page->html, "aria-label", *lifter ? lifter : "No lifter named");
    put_title(page, lifter);
    put_verdicts(page, lifter);
    put_changes(page, lifter);
    put_year(page, lifter);
    put_next(page, lifter);
    html_heading(page->html, 2, "Safety");
    html_put(page->html, "p", "safety", words_to_mind);
    html_close(page->html);
}

#define PICTURE_WIDTH 720
#define PICTURE_HEIGHT 500

void report_page(struct session *session, struct output *output)
{
    const struct training *training = session->training;
    struct page page = {.report = report_make(session, output), .html = html_new(session->arena, output), .level = 2};
    page.report.several_lifters = false; /* each lifter has a sheet */
    page.pictures = pictures_make(
        session,
        &(struct picture_style){
            .kind = GP_SVG, .width = PICTURE_WIDTH, .height = PICTURE_HEIGHT, .for_page = true, .only_year = true});
    page_draw(&page);
    html_page_open(page.html, "Training on one page", "page.css");
    html_open(page.html, "main");
    for (size_t i = 0; i < training->count; i++)
        if (!i || strcmp(training->sets[i].lifter, training->sets[i - 1].lifter))
            page_one_of_many(&page, training->sets[i].lifter, put_sheet);
    html_close(page.html);
    html_page_close(page.html);
    page_end_drawing(&page);
}
