#include "commands/plan/plan_basis.h"

#include "base/text.h"
#include "commands/plan/plan_text.h"
#include "commands/report/verdict_line.h"

#include <math.h>
#include <string.h>

static const char *kg_words(const struct session *session, double kg)
{
    return arena_printf(session->arena, "%s %s", load_number(session->arena, kg, session->unit),
                        mass_unit_name(session->unit));
}

static const char *day_words(struct arena *arena, day_number day)
{
    char words[16];
    date_print_words(words, day);
    return arena_copy(arena, words);
}

static const char *wave_words(struct arena *arena, const struct wave *wave)
{
    char from[16];
    date_print_short(from, wave->weeks->working->set->day);
    return arena_printf(arena, "wave %u (%s - %s)", wave->weeks->wave, from,
                        day_words(arena, wave->weeks[wave->count - 1].working->set->day));
}

static const char *raise_words(const struct session *session, const struct plan *plan)
{
    struct arena *arena = session->arena;
    const char *raise = kg_words(session, plan->raise_kg);
    switch (plan->raised_by) {
    case PLAN_RAISED_BY_PLATES:
        if (isnan(plan->slope_kg))
            return arena_printf(
                arena, "raised by %s, the least that the plates allow: there are too few waves to know the usual step",
                raise);
        return arena_printf(arena,
                            "raised by %s, the least that the plates allow: the usual step from wave to wave is %s",
                            raise, signed_load_words(arena, plan->slope_kg, session->unit));
    case PLAN_RAISED_BY_SLOPE:
        return arena_printf(arena, "raised by %s, the usual step from wave to wave", raise);
    case PLAN_RAISED_TO_LIMIT:
        return arena_printf(arena, "raised by %s, 5 %% of the load at most: the usual step from wave to wave is %s",
                            raise, signed_load_words(arena, plan->slope_kg, session->unit));
    case PLAN_RAISED_AS_SAID:
        break;
    }
    return arena_printf(arena, "changed by %s", signed_load_words(arena, plan->raise_kg, session->unit));
}

/* " Its steps of +1.0 kg and +5.0 kg are evened to +3.0 kg." "": they are kept. */
static const char *evened_words(const struct session *session, const struct plan *plan)
{
    struct arena *arena = session->arena;
    const struct wave *last = plan->last;
    const char *steps = "";
    if (!plan->evened)
        return "";
    for (size_t i = 1; i < last->count; i++)
        steps = arena_printf(
            arena, "%s%s%s", steps,
            i == 1                ? ""
            : i + 1 < last->count ? ", "
                                  : " and ",
            signed_load_words(arena, last->weeks[i].load_kg[LOAD_STRAIGHT] - last->weeks[i - 1].load_kg[LOAD_STRAIGHT],
                              session->unit));
    double whole_kg = last->weeks[last->count - 1].load_kg[LOAD_STRAIGHT] - last->weeks[0].load_kg[LOAD_STRAIGHT];
    return arena_printf(arena, " Its uneven steps of %s are evened to %s a week; --keep-steps repeats them.", steps,
                        signed_load_words(arena, whole_kg / (double)(last->count - 1), session->unit));
}

static bool is_rounded(const struct plan *plan)
{
    for (size_t i = 0; i < plan->week_count; i++)
        if (fabs(plan->weeks[i].rounding_kg) > 0.005)
            return true;
    return false;
}

static const char *from_wave(const struct session *session, const struct plan *plan)
{
    struct arena *arena = session->arena;
    const char *begun =
        plan->done ? arena_printf(arena, "The newest wave has %zu of its weeks; this finishes it. ", plan->done) : "";
    return arena_printf(arena, "%sStraight weights are those of %s, %s%s%s.%s", begun, wave_words(arena, plan->last),
                        raise_words(session, plan), plan->held ? "; held at 65 % of 1RM, the most for speed work" : "",
                        is_rounded(plan) ? "; then rounded to few plates" : "", evened_words(session, plan));
}

const char *plan_basis_words(const struct session *session, const struct plan *plan)
{
    struct arena *arena = session->arena;
    switch (plan->basis) {
    case PLAN_FROM_WAVE:
        return from_wave(session, plan);
    case PLAN_FROM_TEST:
        return arena_printf(arena, "Straight weights are percentages of the 1RM tested on %s, which is newer than %s.",
                            day_words(arena, plan->one_rm.day), wave_words(arena, plan->last));
    case PLAN_FROM_PRACTICE:
        return arena_printf(
            arena,
            "There is no wave to continue: this is a first one by common practice, which has no published source%s.",
            !plan->sets_by_practice ? ": 50, 55 and 60 % of 1RM" : ": 50, 55 and 60 % of 1RM, 6 sets of 2");
    case PLAN_FROM_PERCENT:
        break;
    }
    return plan->last ? arena_printf(arena, "Percentages as given, after %s.", wave_words(arena, plan->last))
                      : "Percentages as given; there is no wave to compare with.";
}

