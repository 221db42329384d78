#include "commands/pictures/pictures_spans.h"

#include "base/number.h"
#include "base/text.h"
#include "commands/pictures/pictures.h"
#include "commands/session/summary.h"

#include <math.h>
#include <string.h>

#define WEEKS_OF_LIFTERS 52 /* where neither --from nor --to says which */

struct span /* weeks of one lifter, lift and focus */
{
    week_number first; /* of the span, whether it was trained or not */
    const struct wave_week *weeks;
    size_t count;
    const char *name; /* in the key */
};

struct two_spans
{
    struct span own, other;
    unsigned weeks;
    bool by_share;
};

/* --- which weeks ---------------------------------------------------------------------------------------------------- */

static week_number newest_of(const struct waves *all, const char *lifter)
{
    week_number newest = INT32_MIN;
    for (size_t i = 0; i < all->all_count; i++)
        if ((!lifter || !strcmp(all->all[i].lifter, lifter)) && all->all[i].week > newest)
            newest = all->all[i].week;
    return newest;
}

/* The span that is compared ends with --to, else with the newest week, and is as long as the other. */
static void place_spans(const struct pictures *pictures, const struct waves *all, const char *lifter,
                        struct two_spans *two)
{
    const struct options *options = pictures->session->options;
    bool of_time = !options->against;
    week_number last = options->to != NO_DAY ? week_of(options->to) : newest_of(all, of_time ? lifter : NULL);
    two->weeks = WEEKS_OF_LIFTERS;
    if (of_time)
        two->weeks = (unsigned)(week_of(options->against_to) - week_of(options->against_from) + 1);
    else if (options->from != NO_DAY)
        two->weeks = last >= week_of(options->from) ? (unsigned)(last - week_of(options->from) + 1) : 1;
    two->own.first = options->from != NO_DAY ? week_of(options->from) : last - (week_number)two->weeks + 1;
    two->other.first = of_time ? week_of(options->against_from) : two->own.first;
}

static void fill_span(struct span *span, const struct waves *all, const struct wave_week *like, const char *lifter,
                      unsigned weeks)
{
    span->weeks = NULL;
    span->count = 0;
    for (size_t i = 0; i < all->all_count; i++) {
        const struct wave_week *week = &all->all[i];
        if (week->focus != like->focus || strcmp(week->lift, like->lift) || strcmp(week->lifter, lifter) ||
            week->week < span->first || week->week >= span->first + (week_number)weeks)
            continue;
        span->weeks = span->weeks ? span->weeks : week; /* they are in order, one after the other */
        span->count++;
    }
}

static const struct wave_week *week_at(const struct span *span, unsigned number)
{
    for (size_t i = 0; i < span->count; i++)
        if (span->weeks[i].week == span->first + (week_number)number)
            return &span->weeks[i];
    return NULL;
}

/* --- what is drawn -------------------------------------------------------------------------------------------------- */

/* As drawn: in the unit of the picture, or in per cent of the 1RM of that day. */
static double drawn_load(const struct pictures *pictures, const struct two_spans *two, const struct wave_week *week,
                         enum load_measure measure)
{
    if (!week)
        return NAN;
    return two->by_share ? 100 * week->load_kg[measure] / week->working->one_rm.kg
                         : picture_load(pictures, week->load_kg[measure]);
}

struct difference
{
    size_t weeks;
    double bottom, top; /* sums */
    bool has_ar;
};

static struct difference difference_of(const struct pictures *pictures, const struct two_spans *two)
{
    struct difference found = {0};
    for (unsigned i = 0; i < two->weeks; i++) {
        const struct wave_week *own = week_at(&two->own, i), *other = week_at(&two->other, i);
        double top = drawn_load(pictures, two, own, LOAD_TOP) - drawn_load(pictures, two, other, LOAD_TOP);
        double bottom = drawn_load(pictures, two, own, LOAD_BOTTOM) - drawn_load(pictures, two, other, LOAD_BOTTOM);
        if (isnan(top) || isnan(bottom))
            continue;
        found.weeks++;
        found.top += top;
        found.bottom += bottom;
        found.has_ar = found.has_ar || own->working->has_ar || other->working->has_ar;
    }
    return found;
}

static const char *signed_words(const struct pictures *pictures, const struct two_spans *two, double value)
{
    char text[32];
    struct arena *arena = pictures->session->arena;
    number_fixed(text, sizeof text, value, 1);
    const char *unit = two->by_share ? "points of 1RM" : mass_unit_name(pictures->session->unit);
    return arena_printf(arena, "%s%s %s", value > 0 && strcmp(text, "0.0") ? "+" : "", text, unit);
}

