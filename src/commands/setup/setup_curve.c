#include "commands/setup/setup_curve.h"

#include "commands/setup/setup.h"

#include "analysis/setup/setup_facts.h"
#include "base/pounds.h"
#include "commands/pictures/drawing.h"
#include "commands/setup/setup_text.h"

#include <math.h>
#include <string.h>

/* --- one row ------------------------------------------------------------------------------------------------------ */

struct setup_row
{
    const struct setup_view *view;
    const char *load;
    struct fore_aft fore_aft;
    struct setup_push push;
    double speed_ms, peak_speed_ms;            /* NAN: none given */
    double clearance_m, resting_share, left_m; /* the least of all pieces; NAN: there are none */
    char assumed[192], from[32];
};

#define GET(name, call)                                                                                                \
    static void get_##name(const void *row, struct cell *cell)                                                         \
    {                                                                                                                  \
        const struct setup_row *r = row;                                                                               \
        const struct effect *effect = &r->view->effect;                                                                \
        (void)effect;                                                                                                  \
        call;                                                                                                          \
    }
GET(lifter, cell_text(cell, r->view->lifter))
GET(lift, cell_text(cell, r->view->lift))
GET(date, cell_day(cell, r->view->context.day))
GET(load_text, cell_text(cell, r->load))
GET(straight, cell_number(cell, effect->straight_kg))
GET(bottom, cell_number(cell, effect->bottom_kg))
GET(top, cell_number(cell, effect->top_kg))
GET(mean, cell_number(cell, effect->mean_kg))
GET(bottom_u, cell_number(cell, effect->bottom_u_kg))
GET(top_u, cell_number(cell, effect->top_u_kg))
GET(work, cell_number(cell, loading_work_j(r->view->loading)))
GET(one_rm, cell_number(cell, r->view->one_rm.kg))
GET(one_rm_from, cell_text(cell, r->from))
GET(share, cell_number(cell, setup_share(r->view)))
GET(share_of_top, cell_number(cell, effect->top_kg > 0 ? (effect->top_kg - effect->bottom_kg) / effect->top_kg : NAN))
GET(bottom_m, cell_number(cell, r->view->loading->bottom_m))
GET(top_m, cell_number(cell, r->view->loading->top_m))
GET(fore_aft, cell_number(cell, r->fore_aft.pull_kg))
GET(fore_aft_ratio, cell_number(cell, r->fore_aft.ratio))
GET(clearance, cell_number(cell, r->clearance_m))
GET(resting, cell_number(cell, r->resting_share))
GET(left, cell_number(cell, r->left_m))
GET(lowering_top, cell_number(cell, effect->lowering_top_kg))
GET(assumed, cell_text(cell, r->assumed))
GET(lowering_bottom, cell_number(cell, effect->lowering_bottom_kg))
GET(lowering_mean, cell_number(cell, effect->lowering_mean_kg))
GET(lost, cell_number(cell, loading_lost_j(r->view->loading)))
GET(speed, cell_number(cell, r->speed_ms))
GET(peak_speed, cell_number(cell, r->peak_speed_ms))
GET(push, cell_number(cell, r->push.push_kg))
GET(push_at, cell_number(cell, r->push.at_m))
GET(push_inertia, cell_number(cell, r->push.inertia_kg))

static const struct column row_columns[] = {
    {"lifter", NULL, QUANTITY_PLAIN, 0, get_lifter},
    {"lift", NULL, QUANTITY_PLAIN, 0, get_lift},
    {"date", NULL, QUANTITY_PLAIN, 0, get_date},
    {"load", NULL, QUANTITY_PLAIN, 0, get_load_text},
    {"straight_kg", NULL, QUANTITY_LOAD, 1, get_straight},
    {"bottom_kg", NULL, QUANTITY_LOAD, 1, get_bottom},
    {"top_kg", NULL, QUANTITY_LOAD, 1, get_top},
    {"mean_kg", NULL, QUANTITY_LOAD, 1, get_mean},
    {"bottom_u_kg", NULL, QUANTITY_LOAD, 2, get_bottom_u},
    {"top_u_kg", NULL, QUANTITY_LOAD, 2, get_top_u},
    {"work_j", NULL, QUANTITY_PLAIN, 0, get_work},
    {"one_rm_kg", NULL, QUANTITY_LOAD, 1, get_one_rm},
    {"one_rm_from", NULL, QUANTITY_PLAIN, 0, get_one_rm_from},
    {"share", NULL, QUANTITY_SHARE, 1, get_share},
    {"share_of_top", NULL, QUANTITY_SHARE, 1, get_share_of_top},
    {"bottom_m", NULL, QUANTITY_PLAIN, 3, get_bottom_m},
    {"top_m", NULL, QUANTITY_PLAIN, 3, get_top_m},
    {"fore_aft_kg", NULL, QUANTITY_LOAD, 1, get_fore_aft},
    {"fore_aft_ratio", NULL, QUANTITY_SHARE, 1, get_fore_aft_ratio},
    {"clearance_m", NULL, QUANTITY_PLAIN, 3, get_clearance},
    {"resting_share", NULL, QUANTITY_SHARE, 1, get_resting},
    {"calibration_left_m", NULL, QUANTITY_PLAIN, 3, get_left},
    {"lowering_top_kg", NULL, QUANTITY_LOAD, 1, get_lowering_top},
    {"assumed", NULL, QUANTITY_PLAIN, 0, get_assumed},
    {"lowering_bottom_kg", NULL, QUANTITY_LOAD, 1, get_lowering_bottom},
    {"lowering_mean_kg", NULL, QUANTITY_LOAD, 1, get_lowering_mean},
    {"lost_j", NULL, QUANTITY_PLAIN, 0, get_lost},
    {"speed_ms", NULL, QUANTITY_PLAIN, 2, get_speed},
    {"peak_speed_ms", NULL, QUANTITY_PLAIN, 2, get_peak_speed},
    {"peak_push_kg", NULL, QUANTITY_LOAD, 1, get_push},
    {"peak_push_m", NULL, QUANTITY_PLAIN, 3, get_push_at},
    {"peak_inertia_kg", NULL, QUANTITY_LOAD, 1, get_push_inertia},
};

