#include "analysis/setup/setup_search.h"

#include "analysis/setup/setup_facts.h"
#include "analysis/setup/setup_gear.h"
#include "base/names.h"
#include "model/curve.h"
#include "model/heights.h"
#include "model/loading.h"
#include "model/numeric.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* What a tape measure shows: whole centimetres, or half inches; anchors, which are named by their height, by whole
 * inches. */
#define TAPE_M 0.01
#define TAPE_IN_M (M_PER_IN / 2)
#define SLACK 1e-9

struct search
{
    struct arena *arena, *scratch;
    const struct setup_wish *wish;
    struct gym gym;       /* the wish's, with room for one new anchor */
    struct setup *setups; /* of the gym; the last is the new one */
    double bottom_m, top_m;
    struct map *by_gear; /* the best set-up of each gear: struct setup_found */
    LIST(struct setup_found *) found;
    struct setup_search result;
};

/* --- weighing one set-up ------------------------------------------------------------------------------------------ */

static const struct loading *resolve(struct search *search, const struct gear *gear, bool with_anchor)
{
    struct load *load = ARENA_NEW(search->scratch, struct load);
    *load = search->wish->straight;
    load->pieces = gear->pieces;
    load->piece_count = gear->count;
    struct loading_context context = search->wish->context;
    search->gym.setup_count = context.gym->setup_count + with_anchor;
    context.gym = &search->gym;
    return loading_make(search->scratch, load, &context);
}

static double wanted_kg(const struct setup_wish *wish)
{
    return wish->share * wish->context.one_rm_kg;
}

static int pieces_a_side(const struct gear *gear)
{
    int count = 0;
    for (size_t i = 0; i < gear->count; i++)
        count += gear->pieces[i].per_side;
    return count;
}

/* The first reason to reject a set-up; SETUP_REJECTIONS: none. */
static enum setup_rejection reason_against(const struct search *search, const struct loading *loading, bool *slack)
{
    bool over = false, swings = false, idle = false;
    *slack = false;
    for (size_t i = 0; i < loading->hung_count; i++) {
        const struct hung *hung = &loading->hung[i];
        double gain = hung_load_kg(loading, hung, loading->top_m) - hung_load_kg(loading, hung, loading->bottom_m);
        if (hung->kind == HUNG_CHAIN) {
            struct chain_facts facts = chain_facts_of(loading, hung);
            gain = facts.resting_share * hung->times * hung->chain.mass_kg; /* not what its leader adds */
            swings |= facts.clearance_m < -SLACK;
        } else if (hung->kind == HUNG_BAND) {
            struct band_facts facts = band_facts_of(loading, hung);
            over |= facts.left_m < -SLACK;
            *slack |= facts.slack_at_bottom;
        }
        idle |= gain <= SLACK;
    }
    double added = loading_at(loading, loading->bottom_m) - loading->straight_kg;
    if (over)
        return SETUP_OVER_RANGE;
    if (swings)
        return SETUP_SWINGS;
    if (idle)
        return SETUP_IDLE;
    return added < search->wish->min_added_kg - SLACK ? SETUP_TOO_LIGHT : SETUP_REJECTIONS;
}

/* --- ranking ------------------------------------------------------------------------------------------------------ */

/* Tape measures and scales cannot resolve less than half a point of 1RM: smaller differences of the miss must not
 * outweigh what matters more. */
#define MISS_STEP 0.005

static int compare(double a, double b)
{
    return (a > b) - (a < b);
}

static int things_to_set(const struct setup_found *found)
{
    return (!isnan(found->leader_m)) + 2 * (found->anchor.name != NULL); /* a new anchor is more work than a leader */
}

static int by_fit(const struct setup_found *a, const struct setup_found *b)
{
    int order = compare(round(fabs(a->miss_share) / MISS_STEP), round(fabs(b->miss_share) / MISS_STEP));
    return order ? order : (int)a->slack - (int)b->slack;
}

