#include "commands/fit/fit_text.h"

#include "commands/fit/fit.h"

#include "base/number.h"
#include "base/text.h"
#include "commands/fit/fit_block.h"
#include "commands/session/summary.h"

#include <math.h>

const char *band_law_title(enum band_law law)
{
    static const char *const titles[LAW_COUNT] = {
        [LAW_MEASURED] = "measured curve", [LAW_NEO_HOOKEAN] = "neo-Hookean", [LAW_MOONEY_RIVLIN] = "Mooney-Rivlin"};
    return titles[law];
}

const char *band_side_name(enum band_side side)
{
    static const char *const names[] = {[SIDE_UNSAID] = "", [SIDE_LEFT] = "left", [SIDE_RIGHT] = "right"};
    return names[side];
}

const char *band_way_name(enum band_way way)
{
    static const char *const names[] = {[WAY_UNSAID] = "", [WAY_UP] = "up", [WAY_DOWN] = "down"};
    return names[way];
}

static const char *fixed(struct arena *arena, double value, int decimals)
{
    char text[64];
    number_fixed(text, sizeof text, value, decimals);
    return arena_copy(arena, text);
}

static const char *load(const struct fit *fit, double kg, int decimals)
{
    struct arena *arena = fit->session.arena;
    return arena_printf(arena, "%s %s", fixed(arena, kg_to(kg, fit->session.unit), decimals),
                        mass_unit_name(fit->session.unit));
}

static const char *percent(struct arena *arena, double share)
{
    return arena_printf(arena, "%s %%", fixed(arena, fabs(share) * 100, 1));
}

static const char *day_words(struct arena *arena, day_number day)
{
    char text[16];
    if (day == NO_DAY)
        return "undated";
    date_print(text, day);
    return arena_copy(arena, text);
}

/* "b26, left, 2026-01-03" */
static const char *band_title(struct arena *arena, const struct measured_band *band)
{
    const char *side = band_side_name(band->side);
    return arena_printf(arena, "%s%s%s, %s%s", text_visible(arena, band->label), *side ? ", " : "", side,
                        day_words(arena, band->day), band->way == WAY_DOWN ? ", let go" : "");
}

/* "1.04 m" or "40.9 in" */
static const char *size(const struct fit *fit, double metres, int decimals)
{
    struct arena *arena = fit->session.arena;
    bool inches = fit->session.unit == UNIT_LB;
    return arena_printf(arena, "%s %s", fixed(arena, inches ? metres / M_PER_IN : metres, inches ? 1 : decimals),
                        inches ? "in" : "m");
}

/* --- a band ------------------------------------------------------------------------------------------------------ */

static const struct measured_point *widest_point(const struct measured_band *band)
{
    const struct measured_point *widest = &band->points[0];
    for (size_t i = 1; i < band->count; i++)
        if (band->points[i].spread_kg > widest->spread_kg)
            widest = &band->points[i];
    return widest;
}

static const char *spread_sentence(const struct fit *fit, const struct measured_band *band)
{
    struct arena *arena = fit->session.arena;
    const struct measured_point *widest = widest_point(band);
    if (band->readings == band->count)
        return "";
    return arena_printf(arena, "\nRepeated readings are averaged; they differ by %s at most (%s, at %s).",
                        load(fit, widest->spread_kg, 2), percent(arena, widest->spread_kg / widest->pull_kg),
                        size(fit, widest->length_m, 2));
}

static void put_measured(const struct fit *fit, struct output *output, const struct measured_band *band)
{
    struct arena *arena = fit->session.arena;
    output_printf(output, "%s\n%s flat; %zu %s, ", band_title(arena, band), size(fit, band->flat_m, 3), band->readings,
                  plural(band->readings, "reading", "readings"));
    if (band->count == 1)
        output_printf(output, "all at %s.", size(fit, band->points[0].length_m, 2));
    else
        output_printf(output, "%zu lengths from %s to %s (%s to %s times flat).", band->count,
                      size(fit, band->points[0].length_m, 2), size(fit, band->points[band->count - 1].length_m, 2),
                      fixed(arena, band->points[0].length_m / band->flat_m, 2),
                      fixed(arena, band->points[band->count - 1].length_m / band->flat_m, 2));
    output_printf(output, "%s\n\n", spread_sentence(fit, band));
}