const char *plan_lighter_words(const struct session *session, const struct plan *plan)
{
    struct arena *arena = session->arena;
    const char *why = plan->basis == PLAN_FROM_TEST                       ? "percentages of the newer 1RM come to less"
                      : plan->basis == PLAN_FROM_PERCENT                  ? "the percentages given come to less"
                      : plan->raise_kg < 0                                ? "what hangs on the bar adds the rest"
                      : plan->evened && plan->lighter_at == LOAD_STRAIGHT ? "its uneven steps are evened"
                      : plan->ar_chosen ? "the share asked for takes less chain or band"
                                        : "the set-up weighs less than it did";
    static const char *const ends[LOAD_MEASURES] = {[LOAD_STRAIGHT] = "in straight weight",
                                                    [LOAD_BOTTOM] = "at the bottom",
                                                    [LOAD_TOP] = "at the top",
                                                    [LOAD_MEAN] = ""};
    return arena_printf(arena, "LIGHTER than the last wave, by up to %s %s: %s.", kg_words(session, plan->lighter_kg),
                        ends[plan->lighter_at], why);
}

/* --- ways ----------------------------------------------------------------------------------------------------------- */

struct way_row
{
    const struct plan_way *way;
    const char *weights, *plates, *says;
};

#define WAY(name, ...)                                                                                                 \
    static void get_way_##name(const void *item, struct cell *cell)                                                    \
    {                                                                                                                  \
        const struct way_row *row = item;                                                                              \
        __VA_ARGS__;                                                                                                   \
    }

WAY(what, cell_text(cell, row->way->what))
WAY(bottom, cell_number(cell, row->way->bottom_kg))
WAY(top, cell_number(cell, row->way->top_kg))
WAY(weights, cell_text(cell, row->weights))
WAY(plates, cell_text(cell, row->plates))
WAY(says, cell_text(cell, row->says))

static const struct column way_columns[] = {
    {"what", "way", QUANTITY_PLAIN, 0, get_way_what},
    {"bottom_kg", "bottom kg", QUANTITY_LOAD, 1, get_way_bottom},
    {"top_kg", "top kg", QUANTITY_LOAD, 1, get_way_top},
    {"weights", "straight weight", QUANTITY_PLAIN, 0, get_way_weights},
    {"plates", "plates per side", QUANTITY_PLAIN, 0, get_way_plates},
    {"says", "audit", QUANTITY_PLAIN, 0, get_way_says},
};

#define MOST_WAYS 8

static const char *weights_words(const struct session *session, const struct plan *plan)
{
    const char *words = "";
    for (size_t i = 0; i < plan->week_count; i++)
        words = arena_printf(session->arena, "%s%s%s", words, i ? ", " : "",
                             load_number(session->arena, plan->weeks[i].load_kg[LOAD_STRAIGHT], session->unit));
    return words;
}

static const char *audit_words(struct arena *arena, const struct plan *plan)
{
    const char *words = "";
    for (size_t i = 0; i < plan->finding_count; i++)
        if (!strstr(words, finding_kinds[plan->findings[i]->id].id))
            words = arena_printf(arena, "%s%s%s", words, *words ? ", " : "", finding_kinds[plan->findings[i]->id].id);
    return words;
}

void plan_ways_table(const struct report *report, const struct plan_ways *ways)
{
    struct session *session = report->session;
    size_t count = ways->count < MOST_WAYS ? ways->count : MOST_WAYS;
    struct way_row *rows = ARENA_ARRAY(session->arena, struct way_row, count);
    struct table_style style = report->style;
    if (!count)
        return;
    style.width = 0; /* do not cut: whoever loads the bar needs every plate */
    report_paragraph(report,
                     arena_printf(session->arena, "Ways to %s more, best first; bottom and top against the last wave:",
                                  kg_words(session, ways->over_kg)),
                     2);
    for (size_t i = 0; i < count; i++)
        rows[i] = (struct way_row){&ways->items[i], weights_words(session, ways->items[i].plan),
                                   plan_plates(session->arena, ways->items[i].plan, ways->items[i].plan->weeks),
                                   audit_words(session->arena, ways->items[i].plan)};
    struct table_writer *writer = table_open(session->arena, report->output, way_columns,
                                             sizeof way_columns / sizeof *way_columns, &style);
    for (size_t i = 0; i < count; i++)
        table_row(writer, &rows[i]);
    table_close(writer);
    output_text(report->output, "\n");
}
