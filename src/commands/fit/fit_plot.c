#include "commands/fit/fit_plot.h"

#include "commands/fit/fit.h"

#include "base/text.h"
#include "commands/fit/fit_text.h"
#include "commands/pictures/drawing.h"
#include "writing/escape.h"
#include "writing/gnuplot/gnuplot.h"

#include <math.h>
#include <string.h>

#define CURVE_POINTS 61

struct drawing
{
    const struct fit *fit;
    struct gp_script *script;
    const struct band_fitting *first;
    size_t bands;                       /* of one label, from the first on */
    const struct band_fitting **series; /* each of them, and after it the same band let go */
    size_t count;
};

static double shown(const struct drawing *drawing, double kg)
{
    return kg_to(kg, drawing->fit->session.unit);
}

static const char *series_name(struct arena *arena, const struct measured_band *band)
{
    char day[16] = "";
    const char *side = band_side_name(band->side);
    if (band->day != NO_DAY)
        date_print(day, band->day);
    const char *name = arena_printf(arena, "%s%s%s", side, *side && *day ? ", " : "", day);
    if (band->way != WAY_DOWN)
        return name;
    return *name ? arena_printf(arena, "%s, let go", name) : "let go";
}

static double in_length_unit(const struct drawing *drawing, double metres)
{
    return drawing->fit->session.unit == UNIT_LB ? metres / M_PER_IN : metres;
}

static void put_points(const struct drawing *drawing)
{
    gp_block(drawing->script, "$POINTS");
    for (size_t i = 0; i < drawing->count; i++) {
        const struct measured_band *band = drawing->series[i]->measured;
        if (i)
            gp_part_end(drawing->script);
        for (size_t k = 0; k < band->count; k++) {
            const struct measured_point *point = &band->points[k];
            gp_cell_number(drawing->script, in_length_unit(drawing, point->length_m));
            gp_cell_number(drawing->script, shown(drawing, point->pull_kg));
            gp_cell_number(drawing->script, shown(drawing, point->spread_kg));
            gp_row_end(drawing->script);
        }
    }
    gp_block(drawing->script, "$FLATS");
    for (size_t i = 0; i < drawing->count; i++) {
        gp_cell_number(drawing->script, in_length_unit(drawing, drawing->series[i]->measured->flat_m));
        gp_row_end(drawing->script);
    }
}

struct drawn_curve
{
    size_t series; /* index of its series */
    enum band_law law;
};

struct drawn_curves
{
    LIST(struct drawn_curve) list;
};

/* The law to use comes first: it is drawn strongest. */
static struct drawn_curves choose_curves(const struct drawing *drawing)
{
    static const enum band_law order[LAW_COUNT] = {LAW_MEASURED, LAW_MOONEY_RIVLIN, LAW_NEO_HOOKEAN};
    struct arena *arena = drawing->fit->session.arena;
    struct drawn_curves curves = {0};
    for (size_t i = 0; i < drawing->count; i++)
        *LIST_ADD(arena, &curves.list) = (struct drawn_curve){i, drawing->series[i]->use};
    for (size_t i = 0; drawing->count == 1 && i < LAW_COUNT; i++)
        if (order[i] != drawing->first->use && drawing->first->laws[order[i]].fitted)
            *LIST_ADD(arena, &curves.list) = (struct drawn_curve){0, order[i]};
    return curves;
}

/* Only the fit in use shows its interval; where the measured curve is used and there is one measurement, the better
 * law shows it. Two points give no interval. */
static bool shows_interval(const struct drawing *drawing, const struct drawn_curve *curve)
{
    const struct band_fitting *fitting = drawing->series[curve->series];
    if (fitting->measured->count < 3)
        return false;
    return curve->law == (fitting->use == LAW_MEASURED ? fitting->best_law : fitting->use);
}

static void put_curve(const struct drawing *drawing, const struct drawn_curve *curve)
{
    const struct band_fitting *fitting = drawing->series[curve->series];
    double low = fitting->calibration.flat_m, high = fitting->calibration.range_high_m;
    for (int i = 0; i < CURVE_POINTS; i++) {
        double length = low + (high - low) * i / (CURVE_POINTS - 1);
        double pull = law_fit_pull_kg(fitting, curve->law, length);
        double half = shows_interval(drawing, curve) ? law_fit_interval_kg(fitting, curve->law, length, FIT_CONFIDENCE)
                                                     : NAN;
        gp_cell_number(drawing->script, in_length_unit(drawing, length));
        gp_cell_number(drawing->script, shown(drawing, pull));
        gp_cell_number(drawing->script, shown(drawing, pull - half));
        gp_cell_number(drawing->script, shown(drawing, pull + half));
        gp_row_end(drawing->script);
    }
}

static const char *curve_name(const struct drawing *drawing, const struct drawn_curve *curve)
{
    struct arena *arena = drawing->fit->session.arena;
    const char *law = band_law_title(curve->law);
    if (drawing->count == 1)
        return curve->law == drawing->first->use ? arena_printf(arena, "%s, to be used", law) : law;
    const char *series = series_name(arena, drawing->series[curve->series]->measured);
    return arena_printf(arena, "%s%s%s", series, *series ? ": " : "", law);
}