static const char *why_nearer(const struct fit *fit, const struct band_fitting *fitting)
{
    const struct law_fit *curve = &fitting->laws[LAW_MEASURED], *law = &fitting->laws[fitting->best_law];
    bool by_law = fitting->reason == REASON_LAW_NEARER;
    const struct law_fit *used = by_law ? law : curve, *other = by_law ? curve : law;
    if (!other->fitted)
        return arena_printf(fit->session.arena,
                            "No law fits with a pull that rises all the way. Tested on lengths that it had not seen, "
                            "the curve is wrong by %s.",
                            load(fit, used->left_out_kg, 2));
    return arena_printf(fit->session.arena,
                        "Tested on a length that it had not seen, it is wrong by %s (root mean square), %s%s by %s%s.",
                        load(fit, used->left_out_kg, 2), by_law ? "the " : "", band_law_title(other->law),
                        load(fit, other->left_out_kg, 2),
                        fitting->best_law == LAW_NEO_HOOKEAN && fitting->laws[LAW_MOONEY_RIVLIN].fitted
                            ? " (the second constant of Mooney-Rivlin cannot be distinguished from 0)"
                            : "");
}

static const char *why(const struct fit *fit, const struct band_fitting *fitting)
{
    switch (fitting->reason) {
    case REASON_ONE_POINT:
        return "One length determines one constant and leaves nothing to check it with; measure five lengths or more.";
    case REASON_TWO_POINTS:
        return "With two lengths no law can be checked; measure five or more.";
    case REASON_LAW_MISSES:
        return arena_printf(
            fit->session.arena,
            "Even %s misses the points that it was fitted to, by %s: more than %g %% of their mean pull.",
            band_law_title(fitting->best_law), load(fit, fitting->laws[fitting->best_law].residual_kg, 2),
            LAW_MISSES * 100);
    default:
        return why_nearer(fit, fitting);
    }
}

static void put_laws(const struct fit *fit, struct output *output, const struct band_fitting *fitting)
{
    put_measured(fit, output, fitting->measured);
    fit_law_table(fit, output, fitting);
    if (fitting->measured->count > 1 && !fitting->laws[LAW_MOONEY_RIVLIN].fitted)
        output_text(output, "\nMooney-Rivlin through these points would not rise all the way: it is left out.\n");
}

/* The other way, of which the gym file keeps the points. */
static void put_down(const struct fit *fit, struct output *output, const struct band_fitting *fitting)
{
    struct arena *arena = fit->session.arena;
    struct band_loss loss = band_loss_of(fitting);
    put_laws(fit, output, fitting->down);
    output_printf(output, "\nStretched to %s it takes %s J, and let go it gives back %s J: %s J (%s) are lost.\n\n",
                  size(fit, loss.length_m, 2), fixed(arena, loss.taken_j, 1),
                  fixed(arena, loss.taken_j - loss.lost_j, 1), fixed(arena, loss.lost_j, 1),
                  percent(arena, loss.lost_j / loss.taken_j));
}

static void put_band(const struct fit *fit, struct output *output, const struct band_fitting *fitting)
{
    put_laws(fit, output, fitting);
    output_printf(output, "\nUse the %s%s:\n%s\nGood from flat to %s; beyond that it is a guess.\n\n",
                  band_law_title(fitting->use), fitting->use == LAW_MEASURED ? "" : " law", why(fit, fitting),
                  size(fit, fitting->calibration.range_high_m, 2));
    if (fitting->down)
        put_down(fit, output, fitting);
}

/* --- side by side ------------------------------------------------------------------------------------------------ */

