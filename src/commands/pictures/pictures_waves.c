#include "commands/pictures/pictures_waves.h"

#include "commands/pictures/pictures_parts.h"

#include "base/number.h"
#include "commands/pictures/pictures.h"
#include "commands/report/report_text.h"
#include "commands/report/verdict_line.h"

#include <math.h>
#include <string.h>

#define WAVES_SHOWN 20
#define WAVES_ON_PAGE 8 /* whose pictures are smaller */
#define NOTHING_KG 0.05
#define GLANCE_WIDTH 240
#define GLANCE_HEIGHT 80

/* --- waves side by side ---------------------------------------------------------------------------------------------
 */

static void wave_week_row(struct drawn *drawn, const struct wave_week *week, unsigned as_drawn)
{
    gp_cell_number(drawn->script, as_drawn);
    only_text(drawn, arena_printf(drawn->pictures->session->arena, "%u", week->wave));
    both_day(drawn, week_monday(week->week));
    both_load(drawn, week->load_kg[LOAD_STRAIGHT], 1);
    both_load(drawn, week->load_kg[LOAD_BOTTOM], 1);
    both_load(drawn, week->load_kg[LOAD_MEAN], 1);
    both_load(drawn, week->load_kg[LOAD_TOP], 1);
    both_load(drawn, week->volume_kg[LOAD_MEAN], 0);
    const struct wave_week *before = week->before;
    gp_cell_number(drawn->script, before ? picture_load(drawn->pictures, before->load_kg[LOAD_BOTTOM]) : NAN);
    gp_cell_number(drawn->script, before ? picture_load(drawn->pictures, before->load_kg[LOAD_TOP]) : NAN);
    only_load(drawn, week->over_kg[LOAD_BOTTOM], 1);
    only_load(drawn, week->over_kg[LOAD_TOP], 1);
    only_text(drawn, picture_gear(drawn->pictures, week->ar));
    both_end(drawn);
}

/* "top +2.5": the change from the wave before, on average over the weeks that both waves have. */
static const char *wave_remark(const struct pictures *pictures, const struct wave_week *weeks, size_t count)
{
    double sum = 0;
    size_t steps = 0;
    for (size_t i = 0; i < count; i++) {
        if (isnan(weeks[i].over_kg[LOAD_TOP]))
            continue;
        sum += weeks[i].over_kg[LOAD_TOP];
        steps++;
    }
    char text[32];
    if (!steps)
        return "";
    double over = picture_load(pictures, sum / (double)steps);
    number_fixed(text, sizeof text, over, 1);
    bool has_ar = false;
    for (size_t i = 0; i < count; i++)
        has_ar = has_ar || weeks[i].working->has_ar;
    return arena_printf(pictures->session->arena, "%s%s%s", has_ar ? "top " : "",
                        over > 0 && strcmp(text, "0.0") ? "+" : "", text);
}

static void wave_rows(struct drawn *drawn, const struct wave_week *weeks, size_t count)
{
    struct arena *arena = drawn->pictures->session->arena;
    struct gp_script *script = drawn->script;
    unsigned newest = weeks[count - 1].wave;
    unsigned most = drawn->pictures->style.for_page ? WAVES_ON_PAGE : WAVES_SHOWN;
    unsigned from = newest > most ? newest - most : 0;
    DATA_TITLES(drawn, "wave", "week of", "straight kg", "bottom kg", "mean kg", "top kg", "volume kg",
                "bottom, over the wave before", "top, over the wave before", "chain and band");
    gp_block(script, "$WEEKS");
    for (size_t i = 0; i < count; i++)
        if (weeks[i].wave > from) /* the template counts the waves that are drawn */
            wave_week_row(drawn, &weeks[i], weeks[i].wave - from);
    gp_block(script, "$WAVES");
    for (size_t i = 0, end; i < count; i = end) {
        for (end = i; end < count && weeks[end].wave == weeks[i].wave; end++)
            ;
        if (weeks[i].wave <= from)
            continue;
        gp_cell_number(script, weeks[i].wave - from);
        gp_cell_text(script, arena_printf(arena, "wave %u", weeks[i].wave));
        gp_cell_text(script, arena_printf(arena, "%u", weeks[i].wave));
        gp_cell_text(script, wave_remark(drawn->pictures, &weeks[i], end - i));
        gp_row_end(script);
    }
}

