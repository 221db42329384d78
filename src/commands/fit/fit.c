/* fit: a band's force law from measured lengths and pulls. */
#include "commands/fit/fit.h"

#include "analysis/bands/band_comparing.h"
#include "base/text.h"
#include "commands/command.h"
#include "commands/fit/fit_block.h"
#include "commands/fit/fit_plot.h"
#include "commands/fit/fit_text.h"
#include "reading/measurements/measured_bands.h"
#include "reading/measurements/measurements.h"

#include <math.h>

/* --- tables ------------------------------------------------------------------------------------------------------ */

struct law_row
{
    const struct band_fitting *fitting;
    const struct law_fit *law;
};

static double widest_spread_kg(const struct measured_band *band)
{
    double widest = 0;
    for (size_t i = 0; i < band->count; i++)
        widest = fmax(widest, band->points[i].spread_kg);
    return widest;
}

#define GET(name, ...)                                                                                                 \
    static void get_##name(const void *item, struct cell *cell)                                                        \
    {                                                                                                                  \
        const struct law_row *row = item;                                                                              \
        const struct measured_band *band = row->fitting->measured;                                                     \
        const struct law_fit *law = row->law;                                                                          \
        (void)band, (void)law;                                                                                         \
        __VA_ARGS__;                                                                                                   \
    }

GET(file, cell_text(cell, band->at.file))
GET(line, cell_count(cell, (long)band->at.line))
GET(band, cell_text(cell, band->label))
GET(side, cell_text(cell, band_side_name(band->side)))
GET(measured, cell_day(cell, band->day))
GET(flat, cell_number(cell, band->flat_m))
GET(lengths, cell_count(cell, (long)band->count))
GET(readings, cell_count(cell, (long)band->readings))
GET(spread, cell_number(cell, widest_spread_kg(band)))
GET(low, cell_number(cell, law->fit.low_m))
GET(high, cell_number(cell, law->fit.high_m))
GET(law, cell_text(cell, band_law_name(law->law)))
GET(law_title, cell_text(cell, band_law_title(law->law)))
GET(used, cell_text(cell, row->fitting->use == law->law ? "yes" : "no"))
GET(c1, cell_number(cell, law->fitted ? law->fit.c1_kg : NAN))
GET(c1_u, cell_number(cell, law->fitted ? law->fit.c1_u_kg : NAN))
GET(c2, cell_number(cell, law->fitted && law->law == LAW_MOONEY_RIVLIN ? law->fit.c2_kg : NAN))
GET(c2_u, cell_number(cell, law->fitted && law->law == LAW_MOONEY_RIVLIN ? law->fit.c2_u_kg : NAN))
GET(residual, cell_number(cell, law->residual_kg))
GET(r_squared, cell_number(cell, law->r_squared))
GET(left_out, cell_number(cell, law->left_out_kg))
GET(way, cell_text(cell, band_way_name(band->way)))

static const struct column law_columns[] = {
    {"file", NULL, QUANTITY_PLAIN, 0, get_file},
    {"line", NULL, QUANTITY_PLAIN, 0, get_line},
    {"band", NULL, QUANTITY_PLAIN, 0, get_band},
    {"side", NULL, QUANTITY_PLAIN, 0, get_side},
    {"measured", NULL, QUANTITY_PLAIN, 0, get_measured},
    {"flat_m", NULL, QUANTITY_PLAIN, 4, get_flat},
    {"lengths", NULL, QUANTITY_PLAIN, 0, get_lengths},
    {"readings", NULL, QUANTITY_PLAIN, 0, get_readings},
    {"spread_kg", NULL, QUANTITY_LOAD, 2, get_spread},
    {"low_m", NULL, QUANTITY_PLAIN, 4, get_low},
    {"high_m", NULL, QUANTITY_PLAIN, 4, get_high},
    {"law", NULL, QUANTITY_PLAIN, 0, get_law},
    {"used", NULL, QUANTITY_PLAIN, 0, get_used},
    {"c1_kg", NULL, QUANTITY_LOAD, 3, get_c1},
    {"c1_u_kg", NULL, QUANTITY_LOAD, 3, get_c1_u},
    {"c2_kg", NULL, QUANTITY_LOAD, 3, get_c2},
    {"c2_u_kg", NULL, QUANTITY_LOAD, 3, get_c2_u},
    {"residual_kg", NULL, QUANTITY_LOAD, 3, get_residual},
    {"r_squared", NULL, QUANTITY_PLAIN, 4, get_r_squared},
    {"left_out_kg", NULL, QUANTITY_LOAD, 3, get_left_out},
    {"way", NULL, QUANTITY_PLAIN, 0, get_way},
};