/* Of set-ups with the same pieces: prefer what exists already to what must be made. */
static bool is_better(const struct setup_found *a, const struct setup_found *b)
{
    int order = by_fit(a, b);
    order = order ? order : things_to_set(a) - things_to_set(b);
    order = order ? order : compare(a->added_kg, b->added_kg);
    order = order ? order : compare(fabs(a->miss_share), fabs(b->miss_share));
    return order < 0;
}

static int by_rank(const void *left, const void *right)
{
    const struct setup_found *a = *(struct setup_found *const *)left, *b = *(struct setup_found *const *)right;
    int order = by_fit(a, b);
    order = order ? order : compare(a->added_kg, b->added_kg);
    order = order ? order : things_to_set(a) - things_to_set(b);
    order = order ? order : a->piece_count - b->piece_count;
    order = order ? order : compare(fabs(a->miss_share), fabs(b->miss_share));
    return order ? order : strcmp(a->load.ar, b->load.ar);
}

/* The pieces, without anything adjustable. */
static const char *gear_key(struct search *search, const struct gear *gear)
{
    struct gear bare = *gear;
    for (size_t i = 0; i < bare.count; i++) {
        bare.pieces[i].setup = NULL;
        bare.pieces[i].leader_m = NAN;
    }
    return pieces_print(search->scratch, bare.pieces, bare.count);
}

static void keep(struct search *search, const struct gear *gear, const struct setup_found *found)
{
    const char *key = gear_key(search, gear);
    struct setup_found *best = map_get(search->by_gear, key, strlen(key));
    if (best && !is_better(found, best))
        return;
    if (!best) {
        best = *LIST_ADD(search->arena, &search->found) = ARENA_NEW(search->arena, struct setup_found);
        map_put(search->by_gear, key, strlen(key), best);
    }
    *best = *found;
    best->anchor.name = arena_copy(search->arena, best->anchor.name);
    for (size_t i = 0; i < gear->count; i++) {
        best->pieces[i] = gear->pieces[i];
        if (found->anchor.name)
            best->pieces[i].setup = best->anchor.name;
    }
    best->load.pieces = best->pieces;
    best->load.piece_count = gear->count;
    best->load.ar = pieces_print(search->arena, best->pieces, gear->count);
}

/* Weighs one set-up, and keeps it if it is sound and the best of its gear. */
static void consider(struct search *search, const struct gear *gear, const struct setup *anchor, double leader_m)
{
    const struct setup_wish *wish = search->wish;
    const struct loading *loading = resolve(search, gear, anchor != NULL);
    struct setup_found found = {.load = wish->straight, .leader_m = leader_m, .piece_count = pieces_a_side(gear)};
    double bottom = loading_at(loading, loading->bottom_m), gain = loading_at(loading, loading->top_m) - bottom;
    if (isnan(gain)) /* the calibration is unusable */
        return;
    search->result.tried++;
    enum setup_rejection reason = reason_against(search, loading, &found.slack);
    if (reason != SETUP_REJECTIONS) {
        search->result.rejected[reason]++;
        return;
    }
    found.share = gain / wish->context.one_rm_kg;
    found.miss_share = found.share - wish->share;
    found.miss_kg = gain - wanted_kg(wish);
    found.added_kg = bottom - loading->straight_kg;
    if (anchor)
        found.anchor = *anchor;
    keep(search, gear, &found);
}

/* --- a leader's length -------------------------------------------------------------------------------------------- */

struct solve_variable /* one number that is varied until the load fits */
{
    struct loading *loading;
    struct hung *hung; /* the chain whose leader it is; NULL: the anchor of all bands */
    double goal_kg;
    bool at_bottom; /* the goal is what is added at the bottom; else the difference between top and bottom */
};

