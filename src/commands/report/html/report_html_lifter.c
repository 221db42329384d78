#include "commands/report/html/report_html_lifter.h"

#include "commands/report/html/report_html_parts.h"

#include "analysis/evaluated_set.h"
#include "base/number.h"
#include "commands/report/html/report_html.h"
#include "commands/report/html/report_html_drawing.h"
#include "commands/report/report_setups.h"
#include "commands/report/report_velocity.h"
#include "commands/report/report_weeks.h"
#include "commands/report/verdict_sentence.h"
#include "commands/session/summary.h"

#include <ctype.h>
#include <math.h>
#include <string.h>

static bool is_of(const struct verdict *verdict, const char *lifter)
{
    return !strcmp(verdict->lifter, lifter);
}

static void put_rows(struct page *page, const char *caption, const struct report_rows *rows)
{
    html_table_open(page->html, caption, rows->columns, rows->column_count, page->report.session->unit);
    for (size_t i = 0; i < rows->count; i++)
        html_table_row(page->html, (const char *)rows->rows + i * rows->row_size);
    html_table_close(page->html);
}

static void put_paragraph(struct page *page, const char *text)
{
    html_put(page->html, "p", "quiet", text);
}

/* All of a lifter's pictures of some themes; for each lift, in the order of the themes. */
static void put_figures(struct page *page, const char *lifter, const enum picture_theme *themes, size_t count)
{
    bool any = false;
    for (const struct picture *picture = picture_first(&page->pictures, themes[0], lifter); picture;
         picture = picture_next(&page->pictures, picture)) {
        if (!any)
            html_open_class(page->html, "div", "pictures");
        any = true;
        page_figure(page, picture);
        for (size_t j = 1; j < count; j++)
            page_figure(page, picture_find(&page->pictures, themes[j], lifter, picture->lift, picture->focus));
    }
    if (any)
        html_close(page->html);
}
#define FIGURES(page, lifter, ...)                                                                                     \
    put_figures((page), (lifter), (const enum picture_theme[]){__VA_ARGS__},                                           \
                sizeof((const enum picture_theme[]){__VA_ARGS__}) / sizeof(enum picture_theme))

/* --- the year --------------------------------------------------------------------------------------------------------
 */

void page_year(struct page *page, const char *lifter)
{
    const struct picture *picture = picture_find(&page->pictures, PICTURE_YEAR, lifter, "", FOCUS_UNSAID);
    if (!picture)
        return;
    page_section(page, lifter, "The year");
    page_figure(page, picture);
    html_close(page->html);
}

/* --- is each wave heavier? --------------------------------------------------------------------------------------------- */

const char *verdict_class(enum verdict_kind kind)
{
    switch (kind) {
    case VERDICT_RISING:
        return "verdict heavier";
    case VERDICT_FALLING:
        return "verdict lighter";
    case VERDICT_NEW_SETUP:
    case VERDICT_STALE:
        return "verdict partly";
    case VERDICT_TOO_EARLY:
    case VERDICT_OPEN:
    case VERDICT_LEVEL:
    case VERDICT_RESTARTED:
    case VERDICT_NO_WAVES:
        break;
    }
    return "verdict";
}

/* The answer in a word or two, then its basis. */
static void put_card(struct page *page, const struct verdict *verdict)
{
    struct html *html = page->html;
    struct arena *arena = page->report.session->arena;
    char *words = arena_copy(arena, verdict_words(verdict));
    *words = (char)toupper((unsigned char)*words);
    html_open(html, "li");
    html_heading(html, page->level + 1, series_name(&page->report, verdict->lifter, verdict->lift, verdict->focus));
    html_put(html, "span", verdict_class(verdict->kind), words);
    html_put(html, "p", NULL, verdict_sentence(arena, verdict, page->report.session->unit, false));
    if (verdict->fact.exists) {
        html_put(html, "p", NULL, fact_sentence(arena, verdict, page->report.session->unit));
        page_svg(page, picture_find(&page->pictures, PICTURE_GLANCE, verdict->lifter, verdict->lift, verdict->focus));
    }
    html_close(html);
}

/* Lifts trained only occasionally, without a wave, have no answer. */
static bool has_answer(const struct verdict *verdict)
{
    return verdict->kind != VERDICT_NO_WAVES || verdict->trend.tendency != TENDENCY_TOO_EARLY || verdict->has_ar;
}

void page_verdicts(struct page *page, const char *lifter)
{
    size_t silent = 0, answers = 0;
    page_section(page, lifter, "Is each wave heavier?");
    for (size_t i = 0; i < page->report.verdict_count; i++) {
        const struct verdict *verdict = page->report.ordered[i];
        if (!is_of(verdict, lifter))
            continue;
        if (!has_answer(verdict)) {
            silent++;
            continue;
        }
        if (!answers++) {
            put_paragraph(page,
                          "Each bar is a week of the newest wave, from the load at the bottom to the load at the top "
                          "(blue), next to the same week of the wave before (grey).");
            html_open_class(page->html, "ul", "cards");
        }
        put_card(page, verdict);
    }
    if (answers)
        html_close(page->html);
    else
        html_put(page->html, "p", NULL,
                 "No lift has a wave yet: no two weeks in a row hold or raise the working load. Log on: "
                 "a verdict takes four waves.");
    if (answers && silent)
        put_paragraph(page, arena_printf(page->report.session->arena, "%zu more %s no wave.", silent,
                                         plural(silent, "lift and focus has", "lifts and focuses have")));
    if (answers)
        put_paragraph(page,
                      "What to load next: tautline plan lays out the next wave of a lift, with these plates and this "
                      "gear.");
    html_close(page->html);
}

