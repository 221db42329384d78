#include "model/effect.h"

#include "base/unit.h"
#include "model/curve.h"
#include "model/load_uncertainty.h"

#include <math.h>

struct unknowns /* what hangs and cannot be weighed */
{
    bool pulling, hanging; /* down; from above */
};

static struct unknowns find_unknowns(const struct loading *loading)
{
    struct unknowns unknowns = {0};
    for (size_t i = 0; i < loading->hung_count; i++) {
        const struct hung *hung = &loading->hung[i];
        if (hung->kind == HUNG_UNKNOWN)
            *(hung->reverse ? &unknowns.hanging : &unknowns.pulling) = true;
    }
    return unknowns;
}

static bool is_known_all_through(const struct loading *loading)
{
    struct unknowns unknowns = find_unknowns(loading);
    return !unknowns.pulling && !unknowns.hanging && !isnan(loading->straight_kg);
}

/* Nothing weighs less than nothing; NAN stays. */
static double clamped(double load_kg)
{
    return load_kg < 0 ? 0 : load_kg;
}

double loading_at(const struct loading *loading, double height_m)
{
    bool known = loading->heights_known && is_known_all_through(loading);
    return known ? clamped(curve_at(loading, height_m)) : NAN;
}

/* `curve`: of what hangs; NULL: nothing does. */
static double mean_kg(const struct loading *loading, const struct curve *curve)
{
    if (!is_known_all_through(loading))
        return NAN;
    if (!curve)
        return clamped(loading->straight_kg);
    return curve_integral(curve, loading) / (curve_high(loading) - curve_low(loading));
}

double loading_mean_kg(const struct loading *loading)
{
    struct arena *scratch = arena_new();
    double mean = mean_kg(loading, loading->hung_count ? curve_make(scratch, loading) : NULL);
    arena_free(scratch);
    return mean;
}

double loading_work_j(const struct loading *loading)
{
    if (!loading->heights_known)
        return NAN;
    return STANDARD_GRAVITY_MS2 * loading_mean_kg(loading) * (loading->top_m - loading->bottom_m);
}

/* --- lowered --- */

static bool is_known_lowered(const struct loading *loading, const struct hung *hung)
{
    if (hung->kind != HUNG_BAND)
        return hung->piece->kind != PIECE_BAND && hung->kind != HUNG_UNKNOWN;
    struct hung_band lowered = hung->band;
    lowered.curve = hung->lowering;
    return hung->lowering && !band_over_range(hung->lowering, band_at(&lowered, loading->bottom_m).stretch_m) &&
           !band_over_range(hung->lowering, band_at(&lowered, loading->top_m).stretch_m);
}

/* The same loading with each band on the curve that it follows while let go. NULL: there is none of some band, or it
 * was not measured as far as the lift stretches it; or no band hangs. */
static const struct loading *lowered_make(struct arena *arena, const struct loading *loading)
{
    bool any = false;
    for (size_t i = 0; i < loading->hung_count; i++) {
        if (!is_known_lowered(loading, &loading->hung[i]))
            return NULL;
        any |= loading->hung[i].kind == HUNG_BAND;
    }
    if (!any)
        return NULL;
    struct loading *lowered = ARENA_NEW(arena, struct loading);
    *lowered = *loading;
    lowered->hung = ARENA_ARRAY(arena, struct hung, loading->hung_count);
    for (size_t i = 0; i < loading->hung_count; i++) {
        lowered->hung[i] = loading->hung[i];
        if (loading->hung[i].kind == HUNG_BAND)
            lowered->hung[i].band.curve = loading->hung[i].lowering;
    }
    return lowered;
}

double loading_lost_j(const struct loading *loading)
{
    struct arena *scratch = arena_new();
    const struct loading *lowered = loading->heights_known ? lowered_make(scratch, loading) : NULL;
    double lost = lowered ? loading_work_j(loading) - loading_work_j(lowered) : NAN;
    arena_free(scratch);
    return lost;
}

/* --- uncertainty --- */

/* Releasers are off before the bar is lifted: a load with nothing but them is as sure as one without AR. */
static bool has_lifted_ar(const struct loading *loading)
{
    for (size_t i = 0; i < loading->hung_count; i++)
        if (loading->hung[i].kind != HUNG_RELEASER)
            return true;
    return false;
}

/* Of what hangs, as long as it leaves something on the bar. */
static double u_of_ar(const struct loading *loading, double height_m, const struct gym *gym)
{
    struct unknowns unknowns = find_unknowns(loading);
    bool measured = loading->heights_known && !loading->heights_estimated;
    return measured && !unknowns.pulling && !unknowns.hanging && has_lifted_ar(loading)
               ? ar_u_kg(loading, height_m, gym)
               : NAN;
}

