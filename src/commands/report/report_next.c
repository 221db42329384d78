#include "commands/report/report_next.h"

#include "base/text.h"
#include "commands/plan/plan_text.h"
#include "commands/report/verdict_line.h"
#include "commands/session/summary.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define MOST_WEIGHTS 4 /* of a wave; an ellipsis stands for the rest */
#define TEAM_PLANS 3   /* plans of one lifter, in one line */

/* --- which ---------------------------------------------------------------------------------------------------------- */

static bool has_next(const struct verdict *verdict)
{
    return verdict->waves > 0 && verdict->kind != VERDICT_STALE && verdict->focus != FOCUS_TEST;
}

/* Lifts with chains and bands first, then by number of waves. */
static int by_place(const void *left, const void *right)
{
    const struct verdict *a = *(const struct verdict *const *)left, *b = *(const struct verdict *const *)right;
    if (a->has_ar != b->has_ar)
        return b->has_ar - a->has_ar;
    if (a->waves != b->waves)
        return a->waves < b->waves ? 1 : -1;
    return a < b ? -1 : a > b;
}

static const struct plan *plan_of(const struct report *report, const struct plan_past *past,
                                  const struct verdict *verdict)
{
    struct plan_wish wish = {.lifter = verdict->lifter,
                             .lift = verdict->lift,
                             .focus = verdict->focus,
                             .step = NAN,
                             .ar_share = NAN,
                             .max_kg = NAN,
                             .start = NO_DAY,
                             .unit = report->session->unit,
                             .without_findings = true};
    return plan_make_after(report->session->arena, past, &wish);
}

struct next_plans next_plans(const struct report *report, const char *lifter, size_t most)
{
    struct arena *arena = report->session->arena;
    size_t count = 0, verdict_count;
    const struct verdict *verdicts = session_verdicts(report->session, &verdict_count);
    const struct verdict **found = ARENA_ARRAY(arena, const struct verdict *, verdict_count);
    struct next_plans next = {ARENA_ARRAY(arena, const struct plan *, most), 0, 0, 0};
    for (size_t i = 0; i < verdict_count; i++)
        if (!strcmp(verdicts[i].lifter, lifter) && has_next(&verdicts[i]))
            found[count++] = &verdicts[i];
    if (count)
        qsort(found, count, sizeof *found, by_place);
    const struct session *all = report->session->part_of ? report->session->part_of : report->session;
    const struct plan_past *past = count ? plan_past_make(arena, all->training, lifter, NO_DAY) : NULL;
    for (size_t i = 0; i < count; i++) {
        const struct plan *plan = next.count < most ? plan_of(report, past, found[i]) : NULL;
        if (plan && plan->state == PLAN_MADE && plan->week_count)
            next.plans[next.count++] = plan;
        else
            next.left_focuses |= 1U << found[i]->focus;
    }
    next.left = count - next.count;
    return next;
}

/* --- words ---------------------------------------------------------------------------------------------------------- */

const char *next_days(struct arena *arena, const struct plan *plan)
{
    day_number first = plan->weeks[0].day, last = plan->weeks[plan->week_count - 1].day;
    int years[2], months[2], days[2];
    char from[16], to[16];
    date_split(first, &years[0], &months[0], &days[0]);
    date_split(last, &years[1], &months[1], &days[1]);
    date_print_short(from, first);
    date_print_short(to, last);
    if (first == last)
        return arena_copy(arena, from);
    return months[0] == months[1] && years[0] == years[1] ? arena_printf(arena, "%d-%s", days[0], to)
                                                          : arena_printf(arena, "%s - %s", from, to);
}

const char *next_weights(struct arena *arena, const struct plan *plan, enum mass_unit unit)
{
    const char *words = "";
    for (size_t i = 0; i < plan->week_count && i < MOST_WEIGHTS; i++)
        words = arena_printf(arena, "%s%s%s", words, i ? ", " : "",
                             load_number(arena, plan->weeks[i].load_kg[LOAD_STRAIGHT], unit));
    return arena_printf(arena, "%s%s %s", words, plan->week_count > MOST_WEIGHTS ? ", \u2026" : "",
                        mass_unit_name(unit));
}

/* The mean over the weeks that have a counterpart; of the straight weight where a top load is unknown. */
const char *next_change(struct arena *arena, const struct plan *plan, enum mass_unit unit)
{
    double sums[LOAD_MEASURES] = {0};
    size_t weeks = 0;
    for (size_t i = 0; i < plan->week_count && plan->weeks[i].before; i++, weeks++)
        for (int measure = 0; measure < LOAD_MEASURES; measure++)
            sums[measure] += plan->weeks[i].over_kg[measure];
    if (!weeks || !plan->last)
        return "";
    bool top = !isnan(sums[LOAD_TOP]);
    const char *change = signed_load_words(arena, sums[top ? LOAD_TOP : LOAD_STRAIGHT] / (double)weeks, unit);
    return arena_printf(arena, "%s%s", plan->ar ? top ? "top " : "straight " : "", change);
}

