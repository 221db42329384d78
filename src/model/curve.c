#include "model/curve.h"

#include "model/numeric.h"

#include <gsl/gsl_sort.h>

#include <math.h>

double curve_low(const struct loading *loading)
{
    return loading->heights_known ? loading->bottom_m : 0;
}

double curve_high(const struct loading *loading)
{
    return loading->heights_known ? loading->top_m : 1;
}

static double ramp_at(const struct loading *loading, const struct hung *hung, double height_m)
{
    double low = curve_low(loading), share = (height_m - low) / (curve_high(loading) - low);
    return hung->bottom_kg + (hung->top_kg - hung->bottom_kg) * fmin(fmax(share, 0), 1);
}

double hung_load_kg(const struct loading *loading, const struct hung *hung, double height_m)
{
    switch (hung->kind) {
    case HUNG_CHAIN:
        return hung->times * chain_load_kg(&hung->chain, height_m);
    case HUNG_BAND:
        return hung->times * band_load_kg(&hung->band, height_m);
    case HUNG_RAMP:
        return ramp_at(loading, hung, height_m);
    case HUNG_RELEASER:
        return 0;
    case HUNG_UNKNOWN:
        break;
    }
    return NAN;
}

double curve_at(const struct loading *loading, double height_m)
{
    double load = loading->straight_kg;
    for (size_t i = 0; i < loading->hung_count; i++)
        if (loading->hung[i].kind != HUNG_UNKNOWN)
            load += hung_load_kg(loading, &loading->hung[i], height_m);
    return load;
}

/* --- where the curve bends --- */

struct bends
{
    struct arena *arena;
    double low, high;
    LIST(double) at;
};

static void add_bend(struct bends *bends, double height_m)
{
    if (height_m > bends->low && height_m < bends->high)
        *LIST_ADD(bends->arena, &bends->at) = height_m;
}

/* A pinned strand hangs straight down while it is slack on the floor. */
static void pinned_bends(struct bends *bends, const struct hung_chain *chain)
{
    double slack_m = chain->leader_m - chain->pin_m - chain->pin_aside_m;
    add_bend(bends, chain->leader_m);
    if (slack_m + chain_shortest_strand_m(chain) > chain->leader_m)
        add_bend(bends, slack_m + chain_shortest_strand_m(chain));
    if (slack_m + chain_longest_strand_m(chain) > chain->leader_m &&
        chain_longest_strand_m(chain) > chain_shortest_strand_m(chain))
        add_bend(bends, slack_m + chain_longest_strand_m(chain));
}

static void chain_bends(struct bends *bends, const struct hung_chain *chain)
{
    if (chain->pinned) {
        pinned_bends(bends, chain);
        return;
    }
    add_bend(bends, chain->leader_m);
    add_bend(bends, chain->leader_m + chain_shortest_strand_m(chain));
    if (chain_longest_strand_m(chain) > chain_shortest_strand_m(chain))
        add_bend(bends, chain->leader_m + chain_longest_strand_m(chain));
}

/* Above and below its anchor, where the band is that long. A NAN is no bend. */
static void band_bends_at(struct bends *bends, const struct hung_band *band, double length_m)
{
    double rise = band_rise_m(band, length_m);
    add_bend(bends, band->anchor_height_m - rise);
    add_bend(bends, band->anchor_height_m + rise);
}

/* The heights at which the band is as long as one of its curve's knots, above and below its anchor. */
static void band_bends(struct bends *bends, const struct hung_band *band)
{
    add_bend(bends, band->anchor_height_m);
    double overlap = fabs(band->pegs.bar_radius_m - band->pegs.peg_radius_m); /* beside its pegs the bar touches it */
    if (band->pegs.apart_m > 0 && overlap > 0) {
        add_bend(bends, band->anchor_height_m - overlap);
        add_bend(bends, band->anchor_height_m + overlap);
    }
    for (size_t i = 0; i < band_knot_count(band->curve); i++)
        band_bends_at(bends, band, band_knot_m(band->curve, i));
}

static void find_bends(const struct loading *loading, struct bends *bends)
{
    *LIST_ADD(bends->arena, &bends->at) = bends->low;
    for (size_t i = 0; i < loading->hung_count; i++) {
        const struct hung *hung = &loading->hung[i];
        if (hung->kind == HUNG_CHAIN)
            chain_bends(bends, &hung->chain);
        else if (hung->kind == HUNG_BAND)
            band_bends(bends, &hung->band);
    }
    *LIST_ADD(bends->arena, &bends->at) = bends->high;
    gsl_sort(bends->at.items, 1, bends->at.count);
}

const double *curve_kinks(struct arena *arena, const struct loading *loading, double low_m, double high_m,
                          size_t *count)
{
    struct bends bends = {.arena = arena, .low = low_m, .high = high_m};
    for (size_t i = 0; i < loading->hung_count; i++) {
        const struct hung *hung = &loading->hung[i];
        if (hung->kind == HUNG_CHAIN)
            chain_bends(&bends, &hung->chain);
        else if (hung->kind == HUNG_BAND)
            band_bends_at(&bends, &hung->band, band_flat_m(hung->band.curve)); /* it comes taut */
    }
    if (bends.at.count)
        gsl_sort(bends.at.items, 1, bends.at.count);
    *count = bends.at.count;
    return bends.at.items;
}

