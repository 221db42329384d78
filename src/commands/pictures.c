#include "commands/pictures.h"

#include "base/names.h"
#include "base/number.h"
#include "base/text.h"
#include "commands/report_text.h"
#include "writing/escape.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static double shown(const struct pictures *pictures, double kg)
{
    return kg_to(kg, pictures->session->unit);
}

static char *title_of(const struct pictures *pictures, const char *lifter, const char *lift, const char *what)
{
    struct arena *arena = pictures->session->arena;
    const char *who = *lifter ? arena_printf(arena, "%s: ", lifter) : "";
    return arena_printf(arena, "%s%s%s%s", who, lift, *what ? ", " : "", what);
}

/* A file name that no other picture has, whatever the lifter and lift are called. */
static const char *file_name(struct pictures *pictures, const char *lifter, const char *lift, const char *what)
{
    struct arena *arena = pictures->session->arena;
    const char *wanted = escape_file_name(arena, text_fold(arena, arena_printf(arena, "%s%s%s-%s", lifter, *lifter ? "-" : "", lift, what)));
    const char *name = wanted;
    uint32_t number;
    for (int copy = 2; names_find(pictures->used, name, strlen(name), &number); copy++)
        name = arena_printf(arena, "%s-%d", wanted, copy);
    names_add(pictures->used, name, strlen(name));
    return name;
}

static struct gp_script *add_picture(struct pictures *pictures, const char *template_name, const char *name, const char *title, const char *sentence)
{
    struct gp_script *script = gp_new(pictures->session->arena, template_name);
    if (!script)
        return NULL;
    gp_picture(script, pictures->kind, name);
    gp_set_text(script, "unit", mass_unit_name(pictures->session->unit));
    gp_set_text(script, "heading", title);
    gp_set_text(script, "sentence", sentence);
    if (pictures->width) {
        gp_set_number(script, "width", pictures->width);
        gp_set_number(script, "height", pictures->height);
    }
    *LIST_ADD(pictures->session->arena, &pictures->list) = (struct picture){name, title, sentence, script};
    return script;
}

/* --- waves beside each other ------------------------------------------------------------------------------------------------ */

static void wave_week_row(const struct pictures *pictures, struct gp_script *script, const struct wave_week *week)
{
    static const enum load_measure order[] = {LOAD_STRAIGHT, LOAD_BOTTOM, LOAD_MEAN, LOAD_TOP};
    gp_cell_number(script, week->wave);
    gp_cell_day(script, week_monday(week->week));
    for (size_t i = 0; i < sizeof order / sizeof *order; i++)
        gp_cell_number(script, shown(pictures, week->load_kg[order[i]]));
    gp_cell_number(script, shown(pictures, week->volume_kg[LOAD_MEAN]));
    gp_cell_number(script, week->before ? shown(pictures, week->before->load_kg[LOAD_BOTTOM]) : NAN);
    gp_cell_number(script, week->before ? shown(pictures, week->before->load_kg[LOAD_TOP]) : NAN);
    gp_row_end(script);
}

/* "top +2.5": over the wave before, on the average of the weeks that both have. */
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
    double over = shown(pictures, sum / (double)steps);
    number_fixed(text, sizeof text, over, 1);
    return arena_printf(pictures->session->arena, "top %s%s", over > 0 && strcmp(text, "0.0") ? "+" : "", text);
}

#define WAVES_SHOWN 20

static void wave_rows(const struct pictures *pictures, struct gp_script *script, const struct wave_week *weeks, size_t count)
{
    unsigned newest = weeks[count - 1].wave, from = newest > WAVES_SHOWN ? newest - WAVES_SHOWN : 0;
    gp_block(script, "$WEEKS");
    for (size_t i = 0; i < count; i++) {
        struct wave_week week = weeks[i];
        if (week.wave <= from)
            continue;
        week.wave -= from; /* the template counts waves as drawn */
        wave_week_row(pictures, script, &week);
    }
    gp_block(script, "$WAVES");
    for (size_t i = 0, end; i < count; i = end) {
        for (end = i; end < count && weeks[end].wave == weeks[i].wave; end++)
            ;
        if (weeks[i].wave <= from)
            continue;
        gp_cell_number(script, weeks[i].wave - from);
        gp_cell_text(script, arena_printf(pictures->session->arena, "wave %u", weeks[i].wave));
        gp_cell_text(script, arena_printf(pictures->session->arena, "%u", weeks[i].wave));
        gp_cell_text(script, wave_remark(pictures, &weeks[i], end - i));
        gp_row_end(script);
    }
}

static bool same_series(const struct wave_week *a, const struct wave_week *b)
{
    return a->focus == b->focus && !strcmp(a->lift, b->lift) && !strcmp(a->lifter, b->lifter);
}