static double residual(double value, void *context)
{
    const struct solve_variable *solve_variable = context;
    const struct loading *loading = solve_variable->loading;
    for (size_t i = 0; i < loading->hung_count; i++) {
        if (solve_variable->hung == &loading->hung[i]) {
            loading->hung[i].chain.leader_m = value;
            loading->hung[i].chain.leader_kg = chain_leader_of_kg(loading->hung[i].gym_chain, value);
        } else if (!solve_variable->hung && loading->hung[i].kind == HUNG_BAND) {
            loading->hung[i].band.anchor_height_m = value;
        }
    }
    double bottom = loading_at(loading, loading->bottom_m);
    double got = solve_variable->at_bottom ? bottom - loading->straight_kg
                                           : loading_at(loading, loading->top_m) - bottom;
    return got - solve_variable->goal_kg;
}

static bool changes_sign(double a, double b)
{
    return (a < 0) != (b < 0);
}

static double tape_step_m(const struct setup_wish *wish)
{
    return wish->tape == UNIT_LB ? TAPE_IN_M : TAPE_M;
}

/* To the nearest step that is not below the minimum. */
static double to_tape(double length_m, double least_m, double step_m)
{
    double steps = fmax(round(length_m / step_m), ceil(least_m / step_m - SLACK));
    return round(steps * step_m * 1e6) / 1e6 + 0.0; /* -0 would print a height that no parser accepts */
}

static void consider_leader(struct search *search, const struct gear *gear, double leader_m)
{
    struct gear set = *gear;
    set.pieces[0].leader_m = leader_m;
    consider(search, &set, NULL, leader_m);
}

/* The leader of the first piece, a chain. Beyond the length at which the whole chain lies on the floor at the bottom
 * (or, for a short chain, one link is left at the top), a longer leader only reduces the load: one root, or none. A
 * shorter one adds the same at both ends. */
static void solve_leader(struct search *search, const struct gear *gear)
{
    struct loading *loading = (struct loading *)resolve(search, gear, false);
    struct hung *hung = &loading->hung[0];
    if (hung->kind != HUNG_CHAIN || hung->chain.pinned)
        return;
    double strand = chain_shortest_strand_m(&hung->chain), step_m = tape_step_m(search->wish);
    double least = fmax(search->top_m - strand + hung->chain.link_m, 0), low = fmax(least, search->bottom_m);
    if (low >= search->top_m)
        return;
    struct solve_variable solve_variable = {loading, hung, wanted_kg(search->wish), false};
    bool reaches = changes_sign(residual(low, &solve_variable), residual(search->top_m, &solve_variable));
    consider_leader(search, gear,
                    to_tape(reaches ? numeric_root(residual, &solve_variable, low, search->top_m) : low, low, step_m));
    solve_variable = (struct solve_variable){loading, hung, search->wish->min_added_kg, true};
    if (least < low && search->wish->min_added_kg > 0 &&
        changes_sign(residual(least, &solve_variable), residual(low, &solve_variable)))
        /* rounded down, so that too much hangs rather than too little */
        consider_leader(search, gear,
                        to_tape(numeric_root(residual, &solve_variable, least, low) - step_m / 2, least, step_m));
}

/* --- an anchor's height ------------------------------------------------------------------------------------------- */

#define ANCHOR_SCAN_M 0.02  /* between two heights that are checked for a change of sign */
#define ANCHOR_BELOW_M 0.05 /* the bar's bottom, at least */

/* A name that no set-up of the gym has: anchor-31cm, anchor-12in. */
static const char *anchor_name(struct search *search, double height_m)
{
    bool inches = search->wish->tape == UNIT_LB;
    const char *wanted = arena_printf(search->scratch, "anchor-%.0f%s", height_m / (inches ? M_PER_IN : TAPE_M),
                                      inches ? "in" : "cm");
    const char *name = wanted;
    for (int copy = 2; gym_setup(search->wish->context.gym, name); copy++)
        name = arena_printf(search->scratch, "%s-%d", wanted, copy);
    return name;
}