/* --- integral --- */

static double load_at(double height_m, void *loading)
{
    return curve_at(loading, height_m);
}

static double bands_at(double height_m, void *context)
{
    const struct loading *loading = context;
    double load = 0;
    for (size_t i = 0; i < loading->hung_count; i++)
        if (loading->hung[i].kind == HUNG_BAND)
            load += hung_load_kg(loading, &loading->hung[i], height_m);
    return load;
}

static double closed_integral(const struct loading *loading, const struct hung *hung, double low, double high)
{
    if (hung->kind == HUNG_CHAIN)
        return hung->times * chain_integral_kg_m(&hung->chain, low, high);
    return hung->kind == HUNG_RAMP ? (ramp_at(loading, hung, low) + ramp_at(loading, hung, high)) / 2 * (high - low)
                                   : 0;
}

static double bands_integral(const struct loading *loading, double low, double high)
{
    for (size_t i = 0; i < loading->hung_count; i++)
        if (loading->hung[i].kind == HUNG_BAND)
            return numeric_integral(bands_at, (void *)loading, low, high);
    return 0;
}

/* Between two bends: closed forms, and quadrature for the bands. */
static double smooth_integral(const struct loading *loading, double low, double high)
{
    double integral = loading->straight_kg * (high - low);
    for (size_t i = 0; i < loading->hung_count; i++)
        integral += closed_integral(loading, &loading->hung[i], low, high);
    return integral + bands_integral(loading, low, high);
}

/* --- between the ends --- */

static void measure_bend(struct curve *curve, const struct loading *loading, size_t bend)
{
    for (size_t i = 0; i < loading->hung_count; i++)
        if (loading->hung[i].kind != HUNG_UNKNOWN)
            curve->added_kg[bend * loading->hung_count + i] = hung_load_kg(loading, &loading->hung[i],
                                                                           curve->bend_m[bend]);
}

static void measure_part(struct curve *curve, const struct loading *loading, size_t part)
{
    double low = curve->bend_m[part], high = curve->bend_m[part + 1];
    for (size_t i = 0; i < loading->hung_count; i++)
        curve->closed_kg_m[part * loading->hung_count + i] = closed_integral(loading, &loading->hung[i], low, high);
    curve->bands_kg_m[part] = bands_integral(loading, low, high);
}

const struct curve *curve_make(struct arena *arena, const struct loading *loading)
{
    struct bends bends = {.arena = arena, .low = curve_low(loading), .high = curve_high(loading)};
    struct curve *curve = ARENA_NEW(arena, struct curve);
    find_bends(loading, &bends);
    curve->bends = bends.at.count;
    curve->bend_m = bends.at.items;
    curve->added_kg = ARENA_ARRAY(arena, double, curve->bends * loading->hung_count);
    curve->closed_kg_m = ARENA_ARRAY(arena, double, curve->bends * loading->hung_count);
    curve->bands_kg_m = ARENA_ARRAY(arena, double, curve->bends);
    for (size_t bend = 0; bend < curve->bends; bend++)
        measure_bend(curve, loading, bend);
    for (size_t part = 0; part + 1 < curve->bends; part++)
        measure_part(curve, loading, part);
    return curve;
}

/* Sums are taken in the order of curve_at() and smooth_integral(), so that it does not matter for a load's last digit
 * whether others of its kind were asked for. */
double curve_at_bend(const struct curve *curve, const struct loading *loading, size_t bend)
{
    double load = loading->straight_kg;
    for (size_t i = 0; i < loading->hung_count; i++)
        load += curve->added_kg[bend * loading->hung_count + i];
    return load;
}

static double part_integral(const struct curve *curve, const struct loading *loading, size_t part)
{
    double integral = loading->straight_kg * (curve->bend_m[part + 1] - curve->bend_m[part]);
    for (size_t i = 0; i < loading->hung_count; i++)
        integral += curve->closed_kg_m[part * loading->hung_count + i];
    return integral + curve->bands_kg_m[part];
}

/* Only the stretch where the load is above 0 counts. */
static double clamped_integral(const struct curve *curve, const struct loading *loading, size_t part)
{
    double low = curve->bend_m[part], high = curve->bend_m[part + 1];
    double at_low = curve_at_bend(curve, loading, part), at_high = curve_at_bend(curve, loading, part + 1);
    if (at_low <= 0 && at_high <= 0)
        return 0;
    if (!(at_low < 0) && !(at_high < 0))
        return part_integral(curve, loading, part);
    if (at_low < 0)
        low = numeric_root(load_at, (void *)loading, low, high);
    else
        high = numeric_root(load_at, (void *)loading, low, high);
    return smooth_integral(loading, low, high);
}

double curve_integral(const struct curve *curve, const struct loading *loading)
{
    double integral = 0;
    for (size_t part = 0; part + 1 < curve->bends; part++)
        integral += clamped_integral(curve, loading, part);
    return integral;
}