/* For people, below the band's name. */
static const struct column law_text_columns[] = {
    {"law", "law", QUANTITY_PLAIN, 0, get_law_title},
    {"c1_kg", "c1 kg", QUANTITY_LOAD, 3, get_c1},
    {"c1_u_kg", "u(c1) kg", QUANTITY_LOAD, 3, get_c1_u},
    {"c2_kg", "c2 kg", QUANTITY_LOAD, 3, get_c2},
    {"c2_u_kg", "u(c2) kg", QUANTITY_LOAD, 3, get_c2_u},
    {"residual_kg", "residual kg", QUANTITY_LOAD, 3, get_residual},
    {"left_out_kg", "left out kg", QUANTITY_LOAD, 3, get_left_out},
    {"r_squared", "R²", QUANTITY_PLAIN, 5, get_r_squared},
};

#undef GET
#define GET(name, ...)                                                                                                 \
    static void get_beside_##name(const void *item, struct cell *cell)                                                 \
    {                                                                                                                  \
        const struct band_comparison *row = item;                                                                      \
        const struct measured_band *a = row->a->measured, *b = row->b->measured;                                       \
        (void)a, (void)b;                                                                                              \
        __VA_ARGS__;                                                                                                   \
    }

GET(band, cell_text(cell, a->label))
GET(kind, cell_text(cell, row->kind == LEFT_BESIDE_RIGHT ? "pair" : "age"))
GET(side, cell_text(cell, band_side_name(a->side)))
GET(measured, cell_day(cell, a->day))
GET(other_side, cell_text(cell, band_side_name(b->side)))
GET(other_measured, cell_day(cell, b->day))
GET(low, cell_number(cell, row->low_m))
GET(high, cell_number(cell, row->high_m))
GET(mean, cell_number(cell, row->mean_kg))
GET(share, cell_number(cell, row->share))
GET(worst_m, cell_number(cell, row->worst_m))
GET(worst, cell_number(cell, row->worst_kg))
GET(worst_share, cell_number(cell, row->worst_share))
GET(differs, cell_text(cell, isnan(row->share) ? "" : row->differs ? "yes" : "no"))

static const struct column comparison_columns[] = {
    {"band", "band", QUANTITY_PLAIN, 0, get_beside_band},
    {"kind", "kind", QUANTITY_PLAIN, 0, get_beside_kind},
    {"side", "side", QUANTITY_PLAIN, 0, get_beside_side},
    {"measured", "measured", QUANTITY_PLAIN, 0, get_beside_measured},
    {"other_side", "beside", QUANTITY_PLAIN, 0, get_beside_other_side},
    {"other_measured", "measured", QUANTITY_PLAIN, 0, get_beside_other_measured},
    {"low_m", "from m", QUANTITY_PLAIN, 3, get_beside_low},
    {"high_m", "to m", QUANTITY_PLAIN, 3, get_beside_high},
    {"mean_kg", "mean kg", QUANTITY_LOAD, 2, get_beside_mean},
    {"share", "share", QUANTITY_SHARE, 1, get_beside_share},
    {"worst_m", "most at m", QUANTITY_PLAIN, 3, get_beside_worst_m},
    {"worst_kg", "most kg", QUANTITY_LOAD, 2, get_beside_worst},
    {"worst_share", "share", QUANTITY_SHARE, 1, get_beside_worst_share},
    {"differs", "differs", QUANTITY_PLAIN, 0, get_beside_differs},
};
#undef GET

static void put_laws(struct table_writer *writer, const struct band_fitting *fitting)
{
    static const enum band_law order[LAW_COUNT] = {LAW_NEO_HOOKEAN, LAW_MOONEY_RIVLIN, LAW_MEASURED};
    for (size_t i = 0; i < LAW_COUNT; i++)
        table_row(writer, &(struct law_row){fitting, &fitting->laws[order[i]]});
}

void fit_law_table(const struct fit *fit, struct output *output, const struct band_fitting *fitting)
{
    struct table_style style = session_style(&fit->session, output);
    struct table_writer *writer = table_open(fit->session.arena, output, law_text_columns,
                                             sizeof law_text_columns / sizeof *law_text_columns, &style);
    put_laws(writer, fitting);
    table_close(writer);
}

static void put_law_rows(const struct fit *fit, struct output *output)
{
    struct table_style style = session_style(&fit->session, output);
    struct table_writer *writer = table_open(fit->session.arena, output, law_columns,
                                             sizeof law_columns / sizeof *law_columns, &style);
    for (size_t i = 0; i < fit->fittings.list.count; i++) {
        const struct band_fitting *fitting = &fit->fittings.list.items[i];
        put_laws(writer, fitting);
        if (fitting->down)
            put_laws(writer, fitting->down);
    }
    table_close(writer);
}

/* --- the command ------------------------------------------------------------------------------------------------- */

static struct measurement_options reading_options(const struct options *options)
{
    return (struct measurement_options){.flat_m = options->flat_m > 0 ? options->flat_m : NAN,
                                        .label = options->band,
                                        .pull_unit_kg = options->log_unit_said ? kg_from(1, options->log_unit) : NAN,
                                        .dates = options->dates};
}