/* --- the section ---------------------------------------------------------------------------------------------------- */

enum next_column
{
    NEXT_NAME,
    NEXT_DAYS,
    NEXT_WEIGHTS,
    NEXT_CHANGE,
    NEXT_PLATES,
    NEXT_COLUMNS
};

struct next_row
{
    const char *cells[NEXT_COLUMNS];
};

#define NAME_COLUMNS 22

static struct next_row row_of(const struct report *report, const struct plan *plan, bool marked)
{
    struct arena *arena = report->session->arena;
    enum mass_unit unit = report->session->unit;
    return (struct next_row){
        {[NEXT_NAME] = text_cut_middle(arena, series_name(report, "", plan->lift, plan->focus), NAME_COLUMNS),
         [NEXT_DAYS] = arena_printf(arena, "%s%s", next_days(arena, plan), marked ? "*" : ""),
         [NEXT_WEIGHTS] = next_weights(arena, plan, unit),
         [NEXT_PLATES] = plan_plates(arena, plan, &plan->weeks[0]),
         [NEXT_CHANGE] = next_change(arena, plan, unit)}};
}

/* A line each; columns are as wide as their words. Plates are never cut: whoever loads the bar needs every one, on a
 * line of their own where there is no room. */
static void write_rows(const struct report *report, const struct next_row *rows, size_t count)
{
    struct arena *arena = report->session->arena;
    size_t widths[NEXT_COLUMNS] = {0};
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < NEXT_COLUMNS; k++)
            widths[k] = text_width(rows[i].cells[k]) > widths[k] ? text_width(rows[i].cells[k]) : widths[k];
    for (size_t i = 0; i < count; i++) {
        const char *line = "", *plates = rows[i].cells[NEXT_PLATES];
        for (size_t k = 0; k < NEXT_PLATES; k++)
            line = arena_printf(arena, "%s  %s%*s", line, rows[i].cells[k],
                                k + 1 < NEXT_PLATES ? (int)(widths[k] - text_width(rows[i].cells[k])) : 0, "");
        size_t pad = widths[NEXT_CHANGE] - text_width(rows[i].cells[NEXT_CHANGE]) + 2;
        bool fits = text_width(line) + pad + text_width(plates) <= report->style.width;
        output_printf(report->output, "%s", text_cut(arena, line, report->style.width));
        if (*plates)
            output_printf(report->output, fits ? "%*s%s" : "\n%*s%s", fits ? (int)pad : 6, "", plates);
        output_text(report->output, "\n");
    }
}

/* The plans left out, and the commands that show them: plan takes one focus at a time. */
static void write_left(const struct report *report, const struct next_plans *next, size_t count)
{
    struct arena *arena = report->session->arena;
    unsigned focuses = next->left_focuses;
    const char *first = NULL, *rest = "";
    for (size_t i = count; i < next->count; i++)
        focuses |= 1U << next->plans[i]->focus;
    for (unsigned focus = 0; focuses >> focus; focus++) {
        const char *name = focus_name((enum focus)focus);
        if (!(focuses >> focus & 1))
            continue;
        if (first)
            rest = arena_printf(arena, "%s%s%s", rest, *rest ? ", " : " (or ", name);
        else
            first = name;
    }
    output_printf(report->output, "  and %zu more: see `tautline plan --focus %s`%s%s\n",
                  next->count - count + next->left, first, rest, *rest ? ")" : "");
}

void report_next(const struct report *report, const struct next_plans *next, size_t most)
{
    size_t count = next->count < most ? next->count : most, begun = 0;
    struct next_row *rows = ARENA_ARRAY(report->session->arena, struct next_row, count);
    if (!count)
        return;
    for (size_t i = 0; i < count; i++)
        begun += next->plans[i]->done > 0;
    const char *what = !begun           ? "Next wave"
                       : begun == count ? "What is left of this wave"
                                        : "Next (*: left of this wave)";
    const char *heading = arena_printf(report->session->arena, "%s: straight weights, change, plates a side at first",
                                       what);
    report_heading(report, text_width(heading) <= report->style.width ? heading : what);
    for (size_t i = 0; i < count; i++)
        rows[i] = row_of(report, next->plans[i], next->plans[i]->done && begun < count);
    write_rows(report, rows, count);
    if (count < next->count || next->left)
        write_left(report, next, count);
    output_text(report->output, "\n");
}

const char *report_next_words(const struct report *report, const char *lifter)
{
    struct arena *arena = report->session->arena;
    struct next_plans next = next_plans(report, lifter, TEAM_PLANS);
    const char *words = "";
    for (size_t i = 0; i < next.count; i++)
        words = arena_printf(arena, "%s%s%s %s %s%s", words, i ? "; " : "",
                             series_name(report, "", next.plans[i]->lift, next.plans[i]->focus),
                             next_days(arena, next.plans[i]), next_weights(arena, next.plans[i], report->session->unit),
                             next.plans[i]->done ? " (what is left of this wave)" : "");
    return *words ? words : "no wave to continue";
}