static void least_of_pieces(struct setup_row *row)
{
    const struct loading *loading = row->view->loading;
    for (size_t i = 0; i < loading->hung_count; i++) {
        const struct hung *hung = &loading->hung[i];
        if (hung->kind == HUNG_CHAIN) {
            struct chain_facts facts = chain_facts_of(loading, hung);
            row->clearance_m = fmin(row->clearance_m, facts.clearance_m); /* fmin ignores NAN */
            row->resting_share = fmin(row->resting_share, facts.resting_share);
        } else if (hung->kind == HUNG_BAND) {
            row->left_m = fmin(row->left_m, band_facts_of(loading, hung).left_m);
        }
    }
}

void setup_row(const struct setup_view *view)
{
    struct setup_row row = {.view = view,
                            .load = load_print(view->session->arena, view->load),
                            .clearance_m = NAN,
                            .resting_share = NAN,
                            .left_m = NAN};
    row.fore_aft = (struct fore_aft){.pull_kg = NAN, .ratio = NAN};
    if (setup_curve_known(view))
        row.fore_aft = fore_aft_worst(view->loading);
    row.push = setup_most_push(view);
    row.speed_ms = view->motion.mean_ms > 0 ? view->motion.mean_ms : NAN;
    row.peak_speed_ms = view->motion.mean_ms > 0 ? bar_motion_peak_ms(&view->motion) : NAN;
    least_of_pieces(&row);
    assumptions_print(row.assumed, view->effect.assumed);
    if (view->one_rm.day != NO_DAY)
        one_rm_print(row.from, &view->one_rm);
    session_table(view->session, row_columns, sizeof row_columns / sizeof *row_columns, &row, 1, sizeof row);
}

/* --- the curve ---------------------------------------------------------------------------------------------------- */

struct curve_point
{
    double height_m, load_kg, u_kg;
    double inertia_kg; /* NAN: no speed was given */
};

static void get_height(const void *row, struct cell *cell)
{
    cell_number(cell, ((const struct curve_point *)row)->height_m);
}

static void get_load(const void *row, struct cell *cell)
{
    cell_number(cell, ((const struct curve_point *)row)->load_kg);
}

static void get_u(const void *row, struct cell *cell)
{
    cell_number(cell, ((const struct curve_point *)row)->u_kg);
}

static void get_inertia(const void *row, struct cell *cell)
{
    cell_number(cell, ((const struct curve_point *)row)->inertia_kg);
}

static void get_curve_push(const void *row, struct cell *cell)
{
    const struct curve_point *point = row;
    cell_number(cell, point->load_kg + point->inertia_kg);
}

static const struct column curve_columns[] = {
    {"height_m", NULL, QUANTITY_PLAIN, 3, get_height},
    {"load_kg", NULL, QUANTITY_LOAD, 1, get_load},
    {"u_kg", NULL, QUANTITY_LOAD, 2, get_u},
    {"inertia_kg", NULL, QUANTITY_LOAD, 1, get_inertia},
    {"push_kg", NULL, QUANTITY_LOAD, 1, get_curve_push},
};

static const struct curve_point *curve_points(const struct setup_view *view, size_t *count)
{
    const struct loading *loading = view->loading;
    const double *heights = setup_heights(view->session->arena, loading, count);
    struct curve_point *points = ARENA_ARRAY(view->session->arena, struct curve_point, *count);
    for (size_t i = 0; i < *count; i++)
        points[i] = (struct curve_point){heights[i], loading_at(loading, heights[i]),
                                         loading_u_kg(loading, heights[i], view->session->gym), NAN};
    for (size_t i = 0; view->motion.mean_ms > 0 && i < *count; i++)
        points[i].inertia_kg = loading_inertia_kg(loading, &view->motion, heights[i]);
    return points;
}