static void add_waves(struct pictures *pictures, const struct waves *waves)
{
    struct arena *arena = pictures->session->arena;
    size_t overload_count;
    const struct overload *overloads = overload_make(arena, waves, &overload_count);
    for (size_t i = 0, end, o = 0; i < waves->count; i = end) {
        const struct wave_week *first = &waves->weeks[i];
        for (end = i; end < waves->count && same_series(first, &waves->weeks[end]); end++)
            ;
        while (o < overload_count && (strcmp(overloads[o].lifter, first->lifter) || strcmp(overloads[o].lift, first->lift) || overloads[o].focus != first->focus))
            o++;
        const char *what = arena_printf(arena, "%s waves", focus_name(first->focus));
        const char *sentence = o < overload_count ? overload_sentence(arena, &overloads[o], pictures->session->unit) : "";
        struct gp_script *script = add_picture(pictures, "waves", file_name(pictures, first->lifter, first->lift, what),
                                               title_of(pictures, first->lifter, first->lift, what), sentence);
        if (script)
            wave_rows(pictures, script, first, end - i);
    }
}

/* --- volume and intensity by week --------------------------------------------------------------------------------------------- */

static const struct trend_slope *volume_slope(const struct trend_slope *slopes, size_t count, const struct trend_week *week)
{
    for (size_t i = 0; i < count; i++)
        if (!strcmp(slopes[i].lifter, week->lifter) && !strcmp(slopes[i].lift, week->lift) && !strcmp(slopes[i].measure, "volume_mean_kg"))
            return &slopes[i];
    return NULL;
}

static const char *week_sentence(const struct pictures *pictures, const struct trend_slope *slope)
{
    struct arena *arena = pictures->session->arena;
    char percent[32];
    if (!slope || isnan(slope->percent_4w))
        return "";
    number_fixed(percent, sizeof percent, fabs(slope->percent_4w), 1);
    if (!*slope_direction(&slope->fit))
        return "Volume shows no trend: its 95 % interval holds 0.";
    return arena_printf(arena, "Volume goes %s by %s %% in four weeks.", slope_direction(&slope->fit), percent);
}

/* The fitted line, through the medians of week and volume as Theil and Sen's line is drawn. */
static void set_trend_line(const struct pictures *pictures, struct gp_script *script, const struct trend_slope *slope, size_t count)
{
    if (!slope || isnan(slope->fit.slope) || !*slope_direction(&slope->fit))
        return;
    double middle = ((double)count - 1) / 2;
    gp_set_number(script, "trend_first", shown(pictures, slope->fit.median - slope->fit.slope * middle));
    gp_set_number(script, "trend_last", shown(pictures, slope->fit.median + slope->fit.slope * middle));
}

#define WEEKS_WORTH_A_PICTURE 2

/* A lift logged without weights has repetitions and no volume to draw. */
static bool has_volume(const struct trend_week *weeks, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (weeks[i].volume_kg[LOAD_MEAN] > 0)
            return true;
    return false;
}

static void add_weeks(struct pictures *pictures)
{
    struct arena *arena = pictures->session->arena;
    size_t week_count, slope_count;
    const struct trend_week *weeks = trend_make(arena, pictures->session->training, &week_count);
    const struct trend_slope *slopes = trend_slopes(arena, pictures->session->training, weeks, week_count, &slope_count);
    for (size_t i = 0, end; i < week_count; i = end) {
        for (end = i; end < week_count && !strcmp(weeks[end].lift, weeks[i].lift) && !strcmp(weeks[end].lifter, weeks[i].lifter); end++)
            ;
        if (end - i < WEEKS_WORTH_A_PICTURE || !strcmp(weeks[i].lift, ALL_LIFTS) || !has_volume(&weeks[i], end - i))
            continue;
        const struct trend_slope *slope = volume_slope(slopes, slope_count, &weeks[i]);
        struct gp_script *script = add_picture(pictures, "weeks", file_name(pictures, weeks[i].lifter, weeks[i].lift, "weeks"),
                                               title_of(pictures, weeks[i].lifter, weeks[i].lift, "volume and intensity by week"),
                                               week_sentence(pictures, slope));
        if (!script)
            continue;
        set_trend_line(pictures, script, slope, end - i);
        gp_block(script, "$WEEKS");
        for (size_t w = i; w < end; w++) {
            gp_cell_day(script, week_monday(weeks[w].week));
            gp_cell_number(script, shown(pictures, weeks[w].volume_kg[LOAD_STRAIGHT]));
            gp_cell_number(script, shown(pictures, weeks[w].volume_kg[LOAD_MEAN]));
            gp_cell_number(script, weeks[w].intensity[LOAD_STRAIGHT]);
            gp_cell_number(script, weeks[w].intensity[LOAD_MEAN]);
            gp_row_end(script);
        }
    }
}

/* --- load against height ------------------------------------------------------------------------------------------------------- */

