#include "model/loading.h"

#include "model/effect.h"
#include "model/heights.h"

#include <math.h>

#define SAME_CHAIN 0.02 /* a written mass within 2 % of a gym chain's is that chain */
#define ROUNDING_SLACK 1e-9

struct maker /* one loading in the making */
{
    struct arena *arena;
    const struct loading_context *context;
    const struct lift *lift; /* of the gym file; NULL: not in it */
    struct loading *loading;
};

/* --- straight weight --- */

static double straight_weight(const struct load *load, const struct loading_context *context, const struct lift *lift)
{
    switch (load->straight) {
    case STRAIGHT_MASS: {
        /* What is logged for a lift of the body hangs from it, where somebody has told what the body weighs. */
        bool on_body = lift && lift->bodyweight && !load->bars && !isnan(context->bodyweight_kg);
        int hands = lift && lift->per_hand ? 2 : 1; /* per = hand: one hand's weight is logged */
        return hands * load->kg + load->bars * context->gym->bar_kg + (on_body ? context->bodyweight_kg : 0);
    }
    case STRAIGHT_PERCENT:
        return load->percent / 100 * context->one_rm_kg;
    case STRAIGHT_BODYWEIGHT:
        return context->bodyweight_kg + load->kg;
    case STRAIGHT_NONE:
        break;
    }
    return NAN;
}

static void put_straight(struct loading *loading, const struct load *load, const struct loading_context *context,
                         const struct lift *lift)
{
    loading->straight_kg = straight_weight(load, context, lift);
    loading->assumed &= ~(unsigned)ASSUMED_NO_WEIGHT;
    if (isnan(loading->straight_kg))
        loading->assumed |= ASSUMED_NO_WEIGHT;
}

/* --- chains --- */

static struct hung *add_hung(struct maker *maker, const struct piece *piece, enum hung_kind kind)
{
    struct hung *hung = &maker->loading->hung[maker->loading->hung_count++];
    int times = piece->per_side ? 2 * piece->per_side : 1;
    *hung = (struct hung){.kind = kind, .piece = piece, .times = times, .reverse = piece->reverse};
    return hung;
}

static void add_unknown(struct maker *maker, const struct piece *piece, bool right)
{
    add_hung(maker, piece, HUNG_UNKNOWN)->right = right;
    maker->loading->assumed |= ASSUMED_UNKNOWN_GEAR;
}

/* May heights be used? Says so where they are unknown or only estimated. */
static bool heights_for(struct maker *maker)
{
    struct loading *loading = maker->loading;
    if (!loading->heights_known || loading->heights_estimated)
        loading->assumed |= ASSUMED_NO_HEIGHTS;
    return loading->heights_known;
}

static double off_by(const struct chain *chain, double mass_kg)
{
    return fabs(mass_kg - chain->mass_kg) / chain->mass_kg;
}

/* The gym chain that a written mass stands for: the default, else the nearest. */
static const struct chain *chain_of_mass(const struct gym *gym, const struct piece *piece)
{
    const double limit = SAME_CHAIN + ROUNDING_SLACK;
    if (piece->label) {
        const struct chain *named = gym_chain(gym, piece->label);
        return named && off_by(named, piece->mass_kg) <= limit ? named : NULL;
    }
    const struct chain *nearest = gym_default_chain(gym);
    if (nearest && off_by(nearest, piece->mass_kg) <= limit)
        return nearest;
    nearest = NULL;
    for (size_t i = 0; i < gym->chain_count; i++) {
        const struct chain *chain = &gym->chains[i];
        if (off_by(chain, piece->mass_kg) <= limit &&
            (!nearest || off_by(chain, piece->mass_kg) < off_by(nearest, piece->mass_kg)))
            nearest = chain;
    }
    return nearest;
}

/* The gym chain that hangs there; NULL: known by mass, or not at all. Without a count, how many is not known. */
static const struct chain *chain_of_piece(const struct gym *gym, const struct piece *piece)
{
    if (!piece->per_side)
        return NULL;
    if (!isnan(piece->mass_kg))
        return chain_of_mass(gym, piece);
    const struct chain *chain = piece->label ? gym_chain(gym, piece->label) : gym_default_chain(gym);
    return chain && chain->mass_kg > 0 ? chain : NULL;
}

static void hinder(struct maker *maker, struct hung *hung, enum hindrance hindrance)
{
    hung->kind = HUNG_UNKNOWN;
    hung->hindrance = hindrance;
    maker->loading->assumed |= ASSUMED_UNKNOWN_GEAR;
}