/* A file that could not be used counts as unread only if no other file could be used. */
static struct measured_bands read_files(struct fit *fit, bool *some_read)
{
    struct session *session = &fit->session;
    const struct options *options = session->options;
    struct measurement_options how = reading_options(options);
    struct pull_readings readings = {0};
    for (size_t i = 0; i < options->argument_count; i++) {
        struct input *input = input_open(session->arena, options->arguments[i], session->diags);
        *some_read |= input && measurements_read(session->arena, input, &how, session->diags, &readings);
        input_close(input);
    }
    return measured_bands_make(session->arena, &readings, &how, session->diags);
}

/* A calibration of the gym file, in the form of one measured here. */
static struct measured_band gym_calibration(struct arena *arena, const struct gym *gym, const struct band *band,
                                            const struct calibration *calibration)
{
    struct measured_band measured = {.label = band->label,
                                     .day = calibration->measured,
                                     .flat_m = calibration->flat_m,
                                     .count = calibration->point_count,
                                     .readings = calibration->point_count};
    measured.at = (struct place){.file = gym->path, .line = calibration->at.line};
    measured.points = ARENA_ARRAY(arena, struct measured_point, calibration->point_count);
    for (size_t i = 0; i < calibration->point_count; i++)
        measured.points[i] = (struct measured_point){
            .length_m = calibration->points[i].length_m, .pull_kg = calibration->points[i].pull_kg, .readings = 1};
    return measured;
}

struct calibrations
{
    LIST(struct measured_band) list;
};

static bool is_measured_here(const struct fit *fit, const char *label, day_number day)
{
    for (size_t i = 0; i < fit->fittings.list.count; i++)
        if (fit->fittings.list.items[i].measured->day == day &&
            text_same_name(fit->fittings.list.items[i].measured->label, label))
            return true;
    return false;
}

/* Adds a band's older calibrations, once per label. One of a day that was measured here is that measurement, and
 * already there. */
static void add_older(const struct fit *fit, struct calibrations *older, const struct measured_band *newest)
{
    const struct gym *gym = fit->session.gym;
    const struct band *band = gym_band(gym, newest->label);
    for (size_t i = 0; i < older->list.count; i++)
        if (text_same_name(older->list.items[i].label, newest->label))
            return;
    for (size_t i = 0; band && i < band->calibration_count; i++)
        if (band->calibrations[i].point_count && band->calibrations[i].measured < newest->day &&
            !is_measured_here(fit, newest->label, band->calibrations[i].measured))
            *LIST_ADD(fit->session.arena, &older->list) = gym_calibration(fit->session.arena, gym, band,
                                                                          &band->calibrations[i]);
}

static void compare_with_gym(struct fit *fit)
{
    struct arena *arena = fit->session.arena;
    struct calibrations older = {0};
    for (size_t i = fit->fittings.list.count; i-- > 0;)
        if (band_is_newest(&fit->fittings, i))
            add_older(fit, &older, fit->fittings.list.items[i].measured);
    fit->gym_fittings = band_fittings_make(arena, older.list.items, older.list.count);
    for (size_t i = 0; i < fit->fittings.list.count; i++)
        for (size_t k = fit->gym_fittings.list.count; k-- > 0;) {
            const struct band_fitting *newest = &fit->fittings.list.items[i],
                                      *before = &fit->gym_fittings.list.items[k];
            if (band_is_newest(&fit->fittings, i) && text_same_name(newest->measured->label, before->measured->label))
                *LIST_ADD(arena, &fit->comparisons.list) = band_compare(NEWEST_BESIDE_OLDER, newest, before);
        }
}

static void put_result(struct fit *fit)
{
    struct session *session = &fit->session;
    const struct options *options = session->options;
    if (options->compare) {
        session_table(session, comparison_columns, sizeof comparison_columns / sizeof *comparison_columns,
                      fit->comparisons.list.items, fit->comparisons.list.count, sizeof *fit->comparisons.list.items);
        return;
    }
    struct output *output = session_output(session);
    if (!output)
        return;
    if (options->block) {
        output_text(output, "; " FIT_SAFETY "\n");
        fit_blocks(fit, output);
    } else if (options->format == FORMAT_TEXT) {
        fit_text(fit, output);
    } else {
        put_law_rows(fit, output);
    }
    session_commit(session, output);
}

enum exit_status run_fit(struct arena *arena, const struct options *options)
{
    struct fit fit = {0};
    bool some_read = false;
    if (!options->argument_count)
        return usage_error("fit", "fit needs a CSV of lengths and pulls");
    session_open_gym(&fit.session, arena, options);
    struct measured_bands bands = read_files(&fit, &some_read);
    fit.fittings = band_fittings_make(arena, bands.list.items, bands.list.count);
    fit.comparisons = band_comparisons_make(arena, &fit.fittings);
    compare_with_gym(&fit);
    put_result(&fit);
    if (options->plot)
        fit_plots(&fit, options->plot);
    enum exit_status status = session_close(&fit.session);
    return status == EXIT_UNREADABLE && some_read && !fit.session.unwritten ? EXIT_REFUSED : status;
}