/* A row for each change of set-up among the weeks that are drawn. */
static void change_rows(struct drawn *drawn, const struct wave_week *weeks, size_t count)
{
    unsigned most = drawn->pictures->style.for_page ? WAVES_ON_PAGE : WAVES_SHOWN;
    size_t first = 0;
    while (weeks[first].wave + most <= weeks[count - 1].wave)
        first++;
    gp_block(drawn->script, "$CHANGES");
    for (size_t i = first + 1; i < count; i++) {
        if (same_ar(weeks[i - 1].working, weeks[i].working))
            continue;
        gp_cell_number(drawn->script, (double)(i - first + 1));
        gp_cell_text(drawn->script, setup_change_words(drawn->pictures, &weeks[i - 1], &weeks[i]));
        gp_row_end(drawn->script);
    }
}

/* The newest wave's weeks, each beside the same week of the wave before. */
static void add_glance(struct pictures *pictures, const struct wave_week *weeks, size_t count, const char *sentence)
{
    struct drawn drawn = picture_begin(pictures,
                                       &(struct picture_of){PICTURE_GLANCE, weeks->lifter, weeks->lift, weeks->focus,
                                                            "glance", "glance", "newest wave", sentence});
    gp_set_number(drawn.script, "width", GLANCE_WIDTH);
    gp_set_number(drawn.script, "height", GLANCE_HEIGHT);
    gp_block(drawn.script, "$WEEKS");
    for (size_t i = 0; i < count; i++) {
        const struct wave_week *before = weeks[i].before;
        if (weeks[i].wave != weeks[count - 1].wave)
            continue;
        gp_cell_number(drawn.script, weeks[i].load_kg[LOAD_BOTTOM]);
        gp_cell_number(drawn.script, weeks[i].load_kg[LOAD_TOP]);
        gp_cell_number(drawn.script, before ? before->load_kg[LOAD_BOTTOM] : NAN);
        gp_cell_number(drawn.script, before ? before->load_kg[LOAD_TOP] : NAN);
        gp_row_end(drawn.script);
    }
}

static void add_series(struct pictures *pictures, const struct wave_week *weeks, size_t count, const char *sentence)
{
    const char *what = arena_printf(pictures->session->arena, "%s waves", focus_name(weeks->focus));
    struct drawn drawn = picture_begin(pictures, &(struct picture_of){PICTURE_WAVES, weeks->lifter, weeks->lift,
                                                                      weeks->focus, "waves", what, what, sentence});
    wave_rows(&drawn, weeks, count);
    change_rows(&drawn, weeks, count);
}

static size_t series_end(const struct waves *waves, size_t begin)
{
    size_t end = begin;
    while (end < waves->count && same_series(&waves->weeks[begin], &waves->weeks[end]))
        end++;
    return end;
}

static int verdict_order(const struct verdict *verdict, const struct wave_week *week)
{
    int order = strcmp(verdict->lifter, week->lifter);
    order = order ? order : strcmp(verdict->lift, week->lift);
    return order ? order : ((int)verdict->focus > (int)week->focus) - ((int)verdict->focus < (int)week->focus);
}

void add_waves(struct pictures *pictures, const struct waves *waves)
{
    struct arena *arena = pictures->session->arena;
    size_t verdict_count;
    const struct verdict *verdicts = session_verdicts(pictures->session, &verdict_count);
    for (size_t i = 0, end, v = 0; i < waves->count; i = end) {
        const struct wave_week *first = &waves->weeks[i];
        end = series_end(waves, i);
        for (; v < verdict_count && verdict_order(&verdicts[v], first) < 0; v++)
            ; /* both are in one order; tests have no verdict */
        const char *sentence = v < verdict_count && !verdict_order(&verdicts[v], first)
                                   ? verdict_line_dated(arena, &verdicts[v], pictures->session->unit)
                                   : "";
        if (lift_wanted(pictures, first->lifter, first->lift))
            add_series(pictures, first, end - i, sentence);
        if (pictures->style.for_page)
            add_glance(pictures, first, end - i, sentence);
    }
}

/* --- what the loads consisted of -------------------------------------------------------------------------------------
 */

struct wave_mean
{
    unsigned wave;
    day_number first;
    double load_kg[LOAD_MEASURES]; /* means over weeks in which all three are known, else straight weight only */
};

static struct wave_mean wave_mean(const struct wave_week *weeks, size_t count)
{
    struct wave_mean mean = {.wave = weeks->wave, .first = week_monday(weeks->week)};
    static const enum load_measure measures[] = {LOAD_STRAIGHT, LOAD_BOTTOM, LOAD_TOP};
    for (size_t m = 0; m < sizeof measures / sizeof *measures; m++) {
        double sum = 0;
        for (size_t i = 0; i < count; i++)
            sum += weeks[i].load_kg[measures[m]]; /* a single unknown week makes the mean unknown */
        mean.load_kg[measures[m]] = sum / (double)count;
    }
    return mean;
}