/* The way from the pin is longest at an end of the lift. */
static void check_reach(struct maker *maker, struct hung *hung)
{
    const struct loading *loading = maker->loading;
    if (!chain_reaches(&hung->chain, loading->bottom_m) || !chain_reaches(&hung->chain, loading->top_m))
        hinder(maker, hung, HINDRANCE_OUT_OF_REACH);
}

static void add_gym_chain(struct maker *maker, const struct piece *piece, const struct chain *chain)
{
    bool has_length = chain->length_m > 0;
    struct hung *hung = add_hung(maker, piece, HUNG_RAMP);
    double leader_m = isnan(piece->leader_m) ? chain->leader_m : piece->leader_m;
    hung->gym_chain = chain;
    hung->chain = (struct hung_chain){
        .mass_kg = chain->mass_kg,
        .length_m = chain->length_m,
        .leader_m = leader_m,
        .leader_kg = chain_leader_of_kg(chain, leader_m),
        .strands = piece->rig == RIG_DOUBLED ? 2 : 1,
        .link_m = chain->link_m,
        .longer_m = chain->longer_m,
        .pinned = chain->pinned,
        .pin_m = chain->pin_m,
        .pin_aside_m = chain->pin_aside_m,
    };
    if (has_length && heights_for(maker)) {
        hung->kind = HUNG_CHAIN;
        check_reach(maker, hung);
        return;
    }
    hung->bottom_kg = hung->times * hung->chain.leader_kg;
    hung->top_kg = hung->times * (hung->chain.leader_kg + chain->mass_kg);
    if (!has_length)
        maker->loading->assumed |= maker->loading->heights_known ? ASSUMED_CHAIN_MASS : ASSUMED_NO_HEIGHTS;
}

static void add_chain(struct maker *maker, const struct piece *piece)
{
    const struct chain *chain = chain_of_piece(maker->context->gym, piece);
    if (chain) {
        add_gym_chain(maker, piece, chain);
    } else if (isnan(piece->mass_kg)) {
        add_unknown(maker, piece, false);
    } else {
        struct hung *hung = add_hung(maker, piece, HUNG_RAMP);
        hung->top_kg = hung->times * piece->mass_kg;
        maker->loading->assumed |= maker->loading->heights_known ? ASSUMED_CHAIN_MASS : ASSUMED_NO_HEIGHTS;
    }
}

static void add_releaser(struct maker *maker, const struct piece *piece)
{
    struct hung *hung = add_hung(maker, piece, HUNG_RELEASER);
    hung->top_kg = hung->times * piece->mass_kg;
    if (isnan(piece->mass_kg))
        maker->loading->assumed |= ASSUMED_UNKNOWN_GEAR;
}

/* --- bands --- */

/* Ends written as what the bands pull, or take off, in all. */
static void add_pull(struct maker *maker, const struct piece *piece)
{
    double sign = piece->reverse ? -1 : 1;
    struct hung *hung = add_hung(maker, piece, HUNG_RAMP);
    hung->bottom_kg = sign * (isnan(piece->bottom_kg) ? 0 : piece->bottom_kg);
    hung->top_kg = sign * (isnan(piece->top_kg) ? 0 : piece->top_kg);
    if (!piece->other_end_said)
        maker->loading->assumed |= ASSUMED_BOTTOM_TENSION;
}

/* The set-up that the log names, or else the lift's. One that the gym file does not know is none. */
static const struct setup *setup_for(const struct maker *maker, const struct piece *piece)
{
    const char *name = piece->setup ? piece->setup : maker->lift ? maker->lift->setup : NULL;
    const struct setup *setup = name ? gym_setup(maker->context->gym, name) : NULL;
    bool hangs_too_low = piece->reverse && setup && setup->height_m < maker->loading->bottom_m;
    return hangs_too_low ? NULL : setup;
}

static void mark_band(struct maker *maker, const struct hung *hung)
{
    struct loading *loading = maker->loading;
    const struct hung_band *band = &hung->band;
    if (!hung->setup)
        loading->assumed |= ASSUMED_NO_SETUP;
    if (band->rig == RIG_CHOKED && isnan(hung->gym_band->hitch_m))
        loading->assumed |= ASSUMED_HITCH;
    if (band_rests_on_one_point(band->curve))
        loading->assumed |= ASSUMED_ONE_POINT;
    if (band_over_range(band->curve, band_at(band, loading->bottom_m).stretch_m) ||
        band_over_range(band->curve, band_at(band, loading->top_m).stretch_m))
        loading->assumed |= ASSUMED_OVER_RANGE; /* it is longest at one of the ends */
}