static const char *span_sentence(const struct pictures *pictures, const struct two_spans *two)
{
    struct arena *arena = pictures->session->arena;
    struct difference found = difference_of(pictures, two);
    if (!found.weeks)
        return "No week has known loads in both spans.";
    const char *top = signed_words(pictures, two, found.top / (double)found.weeks);
    const char *bottom = signed_words(pictures, two, found.bottom / (double)found.weeks);
    const char *whose = pictures->session->options->against ? arena_printf(arena, "%s: ", two->own.name) : "";
    const char *ends = found.has_ar ? arena_printf(arena, "%s at the top and %s at the bottom", top, bottom) : top;
    return arena_printf(arena, "%s%s, on average of the %zu %s that both have.", whose, ends, found.weeks,
                        plural(found.weeks, "week", "weeks"));
}

static void span_cells(struct drawn *drawn, const struct two_spans *two, const struct wave_week *week)
{
    static const enum load_measure measures[] = {LOAD_STRAIGHT, LOAD_BOTTOM, LOAD_TOP};
    for (size_t m = 0; m < sizeof measures / sizeof *measures; m++)
        both_number(drawn, drawn_load(drawn->pictures, two, week, measures[m]), 1);
}

static bool any_load(const struct pictures *pictures, const struct two_spans *two, const struct span *span)
{
    for (size_t i = 0; i < span->count; i++)
        if (!isnan(drawn_load(pictures, two, &span->weeks[i], LOAD_STRAIGHT)))
            return true;
    return false;
}

static const char *begin_words(struct arena *arena, week_number week)
{
    char text[16];
    date_print_words(text, week_monday(week));
    return arena_copy(arena, text);
}

/* "3 Nov 2025 to 1 Feb 2026" */
static const char *time_words(struct arena *arena, week_number first, unsigned weeks)
{
    char text[16];
    date_print_words(text, week_monday(first + (week_number)weeks) - 1);
    return arena_printf(arena, "%s to %s", begin_words(arena, first), text);
}

static const char *axis_words(struct arena *arena, const struct two_spans *two)
{
    const char *own = begin_words(arena, two->own.first);
    return two->own.first == two->other.first ? arena_printf(arena, "week, the first from %s", own)
                                              : "week of the span";
}

static void draw_spans(struct pictures *pictures, const struct two_spans *two)
{
    struct arena *arena = pictures->session->arena;
    const struct wave_week *first = two->own.weeks;
    const char *focus = focus_name(first->focus);
    struct drawn drawn = picture_begin(
        pictures, &(struct picture_of){PICTURE_SPANS, pictures->session->options->against ? "" : first->lifter,
                                       first->lift, first->focus, "spans", arena_printf(arena, "%s spans", focus),
                                       arena_printf(arena, "%s, week by week", focus), span_sentence(pictures, two)});
    const char *unit = mass_unit_name(pictures->session->unit);
    gp_set_text(drawn.script, "span_name", two->own.name);
    gp_set_text(drawn.script, "other_name", two->other.name);
    gp_set_text(drawn.script, "quantity", two->by_share ? "% of 1RM" : arena_printf(arena, "load, %s", unit));
    gp_set_text(drawn.script, "axis_title", axis_words(arena, two));
    gp_block(drawn.script, "$WEEKS");
    for (unsigned i = 0; i < two->weeks; i++) {
        both_number(&drawn, i + 1, 0);
        span_cells(&drawn, two, week_at(&two->own, i));
        span_cells(&drawn, two, week_at(&two->other, i));
        both_end(&drawn);
    }
}

static void add_spans_of(struct pictures *pictures, const struct waves *all, const struct wave_week *series,
                         const char *against)
{
    struct arena *arena = pictures->session->arena;
    struct two_spans two = {.by_share = pictures->session->options->by_share};
    place_spans(pictures, all, series->lifter, &two);
    fill_span(&two.own, all, series, series->lifter, two.weeks);
    fill_span(&two.other, all, series, against ? against : series->lifter, two.weeks);
    two.own.name = against ? series->lifter : time_words(arena, two.own.first, two.weeks);
    two.other.name = against ? against : time_words(arena, two.other.first, two.weeks);
    if (any_load(pictures, &two, &two.own) && any_load(pictures, &two, &two.other))
        draw_spans(pictures, &two);
}

void add_spans(struct pictures *pictures, const struct waves *all)
{
    const struct session *session = pictures->session;
    /* The other lifter was selected last, behind those of --lifter. */
    const char *against = session->options->against ? session->lifters.names[session->lifters.count - 1] : NULL;
    for (size_t i = 0, end; i < all->all_count; i = end) {
        const struct wave_week *series = &all->all[i];
        for (end = i; end < all->all_count && same_series(series, &all->all[end]); end++)
            ;
        if (series->focus != FOCUS_TEST && (!against || strcmp(series->lifter, against) != 0))
            add_spans_of(pictures, all, series, against);
    }
}