static double u_of_load(const struct loading *loading, double load_kg, double u_of_ar_kg)
{
    if (!is_known_all_through(loading))
        return NAN;
    if (!has_lifted_ar(loading))
        return 0;
    return load_kg < 0 && !isnan(u_of_ar_kg) ? 0 : u_of_ar_kg; /* clamped: 0 whatever the inputs are */
}

double loading_u_kg(const struct loading *loading, double height_m, const struct gym *gym)
{
    return u_of_load(loading, curve_at(loading, height_m), u_of_ar(loading, height_m, gym));
}

/* --- effect --- */

static double releasers_kg(const struct loading *loading)
{
    double mass = 0;
    for (size_t i = 0; i < loading->hung_count; i++)
        if (loading->hung[i].kind == HUNG_RELEASER)
            mass += loading->hung[i].top_kg;
    return mass;
}

static double or_straight(double load_kg, double straight_kg)
{
    return isnan(load_kg) ? straight_kg : load_kg;
}

struct ar_effect
{
    const struct curve *curve;
    double bottom_u_kg, top_u_kg;
    const struct loading *lowered; /* and its curve; NULL: not known */
    const struct curve *lowered_curve;
};

const struct ar_effect *ar_effect_make(struct arena *arena, const struct loading *loading, const struct gym *gym)
{
    if (!loading->hung_count)
        return NULL;
    struct ar_effect *ar = ARENA_NEW(arena, struct ar_effect);
    ar->curve = curve_make(arena, loading);
    ar->bottom_u_kg = u_of_ar(loading, curve_low(loading), gym);
    ar->top_u_kg = u_of_ar(loading, curve_high(loading), gym);
    ar->lowered = lowered_make(arena, loading);
    ar->lowered_curve = ar->lowered ? curve_make(arena, ar->lowered) : NULL;
    return ar;
}

/* Releasers are on the bar until they drop off at the bottom. */
static void put_lowered(struct effect *effect, const struct loading *loading, const struct ar_effect *ar)
{
    if (!ar || !ar->lowered)
        return;
    struct loading lowered = *ar->lowered;
    lowered.straight_kg = loading->straight_kg;
    double releasers = releasers_kg(loading);
    effect->lowering_bottom_kg = clamped(curve_at_bend(ar->lowered_curve, &lowered, 0));
    effect->lowering_mean_kg = mean_kg(&lowered, ar->lowered_curve) + releasers;
    effect->lowering_top_kg = clamped(curve_at_bend(ar->lowered_curve, &lowered, ar->lowered_curve->bends - 1) +
                                      releasers);
}

/* Gear that is not known leaves the straight weight where it is slack, the bottom (a reverse band: the top), and
 * nothing elsewhere. */
struct effect loading_effect_with(const struct loading *loading, const struct ar_effect *ar)
{
    struct unknowns unknowns = find_unknowns(loading);
    double low = ar ? curve_at_bend(ar->curve, loading, 0) : loading->straight_kg;
    double high = ar ? curve_at_bend(ar->curve, loading, ar->curve->bends - 1) : loading->straight_kg;
    double bottom = unknowns.hanging ? NAN : low, top = unknowns.pulling ? NAN : high;
    struct effect effect = {
        .straight_kg = clamped(loading->straight_kg),
        .bottom_kg = clamped(bottom),
        .top_kg = clamped(top),
        .mean_kg = mean_kg(loading, ar ? ar->curve : NULL),
        .lowering_top_kg = unknowns.hanging ? NAN : clamped(top + releasers_kg(loading)),
        .lowering_bottom_kg = NAN,
        .lowering_mean_kg = NAN,
        .bottom_u_kg = u_of_load(loading, low, ar ? ar->bottom_u_kg : 0),
        .top_u_kg = u_of_load(loading, high, ar ? ar->top_u_kg : 0),
        .assumed = loading->assumed,
    };
    if (bottom < 0 || top < 0 || loading->straight_kg < 0)
        effect.assumed |= ASSUMED_UNLOADED;
    put_lowered(&effect, loading, ar);
    effect.counted_bottom_kg = or_straight(effect.bottom_kg, effect.straight_kg);
    effect.counted_top_kg = or_straight(effect.top_kg, effect.straight_kg);
    effect.counted_mean_kg = or_straight(effect.mean_kg, effect.straight_kg);
    return effect;
}

struct effect loading_effect(const struct loading *loading, const struct gym *gym)
{
    struct arena *scratch = arena_new();
    struct effect effect = loading_effect_with(loading, ar_effect_make(scratch, loading, gym));
    arena_free(scratch);
    return effect;
}
