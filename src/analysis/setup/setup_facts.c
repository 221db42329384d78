#include "analysis/setup/setup_facts.h"

#include <gsl/gsl_sort.h>

#include <math.h>

#define ROUNDING_M 1e-9

struct chain_facts chain_facts_of(const struct loading *loading, const struct hung *hung)
{
    return (struct chain_facts){
        .clearance_m = chain_clearance_m(&hung->chain, loading->top_m),
        .resting_share = chain_resting_share(&hung->chain, loading->bottom_m, loading->top_m),
    };
}

/* --- bands -------------------------------------------------------------------------------------------------------- */

/* The bar's distance above and below the anchor within which the band is slack; NAN: it is never slack, however
 * near. */
static double slack_reach_m(const struct hung_band *band)
{
    return band_rise_m(band, band_flat_m(band->curve));
}

struct band_facts band_facts_of(const struct loading *loading, const struct hung *hung)
{
    const struct hung_band *band = &hung->band;
    double flat = band_flat_m(band->curve);
    struct band_facts facts = {
        .bottom_stretch_m = band_at(band, loading->bottom_m).stretch_m,
        .top_stretch_m = band_at(band, loading->top_m).stretch_m,
        .end_m = band_end_m(band->curve),
        .slack_from_m = NAN,
        .slack_to_m = NAN,
    };
    double longest = fmax(facts.bottom_stretch_m, facts.top_stretch_m); /* distance to a point is largest at an end */
    facts.left_m = facts.end_m - longest;
    facts.over_range = band_over_range(band->curve, longest);
    facts.slack_at_bottom = facts.bottom_stretch_m <= flat + ROUNDING_M;
    facts.slack_at_top = facts.top_stretch_m <= flat + ROUNDING_M;
    double reach = slack_reach_m(band);
    double from = fmax(band->anchor_height_m - reach, loading->bottom_m),
           to = fmin(band->anchor_height_m + reach, loading->top_m);
    if (!isnan(reach) && from < to - ROUNDING_M) {
        facts.slack_from_m = from;
        facts.slack_to_m = to;
    }
    return facts;
}

/* --- curve -------------------------------------------------------------------------------------------------------- */

#define EVEN_STEPS 100

struct heights
{
    struct arena *arena;
    const struct loading *loading;
    LIST(double) list;
};

static void add_height(struct heights *heights, double height_m)
{
    if (height_m > heights->loading->bottom_m && height_m < heights->loading->top_m)
        *LIST_ADD(heights->arena, &heights->list) = height_m;
}

static void add_kinks(struct heights *heights, const struct hung *hung)
{
    if (hung->kind == HUNG_CHAIN) {
        add_height(heights, hung->chain.leader_m);
        if (hung->chain.pinned)
            return;
        add_height(heights, hung->chain.leader_m + chain_shortest_strand_m(&hung->chain));
        add_height(heights, hung->chain.leader_m + chain_longest_strand_m(&hung->chain));
    } else if (hung->kind == HUNG_BAND) {
        double reach = slack_reach_m(&hung->band);
        add_height(heights, hung->band.anchor_height_m - reach);
        add_height(heights, hung->band.anchor_height_m + reach);
    }
}

const double *setup_heights(struct arena *arena, const struct loading *loading, size_t *count)
{
    struct heights heights = {.arena = arena, .loading = loading};
    double way = loading->top_m - loading->bottom_m;
    *LIST_ADD(arena, &heights.list) = loading->bottom_m;
    for (int i = 1; i < EVEN_STEPS; i++)
        add_height(&heights, loading->bottom_m + way * i / EVEN_STEPS);
    for (size_t i = 0; i < loading->hung_count; i++)
        add_kinks(&heights, &loading->hung[i]);
    *LIST_ADD(arena, &heights.list) = loading->top_m;
    gsl_sort(heights.list.items, 1, heights.list.count);
    *count = 0;
    for (size_t i = 0; i < heights.list.count; i++) /* each height once */
        if (!*count || heights.list.items[i] > heights.list.items[*count - 1])
            heights.list.items[(*count)++] = heights.list.items[i];
    return heights.list.items;
}

/* --- fore-aft ----------------------------------------------------------------------------------------------------- */

/* The limit of the ratio at the height at which bands come taut, while nothing else pulls: both pulls vanish there,
 * and their ratio F (a/d) over F (h - z)/d tends to a / (h - z). 0: no band comes taut there. */
static double lean_where_taut(const struct loading *loading, double height_m)
{
    double most = 0;
    for (size_t i = 0; i < loading->hung_count; i++) {
        const struct hung *hung = &loading->hung[i];
        if (hung->kind != HUNG_BAND)
            continue;
        double reach_m = slack_reach_m(&hung->band);
        double rise_m = fabs(height_m - hung->band.anchor_height_m);
        if (reach_m > 0 && fabs(rise_m - reach_m) <= ROUNDING_M)
            most = fmax(most, band_lean(&hung->band, rise_m));
    }
    return most;
}

struct fore_aft fore_aft_worst(const struct loading *loading)
{
    struct fore_aft worst = {.pull_at_m = loading->bottom_m, .ratio_at_m = loading->bottom_m};
    struct arena *scratch = arena_new();
    size_t count;
    const double *heights = setup_heights(scratch, loading, &count);
    for (size_t i = 0; i < count; i++) {
        double aside = 0, vertical = 0;
        for (size_t j = 0; j < loading->hung_count; j++) {
            const struct hung *hung = &loading->hung[j];
            if (hung->kind != HUNG_BAND)
                continue;
            struct band_pull pull = band_at(&hung->band, heights[i]);
            aside += hung->times * pull.fore_aft_kg;
            vertical += hung->times * pull.vertical_kg;
        }
        double ratio = fabs(aside) > 0      ? fabs(aside / vertical)
                       : fabs(vertical) > 0 ? 0
                                            : lean_where_taut(loading, heights[i]);
        if (fabs(aside) > worst.pull_kg) {
            worst.pull_kg = fabs(aside);
            worst.pull_at_m = heights[i];
        }
        if (ratio > worst.ratio) {
            worst.ratio = ratio;
            worst.ratio_at_m = heights[i];
        }
    }
    arena_free(scratch);
    return worst;
}