/* The lift's own set-up, from which a new anchor takes offset and spread. NULL: none. */
static const struct setup *usual_setup(const struct setup_wish *wish)
{
    const struct lift *lift = wish->context.lift ? gym_lift(wish->context.gym, wish->context.lift) : NULL;
    return lift && lift->setup ? gym_setup(wish->context.gym, lift->setup) : NULL;
}

static void consider_anchor(struct search *search, const struct gear *gear, double height_m)
{
    const struct setup_wish *wish = search->wish;
    const struct setup *usual = usual_setup(wish);
    struct setup *anchor = &search->setups[wish->context.gym->setup_count];
    *anchor = (struct setup){.height_m = to_tape(height_m, 0, wish->tape == UNIT_LB ? M_PER_IN : TAPE_M),
                             .spread_m = usual ? usual->spread_m : 0,
                             .offset_m = usual ? usual->offset_m : 0};
    anchor->name = anchor_name(search, anchor->height_m);
    struct gear set = *gear;
    for (size_t i = 0; i < set.count; i++)
        set.pieces[i].setup = anchor->name;
    consider(search, &set, anchor, NAN);
}

static bool stretches_too_far(const struct loading *loading)
{
    for (size_t i = 0; i < loading->hung_count; i++)
        if (loading->hung[i].kind == HUNG_BAND && band_facts_of(loading, &loading->hung[i]).left_m < -SLACK)
            return true;
    return false;
}

/* The gain need not be monotone in the anchor's height, because a rubber loop stiffens and softens: the heights are
 * scanned, each change of sign is a root, and if there is none, the nearest sound height is used. */
static void solve_anchor(struct search *search, const struct gear *gear)
{
    struct loading *loading = (struct loading *)resolve(search, gear, false);
    const struct setup *usual = usual_setup(search->wish);
    for (size_t i = 0; i < loading->hung_count; i++) {
        if (loading->hung[i].kind != HUNG_BAND)
            return;
        loading->hung[i].band.offset_m = usual ? usual->offset_m : 0;
        loading->hung[i].band.spread_m = usual ? usual->spread_m : 0;
        loading->hung[i].band.pegs = (struct band_pegs){0}; /* a new anchor is one, and a point */
    }
    struct solve_variable solve_variable = {loading, NULL, wanted_kg(search->wish), false};
    double before = NAN, last_m = 0, nearest_m = NAN, nearest_off = INFINITY;
    bool solved = false;
    double highest = search->bottom_m - ANCHOR_BELOW_M;
    int heights = highest > 0 ? (int)ceil(highest / ANCHOR_SCAN_M - SLACK) + 1 : 0;
    for (int i = 0; i < heights; i++) {
        double height = fmin(i * ANCHOR_SCAN_M, highest);
        double off = residual(height, &solve_variable);
        bool sound = !stretches_too_far(loading);
        if (!isnan(before) && changes_sign(before, off)) {
            consider_anchor(search, gear, numeric_root(residual, &solve_variable, last_m, height));
            solved = true;
        }
        if (sound && fabs(off) < nearest_off) {
            nearest_off = fabs(off);
            nearest_m = height;
        }
        before = off;
        last_m = height;
    }
    if (!solved && !isnan(nearest_m))
        consider_anchor(search, gear, nearest_m);
}

/* --- all together ------------------------------------------------------------------------------------------------- */

static void try_leaders(struct search *search, const struct gear *gear)
{
    consider(search, gear, NULL, NAN);
    if (gear->pieces[0].kind == PIECE_CHAIN)
        solve_leader(search, gear);
    arena_reset(search->scratch);
}

/* Tries bands at each of the gym's anchors below the bar; if it has none, where a log without a set-up would have
 * them. */
static void try_anchors(struct search *search, const struct gear *gear)
{
    const struct gym *gym = search->wish->context.gym;
    bool any = false;
    for (size_t i = 0; i < gym->setup_count; i++) {
        if (gym->setups[i].height_m >= search->bottom_m)
            continue;
        struct gear there = *gear;
        for (size_t j = 0; j < there.count; j++)
            if (there.pieces[j].kind == PIECE_BAND)
                there.pieces[j].setup = gym->setups[i].name;
        try_leaders(search, &there);
        any = true;
    }
    if (!any)
        try_leaders(search, gear);
}