static void put_curves(const struct drawing *drawing)
{
    struct drawn_curves curves = choose_curves(drawing);
    gp_block(drawing->script, "$CURVES");
    for (size_t i = 0; i < curves.list.count; i++) {
        if (i)
            gp_part_end(drawing->script);
        put_curve(drawing, &curves.list.items[i]);
    }
    gp_block(drawing->script, "$NAMES");
    for (size_t i = 0; i < curves.list.count; i++) {
        gp_cell_number(drawing->script, (double)curves.list.items[i].series + 1);
        gp_cell_text(drawing->script, curve_name(drawing, &curves.list.items[i]));
        gp_row_end(drawing->script);
    }
}

static const char *comparison_words(struct arena *arena, const struct band_comparison *comparison)
{
    const char *more = comparison->share < 0 ? "less" : "more";
    double share = fabs(comparison->share) * 100;
    if (comparison->kind == LEFT_BESIDE_RIGHT)
        return arena_printf(arena, "At equal length the left one pulls %.1f %% %s than the right one.", share, more);
    return arena_printf(arena, "At equal length the newest pulls %.1f %% %s than the one before.", share, more);
}

/* The caption: the first difference between the curves, or how far off the fit in use is. */
static const char *sentence(const struct drawing *drawing)
{
    struct arena *arena = drawing->fit->session.arena;
    const struct band_comparisons *comparisons = &drawing->fit->comparisons;
    const struct band_fitting *fitting = drawing->first;
    for (size_t i = 0; drawing->count > 1 && i < comparisons->list.count; i++) {
        const struct band_comparison *comparison = &comparisons->list.items[i];
        if (comparison->a >= fitting && comparison->a < fitting + drawing->bands && !isnan(comparison->share))
            return comparison_words(arena, comparison);
    }
    double off = fitting->laws[fitting->use].left_out_kg;
    if (drawing->count > 1 || isnan(off))
        return "";
    return arena_printf(arena, "Tested on a length that it had not seen, the %s is wrong by %.2f %s, root mean square.",
                        fitting->use == LAW_MEASURED ? "curve" : "fit", shown(drawing, off),
                        mass_unit_name(drawing->fit->session.unit));
}

static const char *heading(const struct drawing *drawing)
{
    struct arena *arena = drawing->fit->session.arena;
    const char *series = drawing->bands == 1 ? series_name(arena, drawing->first->measured) : "";
    return arena_printf(arena, "Band %s%s%s", drawing->first->measured->label, *series ? ", " : "", series);
}

static const char *stem_of(struct arena *arena, const char *path)
{
    const char *dot = strrchr(path, '.');
    return arena_text(arena, path, dot && !strchr(dot, '/') ? (size_t)(dot - path) : strlen(path));
}

static const char *base_name(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash ? slash + 1 : path;
}

#define USUAL_HEIGHT 620 /* of the template, which wants the rest for a longer list of curves */
#define HEIGHT_OF_A_CURVE 60
#define CURVES_WITHIN 4
#define TALLEST 1500

static void set_size(const struct drawing *drawing)
{
    const struct options *options = drawing->fit->session.options;
    if (options->picture_width) {
        gp_set_number(drawing->script, "width", options->picture_width);
        gp_set_number(drawing->script, "height", options->picture_height);
    } else if (drawing->count > CURVES_WITHIN) {
        double wanted = USUAL_HEIGHT + HEIGHT_OF_A_CURVE * (double)(drawing->count - CURVES_WITHIN);
        gp_set_number(drawing->script, "height", fmin(wanted, TALLEST));
    }
}

static void list_series(struct arena *arena, struct drawing *drawing)
{
    drawing->series = ARENA_ARRAY(arena, const struct band_fitting *, 2 * drawing->bands);
    for (size_t i = 0; i < drawing->bands; i++) {
        drawing->series[drawing->count++] = &drawing->first[i];
        if (drawing->first[i].down)
            drawing->series[drawing->count++] = drawing->first[i].down;
    }
}

static void draw(struct fit *fit, const char *path, size_t first, size_t count)
{
    struct arena *arena = fit->session.arena;
    struct drawing drawing = {
        .fit = fit, .script = gp_new(arena, "band"), .first = &fit->fittings.list.items[first], .bands = count};
    list_series(arena, &drawing);
    if (!drawing.script)
        return;
    gp_picture(drawing.script, drawing_kind(fit->session.options->render), base_name(stem_of(arena, path)));
    gp_set_text(drawing.script, "unit", mass_unit_name(fit->session.unit));
    gp_set_text(drawing.script, "length_unit", fit->session.unit == UNIT_LB ? "in" : "m");
    gp_set_text(drawing.script, "heading", heading(&drawing));
    gp_set_text(drawing.script, "sentence", sentence(&drawing));
    set_size(&drawing);
    put_points(&drawing);
    put_curves(&drawing);
    size_t rendered = 0;
    if (drawing_write(&fit->session, path, drawing.script) && drawing_wanted(fit->session.options->render))
        drawing_render(&fit->session, path, drawing.script, &rendered);
}

void fit_plots(struct fit *fit, const char *path)
{
    struct arena *arena = fit->session.arena;
    size_t total = fit->fittings.list.count, end;
    for (size_t i = 0; i < total; i = end) {
        const char *label = fit->fittings.list.items[i].measured->label;
        for (end = i + 1; end < total && text_same_name(label, fit->fittings.list.items[end].measured->label); end++)
            ;
        bool only = i == 0 && end == total;
        draw(fit, only ? path : arena_printf(arena, "%s-%s.gp", stem_of(arena, path), escape_file_name(arena, label)),
             i, end - i);
    }
}