void setup_curve(const struct setup_view *view)
{
    struct session *session = view->session;
    size_t count;
    const struct curve_point *points = curve_points(view, &count);
    struct output *output = session_output(session);
    if (!output)
        return;
    struct table_style style = session_style(session, output);
    style.format = session->options->curve;
    struct table_writer *writer = table_open(session->arena, output, curve_columns,
                                             sizeof curve_columns / sizeof *curve_columns, &style);
    for (size_t i = 0; i < count; i++)
        table_row(writer, &points[i]);
    table_close(writer);
    session_commit(session, output);
}

/* --- the picture -------------------------------------------------------------------------------------------------- */

/* "into/squat.gp": squat */
static const char *picture_name(struct arena *arena, const char *path)
{
    const char *slash = strrchr(path, '/'), *name = slash ? slash + 1 : path, *ending = strrchr(name, '.');
    return ending && !strcmp(ending, ".gp") ? arena_text(arena, name, (size_t)(ending - name)) : name;
}

static void end_row(struct gp_script *script, const char *name, double bottom_m, double bottom, double top_m,
                    double top)
{
    gp_cell_text(script, name);
    gp_cell_number(script, bottom_m);
    gp_cell_number(script, bottom);
    gp_cell_number(script, top_m);
    gp_cell_number(script, top);
    gp_row_end(script);
}

static double height_unit_m(enum mass_unit unit)
{
    return unit == UNIT_LB ? M_PER_IN : 1;
}

static void curve_rows(const struct setup_view *view, struct gp_script *script)
{
    size_t count;
    const struct curve_point *points = curve_points(view, &count);
    enum mass_unit unit = view->session->unit;
    gp_block(script, "$CURVES");
    for (size_t i = 0; i < count; i++) {
        gp_cell_number(script, points[i].height_m / height_unit_m(unit));
        gp_cell_number(script, kg_to(points[i].load_kg, unit));
        gp_cell_number(script, kg_to(points[i].load_kg - 2 * points[i].u_kg, unit)); /* k = 2 */
        gp_cell_number(script, kg_to(points[i].load_kg + 2 * points[i].u_kg, unit));
        gp_row_end(script);
    }
    for (size_t i = 0; view->motion.mean_ms > 0 && i < count; i++) {
        if (!i)
            gp_part_end(script);
        gp_cell_number(script, points[i].height_m / height_unit_m(unit));
        gp_cell_number(script, kg_to(points[i].load_kg + points[i].inertia_kg, unit));
        gp_cell_number(script, NAN);
        gp_cell_number(script, NAN);
        gp_row_end(script);
    }
    gp_block(script, "$ENDS");
    double unit_m = height_unit_m(unit), low_m = points[0].height_m / unit_m,
           high_m = points[count - 1].height_m / unit_m;
    end_row(script,
            *view->load->ar ? load_in_unit(view->session->arena, view->load->ar, unit) : "straight weight alone", low_m,
            kg_to(points[0].load_kg, unit), high_m, kg_to(points[count - 1].load_kg, unit));
    if (view->motion.mean_ms > 0)
        end_row(script, arena_printf(view->session->arena, "with its inertia at %s, a model", setup_speed(view)), low_m,
                kg_to(points[0].load_kg + points[0].inertia_kg, unit), high_m,
                kg_to(points[count - 1].load_kg + points[count - 1].inertia_kg, unit));
}

void setup_plot(const struct setup_view *view)
{
    struct session *session = view->session;
    const struct options *options = session->options;
    struct arena *arena = session->arena;
    struct gp_script *script = gp_new(arena, "curves");
    if (!script)
        return;
    gp_picture(script, drawing_kind(options->render), picture_name(arena, options->plot));
    gp_set_text(script, "unit", mass_unit_name(session->unit));
    gp_set_text(script, "heading", arena_printf(arena, "%s: load by height of the bar", setup_whose(view)));
    gp_set_text(script, "sentence",
                arena_printf(arena, "%s at the bottom, %s at the top, %s on average.",
                             show_load(session, view->effect.bottom_kg), show_load(session, view->effect.top_kg),
                             show_load(session, view->effect.mean_kg)));
    gp_set_text(script, "height_unit", session->unit == UNIT_LB ? "in" : "m");
    gp_set_number(script, "straight_weight", kg_to(view->effect.straight_kg, session->unit));
    if (options->picture_width) {
        gp_set_number(script, "width", options->picture_width);
        gp_set_number(script, "height", options->picture_height);
    }
    curve_rows(view, script);
    size_t rendered = 0;
    if (drawing_write(session, options->plot, script) && drawing_wanted(options->render))
        drawing_render(session, options->plot, script, &rendered);
}