#define SETUPS_SHOWN 6
#define CURVE_POINTS 41
#define CURVES_IN_HEIGHT 4 /* the template's own height has room for these; each more wants CURVE_ROOM pixels */
#define CURVES_HEIGHT 600
#define CURVE_ROOM 60

struct setup_use
{
    const struct lifted *newest;
    size_t sets;
};

static int by_use(const void *left, const void *right)
{
    const struct setup_use *a = left, *b = right;
    return a->sets != b->sets ? (a->sets < b->sets ? 1 : -1) : strcmp(a->newest->set->load->ar, b->newest->set->load->ar);
}

/* The set-ups of one lift whose load is known at every height, most used first. */
static size_t setups_used(struct arena *arena, const struct lift_sets *lift, struct setup_use **uses)
{
    LIST(struct setup_use) list = {0};
    for (size_t i = 0; i < lift->count; i++) {
        const struct lifted *lifted = lift->sets[i];
        if (!lifted->has_ar || !is_work(lifted) || !lifted->loading->heights_known || isnan(lifted->effect->top_kg) || isnan(lifted->effect->bottom_kg))
            continue;
        size_t at = 0;
        while (at < list.count && strcmp(list.items[at].newest->ar_key, lifted->ar_key))
            at++;
        struct setup_use *use = at < list.count ? &list.items[at] : LIST_ADD(arena, &list);
        use->sets++;
        use->newest = lifted;
    }
    if (list.count)
        qsort(list.items, list.count, sizeof *list.items, by_use);
    *uses = list.items;
    return list.count < SETUPS_SHOWN ? list.count : SETUPS_SHOWN;
}

static void curve_rows(const struct pictures *pictures, struct gp_script *script, const struct loading *loading)
{
    for (int i = 0; i < CURVE_POINTS; i++) {
        double height = loading->bottom_m + (loading->top_m - loading->bottom_m) * i / (CURVE_POINTS - 1);
        double load = loading_at(loading, height), u = loading_u_kg(loading, height, pictures->session->gym);
        gp_cell_number(script, height);
        gp_cell_number(script, shown(pictures, load));
        gp_cell_number(script, shown(pictures, load - 2 * u)); /* k = 2 */
        gp_cell_number(script, shown(pictures, load + 2 * u));
        gp_row_end(script);
    }
}

static void add_curves(struct pictures *pictures, const struct lift_sets *lift)
{
    struct arena *arena = pictures->session->arena;
    struct setup_use *uses;
    size_t count = setups_used(arena, lift, &uses);
    if (!count)
        return;
    double straight = uses[0].newest->effect->straight_kg;
    char text[32];
    number_fixed(text, sizeof text, shown(pictures, straight), 1);
    const char *sentence = arena_printf(arena, "Each set-up used, with %s %s straight weight; shaded: twice the standard uncertainty.", text,
                                        mass_unit_name(pictures->session->unit));
    struct gp_script *script = add_picture(pictures, "curves", file_name(pictures, lift->lifter, lift->lift, "set-ups"),
                                           title_of(pictures, lift->lifter, lift->lift, "load by height of the bar"), sentence);
    if (!script)
        return;
    if (count > CURVES_IN_HEIGHT && !pictures->height)
        gp_set_number(script, "height", CURVES_HEIGHT + CURVE_ROOM * (double)(count - CURVES_IN_HEIGHT));
    gp_set_number(script, "straight_weight", shown(pictures, straight));
    struct loading *loadings = ARENA_ARRAY(arena, struct loading, count);
    gp_block(script, "$CURVES");
    for (size_t i = 0; i < count; i++) {
        loadings[i] = *uses[i].newest->loading;
        loadings[i].straight_kg = straight; /* side by side, only the set-ups differ */
        if (i)
            gp_part_end(script);
        curve_rows(pictures, script, &loadings[i]);
    }
    gp_block(script, "$ENDS");
    for (size_t i = 0; i < count; i++) {
        gp_cell_text(script, uses[i].newest->set->load->ar);
        gp_cell_number(script, loadings[i].bottom_m);
        gp_cell_number(script, shown(pictures, loading_at(&loadings[i], loadings[i].bottom_m)));
        gp_cell_number(script, loadings[i].top_m);
        gp_cell_number(script, shown(pictures, loading_at(&loadings[i], loadings[i].top_m)));
        gp_row_end(script);
    }
}

struct pictures pictures_make(struct session *session, enum gp_picture kind, unsigned width, unsigned height)
{
    struct arena *arena = session->arena;
    struct pictures pictures = {.session = session, .kind = kind, .width = width, .height = height, .used = names_new(arena)};
    add_waves(&pictures, waves_make(arena, session->training));
    add_weeks(&pictures);
    size_t lift_count;
    const struct lift_sets *lifts = training_by_lift(arena, session->training, &lift_count);
    for (size_t i = 0; i < lift_count; i++)
        add_curves(&pictures, &lifts[i]);
    return pictures;
}
