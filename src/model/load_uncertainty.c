#include "model/load_uncertainty.h"

#include "model/curve.h"
#include "model/numeric.h"
#include "model/uncertainty.h"

#include <math.h>

#define NEAR_U 3.0 /* standard errors of the height: a kink that is farther away does nothing that shows */
#define TAIL_U 8.0 /* beyond them the normal distribution holds nothing that counts */

/* --- first order --- */

/* ∂L/∂h of a piece. A ramp is pinned to the ends of the lift, wherever they are. */
static double height_sensitivity(const struct hung *hung, double height_m)
{
    if (hung->kind == HUNG_CHAIN)
        return hung->times * chain_slope_kg_per_m(&hung->chain, height_m);
    return hung->kind == HUNG_BAND ? hung->times * band_load_slope_kg_per_m(&hung->band, height_m) : 0;
}

static double relative_u(const struct hung *hung, const struct gym *gym)
{
    if (hung->piece->kind == PIECE_BAND)
        return gym->u_tension;
    return hung->gym_chain && hung->gym_chain->mass_estimated ? gym->u_mass_sized : gym->u_mass;
}

/* Input 2 i is the height as it enters by piece i, 2 i + 1 the piece's own mass or pull. The height is one; so is the
 * gear of a label. */
static double loading_correlation(const void *context, size_t i, size_t j)
{
    const struct loading *loading = context;
    const struct hung *a = &loading->hung[i / 2], *b = &loading->hung[j / 2];
    if (i % 2 != j % 2)
        return 0;
    if (i % 2 == 0)
        return 1;
    return (a->gym_chain && a->gym_chain == b->gym_chain) || (a->gym_band && a->gym_band == b->gym_band) ? 1 : 0;
}

static double first_order(double *parts, const struct loading *loading, double height_m, const struct gym *gym)
{
    for (size_t i = 0; i < loading->hung_count; i++) {
        const struct hung *hung = &loading->hung[i];
        parts[2 * i] = height_sensitivity(hung, height_m) * gym->u_height_m;
        parts[2 * i + 1] = hung_load_kg(loading, hung, height_m) * relative_u(hung, gym);
    }
    return u_combined(parts, 2 * loading->hung_count, loading_correlation, loading);
}

/* --- by distribution --- */

struct spread /* the load over the normal error of the height */
{
    const struct loading *loading;
    const struct gym *gym;
    double height_m; /* as measured */
    double *parts;
    double centre_kg;         /* taken off the load, so that its square keeps its digits */
    double sum_kg, gear_u_kg; /* at the height looked at */
};

/* A ramp keeps its ends, wherever they are. */
static void look_at(struct spread *spread, double height_m)
{
    const struct loading *loading = spread->loading;
    spread->sum_kg = -spread->centre_kg;
    for (size_t i = 0; i < loading->hung_count; i++) {
        const struct hung *hung = &loading->hung[i];
        bool moves = hung->kind == HUNG_CHAIN || hung->kind == HUNG_BAND;
        double load_kg = hung_load_kg(loading, hung, moves ? height_m : spread->height_m);
        spread->sum_kg += load_kg;
        spread->parts[2 * i] = 0;
        spread->parts[2 * i + 1] = load_kg * relative_u(hung, spread->gym);
    }
    spread->gear_u_kg = u_combined(spread->parts, 2 * loading->hung_count, loading_correlation, loading);
}

static double density(const struct spread *spread, double height_m)
{
    double z = (height_m - spread->height_m) / spread->gym->u_height_m;
    return exp(-z * z / 2) / (sqrt(2 * M_PI) * spread->gym->u_height_m);
}

static double mean_at(double height_m, void *context)
{
    struct spread *spread = context;
    look_at(spread, height_m);
    return spread->sum_kg * density(spread, height_m);
}

static double square_at(double height_m, void *context)
{
    struct spread *spread = context;
    look_at(spread, height_m);
    return (spread->sum_kg * spread->sum_kg + spread->gear_u_kg * spread->gear_u_kg) * density(spread, height_m);
}

static double by_distribution(struct spread *spread, const double *kinks, size_t count)
{
    double u_m = spread->gym->u_height_m, low = spread->height_m - TAIL_U * u_m, end = spread->height_m + TAIL_U * u_m;
    double mean = 0, square = 0;
    for (size_t i = 0; i <= count; i++) {
        double high = i < count ? kinks[i] : end;
        mean += numeric_integral(mean_at, spread, low, high);
        square += numeric_integral(square_at, spread, low, high);
        low = high;
    }
    return sqrt(fmax(square - mean * mean, 0));
}

double ar_u_kg(const struct loading *loading, double height_m, const struct gym *gym)
{
    struct arena *scratch = arena_new();
    double *parts = ARENA_ARRAY(scratch, double, 2 * loading->hung_count);
    double u = first_order(parts, loading, height_m, gym), near_m = NEAR_U * gym->u_height_m;
    size_t near_count, count;
    curve_kinks(scratch, loading, height_m - near_m, height_m + near_m, &near_count);
    if (near_count && gym->u_height_m > 0) {
        struct spread spread = {.loading = loading, .gym = gym, .height_m = height_m, .parts = parts};
        look_at(&spread, height_m);
        spread.centre_kg = spread.sum_kg;
        const double *kinks = curve_kinks(scratch, loading, height_m - TAIL_U * gym->u_height_m,
                                          height_m + TAIL_U * gym->u_height_m, &count);
        u = by_distribution(&spread, kinks, count);
    }
    arena_free(scratch);
    return u;
}