static void try_all(struct search *search)
{
    const struct gym *gym = search->wish->context.gym;
    struct gear_list chains = {0}, bands = {0};
    if (search->wish->gear & SETUP_CHAINS)
        search->result.usable_chains = list_chains(search->arena, gym, &chains);
    if (search->wish->gear & SETUP_BANDS)
        search->result.usable_bands = list_bands(search->arena, gym, &bands);
    for (size_t i = 0; i < chains.count; i++)
        try_leaders(search, &chains.items[i]);
    for (size_t i = 0; i < bands.count; i++) {
        try_anchors(search, &bands.items[i]);
        solve_anchor(search, &bands.items[i]);
        arena_reset(search->scratch);
    }
    for (size_t i = 0; i < chains.count; i++) {
        for (size_t j = 0; j < bands.count && chains.items[i].combines; j++) {
            struct gear both = chains.items[i];
            if (!both.combines || !bands.items[j].combines)
                continue;
            both.pieces[both.count++] = bands.items[j].pieces[0];
            try_anchors(search, &both);
        }
    }
}

/* Computes the whole effect, for those that are shown. */
static void weigh_found(struct search *search, struct setup_found *found)
{
    struct gear gear = {.count = found->load.piece_count};
    memcpy(gear.pieces, found->pieces, sizeof gear.pieces);
    search->setups[search->wish->context.gym->setup_count] = found->anchor;
    const struct loading *loading = resolve(search, &gear, found->anchor.name != NULL);
    found->effect = loading_effect(loading, &search->gym);
    found->load.pieces = found->pieces;
    arena_reset(search->scratch);
}

static void finish(struct search *search)
{
    const size_t most = search->wish->most;
    struct setup_search *result = &search->result;
    if (search->found.count)
        qsort(search->found.items, search->found.count, sizeof *search->found.items, by_rank);
    for (size_t i = 0; i < search->found.count; i++)
        result->slack += search->found.items[i]->slack;
    result->count = search->found.count < most ? search->found.count : most;
    result->found = ARENA_ARRAY(search->arena, struct setup_found, result->count);
    for (size_t i = 0; i < result->count; i++) {
        result->found[i] = *search->found.items[i];
        weigh_found(search, &result->found[i]);
    }
}

struct setup_search setup_search(struct arena *arena, const struct setup_wish *wish)
{
    const struct gym *gym = wish->context.gym;
    struct search search = {
        .arena = arena, .scratch = arena_new(), .wish = wish, .gym = *gym, .by_gear = map_new(arena)};
    bool estimated;
    heights_find(gym, wish->context.lifter, wish->context.lift, &search.bottom_m, &search.top_m, &estimated);
    search.setups = ARENA_ARRAY(arena, struct setup, gym->setup_count + 1);
    if (gym->setup_count)
        memcpy(search.setups, gym->setups, gym->setup_count * sizeof *search.setups);
    search.gym.setups = search.setups;
    try_all(&search);
    finish(&search);
    arena_free(search.scratch);
    return search.result;
}

#define NEEDED_LINK_M 0.05

struct setup_need setup_need_for(const struct setup_wish *wish)
{
    double bottom, top;
    bool estimated;
    heights_find(wish->context.gym, wish->context.lifter, wish->context.lift, &bottom, &top, &estimated);
    double way = top - bottom, wanted = wanted_kg(wish), per_m = wanted / 2 / way;
    double hanging = wish->min_added_kg / 2 / per_m; /* the part that hangs at the bottom already */
    struct setup_need need = {
        .added_kg = wanted, .chain_m = way + hanging + NEEDED_LINK_M, .leader_m = bottom - hanging};
    need.chain_kg = need.leader_m >= 0 ? per_m * need.chain_m : NAN;
    return need;
}
