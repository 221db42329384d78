#include "commands/pictures/pictures_curves.h"

#include "commands/pictures/pictures.h"
#include "commands/pictures/pictures_parts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define SETUPS_SHOWN 6
#define CURVE_POINTS 41
#define POINTS_A_ROW 4     /* the table has every fourth point */
#define CURVES_IN_HEIGHT 4 /* the template's own height has room for these; each more wants CURVE_ROOM pixels */
#define CURVES_HEIGHT 620
#define CURVE_ROOM 60

struct setup_use
{
    const struct evaluated_set *newest;
    size_t sets;
};

static int by_use(const void *left, const void *right)
{
    const struct setup_use *a = left, *b = right;
    if (a->sets != b->sets)
        return a->sets < b->sets ? 1 : -1;
    return strcmp(a->newest->set->ar->ar, b->newest->set->ar->ar);
}

/* The set-ups of one lift whose load is known at every height, most used first. */
static size_t setups_used(struct arena *arena, const struct lift_sets *lift, struct setup_use **uses)
{
    LIST(struct setup_use) list = {0};
    for (size_t i = 0; i < lift->count; i++) {
        const struct evaluated_set *evaluated = lift->sets[i];
        if (!evaluated->has_ar || !is_work(evaluated) || !evaluated->loading->heights_known ||
            isnan(evaluated->effect->top_kg) || isnan(evaluated->effect->bottom_kg))
            continue;
        size_t at = 0;
        while (at < list.count && strcmp(list.items[at].newest->ar_key, evaluated->ar_key))
            at++;
        struct setup_use *use = at < list.count ? &list.items[at] : LIST_ADD(arena, &list);
        use->sets++;
        use->newest = evaluated;
    }
    if (list.count)
        qsort(list.items, list.count, sizeof *list.items, by_use);
    *uses = list.items;
    return list.count < SETUPS_SHOWN ? list.count : SETUPS_SHOWN;
}

static double in_height_unit(const struct drawn *drawn, double metres)
{
    return drawn->pictures->session->unit == UNIT_LB ? metres / M_PER_IN : metres;
}

static void table_row_of_curve(struct drawn *drawn, const char *name, double height_m, double load, double u)
{
    if (!drawn->pictures->style.for_page)
        return;
    only_text(drawn, name);
    bool inches = drawn->pictures->session->unit == UNIT_LB;
    only_text(drawn,
              arena_printf(drawn->pictures->session->arena, inches ? "%.1f" : "%.2f", in_height_unit(drawn, height_m)));
    only_load(drawn, load, 1);
    only_load(drawn, 2 * u, 1);
}

static void curve_rows(struct drawn *drawn, const struct loading *loading, const char *name)
{
    for (int i = 0; i < CURVE_POINTS; i++) {
        double height = loading->bottom_m + (loading->top_m - loading->bottom_m) * i / (CURVE_POINTS - 1);
        double load = loading_at(loading, height), u = loading_u_kg(loading, height, drawn->pictures->session->gym);
        gp_cell_number(drawn->script, in_height_unit(drawn, height));
        gp_cell_number(drawn->script, picture_load(drawn->pictures, load));
        gp_cell_number(drawn->script, picture_load(drawn->pictures, load - 2 * u)); /* k = 2 */
        gp_cell_number(drawn->script, picture_load(drawn->pictures, load + 2 * u));
        gp_row_end(drawn->script);
        if (i % POINTS_A_ROW == 0)
            table_row_of_curve(drawn, name, height, load, u);
    }
}

static void draw_curves(struct drawn *drawn, const struct setup_use *uses, const struct loading *loadings, size_t count)
{
    if (drawn->pictures->session->unit == UNIT_LB)
        DATA_TITLES(drawn, "set-up", "height, in", "load, kg", "\u00B1 kg");
    else
        DATA_TITLES(drawn, "set-up", "height, m", "load, kg", "\u00B1 kg");
    gp_block(drawn->script, "$CURVES");
    for (size_t i = 0; i < count; i++) {
        if (i)
            gp_part_end(drawn->script);
        curve_rows(drawn, &loadings[i], picture_gear(drawn->pictures, uses[i].newest->set->ar->ar));
    }
    gp_block(drawn->script, "$ENDS");
    for (size_t i = 0; i < count; i++) {
        const struct loading *loading = &loadings[i];
        gp_cell_text(drawn->script, picture_gear(drawn->pictures, uses[i].newest->set->ar->ar));
        gp_cell_number(drawn->script, in_height_unit(drawn, loading->bottom_m));
        gp_cell_number(drawn->script, picture_load(drawn->pictures, loading_at(loading, loading->bottom_m)));
        gp_cell_number(drawn->script, in_height_unit(drawn, loading->top_m));
        gp_cell_number(drawn->script, picture_load(drawn->pictures, loading_at(loading, loading->top_m)));
        gp_row_end(drawn->script);
    }
}

void add_curves(struct pictures *pictures, const struct lift_sets *lift)
{
    struct arena *arena = pictures->session->arena;
    const struct picture_style *style = &pictures->style;
    struct setup_use *uses;
    size_t count = setups_used(arena, lift, &uses);
    if (!count)
        return;
    double straight = uses[0].newest->effect->straight_kg;
    const char *sentence = arena_printf(
        arena, "Each set-up used, with %s straight weight, from the bottom to the top of the lift.",
        picture_load_words(pictures, straight));
    struct drawn drawn = picture_begin(pictures, &(struct picture_of){PICTURE_CURVES, lift->lifter, lift->lift,
                                                                      FOCUS_UNSAID, "curves", "set-ups",
                                                                      "load by height of the bar", sentence});
    if (count > CURVES_IN_HEIGHT && (!style->height || style->for_page))
        gp_set_number(drawn.script, "height",
                      (style->height ? style->height : CURVES_HEIGHT) +
                          CURVE_ROOM * (double)(count - CURVES_IN_HEIGHT));
    gp_set_text(drawn.script, "height_unit", pictures->session->unit == UNIT_LB ? "in" : "m");
    gp_set_number(drawn.script, "straight_weight", picture_load(pictures, straight));
    struct loading *loadings = ARENA_ARRAY(arena, struct loading, count);
    for (size_t i = 0; i < count; i++) {
        loadings[i] = *uses[i].newest->loading;
        loadings[i].straight_kg = straight; /* with equal straight weight, only the set-ups differ */
    }
    draw_curves(&drawn, uses, loadings, count);
}