/* The bar's way up stretches a band and its way down lets it go; under an anchor above it is the other way round. */
static void take_lowering(const struct maker *maker, struct hung *hung)
{
    const struct band_curve *stretched = hung->band.curve,
                            *let_go = band_lowering_curve_new(maker->arena, hung->calibration);
    if (!hung->reverse) {
        hung->lowering = let_go;
    } else if (let_go && !band_over_range(let_go, band_at(&hung->band, maker->loading->bottom_m).stretch_m)) {
        hung->band.curve = let_go;
        hung->lowering = stretched;
    }
}

/* The bands of one label: both sides, or `times` on one side of a pair of labels. */
static void add_labelled(struct maker *maker, const struct piece *piece, const char *label, int times, bool right)
{
    const struct band *gear = label ? gym_band(maker->context->gym, label) : NULL;
    const struct calibration *calibration = gear && gear->calibration_count
                                                ? band_calibration(gear, maker->context->day)
                                                : NULL;
    const struct band_curve *curve = calibration ? band_curve_new(maker->arena, calibration) : NULL;
    if (!curve) {
        add_unknown(maker, piece, right);
        return;
    }
    struct hung *hung = add_hung(maker, piece, HUNG_UNKNOWN);
    hung->times = times;
    hung->right = right;
    hung->gym_band = gear;
    hung->calibration = calibration;
    if (!heights_for(maker))
        return;
    const struct setup *setup = hung->setup = setup_for(maker, piece);
    if (!setup && piece->reverse) { /* from what it hangs is not known */
        maker->loading->assumed |= ASSUMED_NO_SETUP | ASSUMED_NO_HEIGHTS;
        return;
    }
    if (piece->rig == RIG_CHOKED && setup && setup->pegs_apart_m > 0) {
        hinder(maker, hung, HINDRANCE_CHOKED_ON_PEGS);
        return;
    }
    hung->kind = HUNG_BAND;
    double hitch = isnan(gear->hitch_m) ? DEFAULT_HITCH_M : gear->hitch_m;
    hung->band = (struct hung_band){.curve = curve, .rig = piece->rig, .hitch_m = hitch};
    if (setup) {
        hung->band.anchor_height_m = setup->height_m;
        hung->band.offset_m = setup->offset_m;
        hung->band.spread_m = setup->spread_m;
        hung->band.pegs = (struct band_pegs){.apart_m = setup->pegs_apart_m,
                                             .bar_radius_m = setup->bar_diameter_m / 2,
                                             .peg_radius_m = setup->peg_diameter_m / 2,
                                             .from_above = setup->height_m > maker->loading->bottom_m};
    }
    take_lowering(maker, hung);
    mark_band(maker, hung);
}

static void add_band(struct maker *maker, const struct piece *piece)
{
    if (!isnan(piece->reverse ? piece->bottom_kg : piece->top_kg)) {
        add_pull(maker, piece);
    } else if (!piece->per_side) {
        add_unknown(maker, piece, false);
    } else if (piece->label_right) {
        add_labelled(maker, piece, piece->label, piece->per_side, false);
        add_labelled(maker, piece, piece->label_right, piece->per_side, true);
    } else {
        add_labelled(maker, piece, piece->label, 2 * piece->per_side, false);
    }
}

/* --- all together --- */

struct loading *loading_make(struct arena *arena, const struct load *load, const struct loading_context *context)
{
    static void (*const add[])(struct maker *, const struct piece *) = {
        [PIECE_CHAIN] = add_chain,
        [PIECE_BAND] = add_band,
        [PIECE_RELEASER] = add_releaser,
    };
    struct loading *loading = ARENA_NEW(arena, struct loading);
    struct maker maker = {arena, context, context->lift ? gym_lift(context->gym, context->lift) : NULL, loading};
    put_straight(loading, load, context, maker.lift);
    loading->heights_known = heights_find(context->gym, context->lifter, context->lift, &loading->bottom_m,
                                          &loading->top_m, &loading->heights_estimated);
    loading->hung = ARENA_ARRAY(arena, struct hung, 2 * load->piece_count); /* a pair of labels makes two */
    for (size_t i = 0; i < load->piece_count; i++)
        add[load->pieces[i].kind](&maker, &load->pieces[i]);
    return loading;
}

struct loading loading_under(const struct load *load, const struct loading_context *context, const struct lift *lift,
                             const struct loading *hung)
{
    struct loading loading = *hung;
    put_straight(&loading, load, context, lift);
    return loading;
}