/* --- waves
 * ------------------------------------------------------------------------------------------------------------ */

void page_waves(struct page *page, const char *lifter)
{
    bool any = false;
    for (size_t i = 0; i < page->report.verdict_count; i++) {
        const struct verdict *verdict = page->report.ordered[i];
        const struct picture *waves = picture_find(&page->pictures, PICTURE_WAVES, lifter, verdict->lift,
                                                   verdict->focus);
        const struct picture *planned = picture_find(&page->pictures, PICTURE_PLANNED, lifter, verdict->lift,
                                                     verdict->focus);
        if (!is_of(verdict, lifter) || (!waves && !planned))
            continue;
        if (!any) {
            page_section(page, lifter, "Waves");
            put_paragraph(
                page,
                "A wave is a run of weeks in which the working load does not fall. Each week is compared with the "
                "same week of the wave before.");
            html_open_class(page->html, "div", "pictures");
        }
        any = true;
        page_figure(page, planned);
        page_figure(page, waves);
    }
    if (!any)
        return;
    html_close(page->html);
    html_close(page->html);
}

/* --- loads at bottom and top
 * -------------------------------------------------------------------------------------------- */

void page_loads(struct page *page, const char *lifter)
{
    struct report_rows rows = report_load_rows(&page->report, lifter);
    if (!rows.count)
        return;
    page_section(page, lifter, "Loads at the bottom and at the top");
    put_paragraph(page,
                  "What the bar weighed at the newest working set with each set-up. \u00B1 is given where it is not "
                  "small and covers 19 cases in 20; blank where the heights are unknown. Share is "
                  "what chain and band add from bottom to top, as a share of the 1RM.");
    put_rows(page,
             arena_printf(page->report.session->arena, "Set-ups used; loads in %s",
                          mass_unit_name(page->report.session->unit)),
             &rows);
    FIGURES(page, lifter, PICTURE_CURVES);
    FIGURES(page, lifter, PICTURE_CONTRIBUTIONS);
    html_close(page->html);
}

/* --- weeks
 * ---------------------------------------------------------------------------------------------------------------- */

void page_weeks(struct page *page, const char *lifter)
{
    struct report_rows rows = report_week_rows(&page->report, lifter);
    if (!rows.count)
        return;
    page_section(page, lifter, "Weekly volume and intensity");
    put_paragraph(
        page, "Volume is the mean load times repetitions, summed over a week: medians of the newest 12 weeks and of "
              "the 12 before. A trend is named only where chance hardly makes one. \"of 1RM\" is the newest "
              "week's mean intensity.");
    put_rows(page,
             arena_printf(page->report.session->arena, "Volume and intensity by lift; loads in %s",
                          mass_unit_name(page->report.session->unit)),
             &rows);
    FIGURES(page, lifter, PICTURE_WEEKS, PICTURE_ZONES);
    html_close(page->html);
}

/* --- strength
 * ------------------------------------------------------------------------------------------------------------- */

/* The 1RM that percentages refer to, lift by lift: the current one at the newest set. */
static void put_one_rms(struct page *page, const char *lifter)
{
    struct session *session = page->report.session;
    struct arena *arena = session->arena;
    size_t count;
    const struct lift_sets *lifts = training_by_lift(arena, session->training, &count);
    LIST(const char *) cells = {0};
    for (size_t i = 0; i < count; i++) {
        const struct one_rm *one_rm = &lifts[i].sets[lifts[i].count - 1]->one_rm;
        char load[64], from[32];
        if (strcmp(lifts[i].lifter, lifter) || one_rm->from == ONE_RM_NONE)
            continue;
        number_fixed(load, sizeof load, kg_to(one_rm->kg, session->unit), 1);
        *LIST_ADD(arena, &cells) = lifts[i].lift;
        *LIST_ADD(arena, &cells) = arena_copy(arena, load);
        *LIST_ADD(arena, &cells) = arena_copy(arena, one_rm_print(from, one_rm));
    }
    const char *titles[] = {"lift", name_in_unit(arena, "1RM, kg", session->unit), "from"};
    if (cells.count)
        html_table_of_words(page->html, "Current 1RMs", titles, 3, cells.items, cells.count);
}

void page_strength(struct page *page, const char *lifter)
{
    struct arena *arena = page->report.session->arena;
    const char *unit = mass_unit_name(page->report.session->unit);
    struct report_rows records = report_record_rows(&page->report, lifter);
    struct report_rows velocity = report_velocity_rows(&page->report, lifter);
    if (!records.count && !velocity.count)
        return;
    page_section(page, lifter, "Records and strength");
    if (records.count)
        put_rows(page,
                 arena_printf(arena, "Best loads by repetitions, in %s; single, triple and five without chain or band",
                              unit),
                 &records);
    put_one_rms(page, lifter);
    FIGURES(page, lifter, PICTURE_E1RM);
    if (velocity.count)
        put_rows(page,
                 arena_printf(arena,
                              "Load and velocity: the lifter's own load-velocity line, in %s by m/s, from straight "
                              "weight; velocity loss: first set to last",
                              unit),
                 &velocity);
    FIGURES(page, lifter, PICTURE_VELOCITY);
    html_close(page->html);
}

void page_one_of_many(const struct page *page, const char *lifter, void (*put)(struct page *, const char *lifter))
{
    struct arena *arena = arena_new();
    struct page own = *page;
    own.report = report_part(arena, &page->report, lifter);
    put(&own, lifter);
    arena_free(arena);
}
