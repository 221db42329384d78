/* What a load weighs along the lift: the place where gear, rig, lifter and heights come together. Pure; loads in kg,
 * heights in m.
 *
 * A `loading` is a load expression resolved for one lifter, lift and day: its pieces found in the gym file, the heights
 * known or not, and what had to be assumed. Curve, ends, mean and uncertainty are then one loop over the pieces. */
#ifndef TAUTLINE_MODEL_EFFECT_H
#define TAUTLINE_MODEL_EFFECT_H

#include "base/arena.h"
#include "model/band.h"
#include "model/chain.h"
#include "model/gear.h"
#include "model/load.h"

#include <stdbool.h>

enum hindrance /* why a piece cannot hang as the log and the gym file say: then its load is not known */
{
    HINDRANCE_NONE,
    HINDRANCE_CHOKED_ON_PEGS, /* a hitch needs one anchor, and there are two pegs */
    HINDRANCE_OUT_OF_REACH    /* the chain is too short from its pin to the bar, at the bottom or at the top */
};

enum hung_kind
{
    HUNG_CHAIN,    /* geometry known */
    HUNG_BAND,     /* geometry known */
    HUNG_RAMP,     /* known at both ends only: linear in h, or no heights at all */
    HUNG_RELEASER, /* while lowered only */
    HUNG_UNKNOWN   /* gear that the gym file does not know, or a labelled band without heights */
};

struct hung /* one piece as it hangs; `times` alike ones, both sides counted */
{
    enum hung_kind kind;
    const struct piece *piece;
    int times;
    bool reverse;
    struct hung_chain chain;
    struct hung_band band;
    double bottom_kg, top_kg;      /* HUNG_RAMP; HUNG_RELEASER (top; NAN: unknown): all of it, `times` included */
    const struct chain *gym_chain; /* NULL: none */
    const struct band *gym_band;
    const struct calibration *calibration;
    const struct band_curve *lowering; /* of the band on the bar's way down; NULL: not known */
    const struct setup *setup;
    bool right;               /* the right one of band b26/b30 */
    enum hindrance hindrance; /* of HUNG_UNKNOWN */
};

struct loading
{
    double straight_kg; /* NAN: no weight known */
    bool heights_known;
    bool heights_estimated; /* from stature, never measured: good for loads, and u is not known */
    double bottom_m, top_m; /* NAN: not known */
    struct hung *hung;
    size_t hung_count;
    unsigned assumed;
};

struct loading_context
{
    const struct gym *gym;
    const struct lifter *lifter; /* NULL: not in the gym file */
    const char *lift;
    day_number day;
    double one_rm_kg;     /* tested, for STRAIGHT_PERCENT; NAN: none */
    double bodyweight_kg; /* NAN: not known */
};

struct effect
{
    double straight_kg;
    double counted_bottom_kg, counted_top_kg, counted_mean_kg; /* for totals: straight weight where unknown */
    double bottom_kg, top_kg, mean_kg; /* NAN: unknown, for gear that is not known: tautline-log(5) */
    double lowering_top_kg;            /* at the top while lowered, releasers included */
    double lowering_bottom_kg;    /* at the bottom while lowered, releasers gone; NAN: a band's branch is not known */
    double lowering_mean_kg;      /* while lowered, releasers included; NAN likewise */
    double bottom_u_kg, top_u_kg; /* standard uncertainty; 0 without AR; NAN with heights unknown */
    unsigned assumed;
};

struct effect loading_effect(const struct loading *loading, const struct gym *gym);
/* The same for many straight weights that one AR hangs with, at the same heights: what it does is worked out once. It
 * is of any of these loadings, straight weight or not; NULL: nothing hangs. */
struct ar_effect;
const struct ar_effect *ar_effect_make(struct arena *arena, const struct loading *loading, const struct gym *gym);
struct effect loading_effect_with(const struct loading *loading, const struct ar_effect *ar);

double loading_at(const struct loading *loading, double height_m); /* L(h), clamped at 0; NAN: unknown, or no heights */
double loading_mean_kg(const struct loading *loading);             /* (1/(h_t − h_b)) ∫ L dh */
double loading_work_j(const struct loading *loading);              /* g ∫ L dh, one repetition up; NAN: no heights */
/* g ∫ (L − L_lowering) dh, releasers aside: what the bands keep of one repetition's work; NAN: not known. */
double loading_lost_j(const struct loading *loading);
/* Standard uncertainty of L at the bottom or the top (GUM, first order): heights shared by all pieces at that height,
 * pieces of one label share their relative error, all else independent. */
double loading_u_kg(const struct loading *loading, double height_m, const struct gym *gym);

#endif