static bool any_ar(const struct wave_week *weeks, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (weeks[i].working->has_ar && !isnan(weeks[i].load_kg[LOAD_TOP]))
            return true;
    return false;
}

/* "straight weight rises from 77.0 to 81.3 kg", "... stays at 77.0 kg" */
static const char *change_from_to(const struct pictures *pictures, const char *what, double from, double to)
{
    struct arena *arena = pictures->session->arena;
    const char *before = picture_load_words(pictures, from), *after = picture_load_words(pictures, to);
    if (!strcmp(before, after))
        return arena_printf(arena, "%s stays at %s", what, after);
    return arena_printf(arena, "%s %s from %s to %s", what, to > from ? "rises" : "falls", before, after);
}

static const char *contribution_sentence(const struct pictures *pictures, const struct wave_mean *means, size_t count)
{
    const struct wave_mean *first = &means[0], *last = &means[count - 1];
    struct arena *arena = pictures->session->arena;
    double from = first->load_kg[LOAD_TOP] - first->load_kg[LOAD_STRAIGHT];
    double to = last->load_kg[LOAD_TOP] - last->load_kg[LOAD_STRAIGHT];
    if (count < 2)
        return isnan(to) ? ""
                         : arena_printf(arena, "Chain and band add %s at the top to %s of straight weight.",
                                        picture_load_words(pictures, to),
                                        picture_load_words(pictures, last->load_kg[LOAD_STRAIGHT]));
    const char *straight = change_from_to(pictures, "straight weight", first->load_kg[LOAD_STRAIGHT],
                                          last->load_kg[LOAD_STRAIGHT]);
    size_t with_ar = 0;
    for (size_t i = 0; i < count; i++)
        with_ar += fabs(means[i].load_kg[LOAD_BOTTOM] - means[i].load_kg[LOAD_STRAIGHT]) > NOTHING_KG ||
                   fabs(means[i].load_kg[LOAD_TOP] - means[i].load_kg[LOAD_STRAIGHT]) > NOTHING_KG;
    const char *ar =
        isnan(from) || isnan(to) ? ""
        : fabs(from) < NOTHING_KG && fabs(to) < NOTHING_KG
            ? arena_printf(arena, "; chain or band in %zu of %zu waves, not in the first nor the last", with_ar, count)
            : arena_printf(arena, "; %s", change_from_to(pictures, "what chain and band add at the top", from, to));
    return arena_printf(arena, "Wave %u to %u: %s%s.", first->wave, last->wave, straight, ar);
}

static void contribution_rows(struct drawn *drawn, const struct wave_mean *means, size_t count)
{
    struct arena *arena = drawn->pictures->session->arena;
    DATA_TITLES(drawn, "wave", "begins", "straight kg", "bottom kg", "top kg", "chain and band at the top, kg");
    gp_block(drawn->script, "$WAVES");
    for (size_t i = 0; i < count; i++) {
        gp_cell_text(drawn->script, arena_printf(arena, "wave %u", means[i].wave));
        both_text(drawn, arena_printf(arena, "%u", means[i].wave));
        both_day(drawn, means[i].first);
        both_load(drawn, means[i].load_kg[LOAD_STRAIGHT], 1);
        both_load(drawn, means[i].load_kg[LOAD_BOTTOM], 1);
        both_load(drawn, means[i].load_kg[LOAD_TOP], 1);
        only_load(drawn, means[i].load_kg[LOAD_TOP] - means[i].load_kg[LOAD_STRAIGHT], 1);
        both_end(drawn);
    }
}

void add_contributions(struct pictures *pictures, const struct waves *waves)
{
    struct arena *arena = pictures->session->arena;
    for (size_t i = 0, end; i < waves->count; i = end) {
        const struct wave_week *first = &waves->weeks[i];
        LIST(struct wave_mean) means = {0};
        end = series_end(waves, i);
        if (!any_ar(first, end - i))
            continue;
        for (size_t w = i, next; w < end; w = next) {
            for (next = w; next < end && waves->weeks[next].wave == waves->weeks[w].wave; next++)
                ;
            *LIST_ADD(arena, &means) = wave_mean(&waves->weeks[w], next - w);
        }
        const char *what = arena_printf(arena, "%s load by part", focus_name(first->focus));
        const char *file = arena_printf(arena, "%s contributions", focus_name(first->focus));
        struct drawn drawn = picture_begin(
            pictures,
            &(struct picture_of){PICTURE_CONTRIBUTIONS, first->lifter, first->lift, first->focus, "contributions", file,
                                 what, contribution_sentence(pictures, means.items, means.count)});
        contribution_rows(&drawn, means.items, means.count);
    }
}