static bool is_gyms(const struct fit *fit, const struct band_fitting *fitting)
{
    const struct band_fitting *first = fit->gym_fittings.list.items;
    for (size_t i = 0; i < fit->gym_fittings.list.count; i++)
        if (fitting == &first[i])
            return true;
    return false;
}

static const char *pair_words(struct arena *arena, const struct band_comparison *comparison)
{
    const struct measured_band *left = comparison->a->measured, *right = comparison->b->measured;
    if (left->day == right->day)
        return arena_printf(arena, "%s, left against right, %s", text_visible(arena, left->label),
                            day_words(arena, left->day));
    return arena_printf(arena, "%s, left (%s) against right (%s)", text_visible(arena, left->label),
                        day_words(arena, left->day), day_words(arena, right->day));
}

static const char *age_words(const struct fit *fit, const struct band_comparison *comparison)
{
    struct arena *arena = fit->session.arena;
    const struct measured_band *newest = comparison->a->measured, *older = comparison->b->measured;
    const char *side = band_side_name(newest->side);
    return arena_printf(arena, "%s%s%s, %s against %s%s", text_visible(arena, newest->label), *side ? ", " : "", side,
                        day_words(arena, newest->day), day_words(arena, older->day),
                        is_gyms(fit, comparison->b) ? " (gym file)" : "");
}

static const char *verdict(const struct band_comparison *comparison)
{
    if (comparison->kind == LEFT_BESIDE_RIGHT)
        return comparison->differs ? "More than 5 %: they are not a matched pair." : "Within 5 %: a matched pair.";
    if (!comparison->differs)
        return "Within 5 %: the older calibration still holds.";
    return comparison->share < 0
               ? "More than 5 %: the band has aged, so sets before and after were loaded differently."
               : "More than 5 %: a band does not grow stronger, so one of the two measurements is wrong.";
}

static void put_comparison(const struct fit *fit, struct output *output, const struct band_comparison *comparison)
{
    struct arena *arena = fit->session.arena;
    bool pair = comparison->kind == LEFT_BESIDE_RIGHT;
    output_printf(output, "%s: ", pair ? pair_words(arena, comparison) : age_words(fit, comparison));
    if (isnan(comparison->share)) {
        output_text(output, "they have no range of lengths in common, so nothing can be compared.\n\n");
        return;
    }
    output_printf(
        output, "%s pulls %s %s at equal length,\nfrom %s to %s: %s on average, %s (%s) at most, at %s.\n%s\n\n",
        pair ? "the left one" : "it", percent(arena, comparison->share), comparison->mean_kg < 0 ? "less" : "more",
        size(fit, comparison->low_m, 2), size(fit, comparison->high_m, 2), load(fit, fabs(comparison->mean_kg), 2),
        load(fit, fabs(comparison->worst_kg), 2), percent(arena, comparison->worst_share),
        size(fit, comparison->worst_m, 2), verdict(comparison));
}

void fit_text(const struct fit *fit, struct output *output)
{
    for (size_t i = 0; i < fit->fittings.list.count; i++)
        put_band(fit, output, &fit->fittings.list.items[i]);
    if (!fit->fittings.list.count) {
        output_text(output, "No band could be fitted.\n");
        return;
    }
    output_text(output,
                "Laws, by stretch s = length / flat:\n"
                "neo-Hookean T = c1 (s - 1/s^2), Mooney-Rivlin T = (s - 1/s^2) (c1 + c2/s).\n"
                "u: standard error. residual: standard deviation from the fit. left out: error at lengths\n"
                "that the fit had not seen, except the longest. R² compares with the mean pull. The measured curve\n"
                "goes through every point.\n\n");
    for (size_t i = 0; i < fit->comparisons.list.count; i++)
        put_comparison(fit, output, &fit->comparisons.list.items[i]);
    output_text(output, "Safety: " FIT_SAFETY "\n\nFor the gym file:\n\n");
    fit_blocks(fit, output);
}
