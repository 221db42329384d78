#include "analysis/plan/plan_ways.h"

#include "analysis/plan/plan_maker.h"
#include "base/text.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define MOST_PIECES 8
#define MOST_LINKS 6 /* most links by which a leader is shortened */
#define LEAST_LEADER_M 0.05

struct ways_maker
{
    struct arena *arena;
    const struct plan_past *past;
    const struct plan_wish *wish;
    const struct plan_overload *over;
    const struct load *held; /* has the pieces of the last wave; NULL: none */
    double pair_kg;          /* of the smallest plates */
    double over_kg;
    LIST(struct plan_way) list;
};

/* --- the result of a plan ----------------------------------------------------------------------------------------- */

static double mean_over(const struct plan *plan, enum load_measure measure)
{
    double sum = 0;
    size_t weeks = 0;
    for (; weeks < plan->week_count && plan->weeks[weeks].before; weeks++)
        sum += plan->weeks[weeks].over_kg[measure];
    return weeks ? sum / (double)weeks : NAN;
}

/* Without chain or band the load at all ends is the straight weight. */
static double over_at(const struct plan *plan, enum plan_end at)
{
    double bottom = mean_over(plan, LOAD_BOTTOM), top = mean_over(plan, LOAD_TOP);
    return at == PLAN_AT_TOP             ? top
           : at == PLAN_AT_BOTTOM        ? bottom
           : isnan(bottom) || isnan(top) ? NAN
                                         : fmin(bottom, top);
}

/* A trial plan: only its weights are used. */
static const struct plan *plan_with(struct ways_maker *maker, const struct load *ar, double raise_kg, bool on_trial)
{
    struct plan_wish wish = *maker->wish;
    wish.ar = ar;
    wish.raise_kg = raise_kg;
    wish.raise_said = true;
    wish.shares = NULL;
    wish.without_findings |= on_trial;
    return plan_make_after(maker->arena, maker->past, &wish);
}

static int gravity_of(const struct plan *plan)
{
    int gravity = -1;
    for (size_t i = 0; i < plan->finding_count; i++) {
        int severity = (int)finding_kinds[plan->findings[i]->id].severity;
        gravity = severity > gravity ? severity : gravity;
    }
    return gravity;
}

/* The chains and bands add what they add; the straight weight makes up the rest. */
static void add_way(struct ways_maker *maker, const char *what, const struct load *ar)
{
    const struct plan *plan = plan_with(maker, ar, 0, true);
    double over_kg = plan->state == PLAN_MADE ? over_at(plan, maker->over->at) : NAN;
    if (isnan(over_kg))
        return;
    plan = plan_with(maker, ar, maker->over_kg - over_kg, false);
    over_kg = plan->state == PLAN_MADE ? over_at(plan, maker->over->at) : NAN;
    if (isnan(over_kg))
        return;
    struct plan_way way = {.what = what, .plan = plan, .miss_kg = over_kg - maker->over_kg};
    way.bottom_kg = mean_over(plan, LOAD_BOTTOM);
    way.top_kg = mean_over(plan, LOAD_TOP);
    way.pairs_off = floor(fabs(way.miss_kg) / maker->pair_kg);
    way.gravity = gravity_of(plan);
    way.other_kg = maker->over->at == PLAN_AT_BOTTOM ? way.top_kg : way.bottom_kg;
    *LIST_ADD(maker->arena, &maker->list) = way;
}

/* --- possible chains and bands ------------------------------------------------------------------------------------ */

/* A copy of the load, with one piece changed or, if `at` is the count, added. */
static struct load *changed(struct ways_maker *maker, size_t at, const struct piece *piece)
{
    size_t count = maker->held ? maker->held->piece_count : 0;
    struct load *load = ARENA_NEW(maker->arena, struct load);
    struct piece *pieces = ARENA_ARRAY(maker->arena, struct piece, count + 1);
    if (count)
        memcpy(pieces, maker->held->pieces, count * sizeof *pieces);
    pieces[at] = *piece;
    *load = (struct load){
        .straight = STRAIGHT_MASS, .percent = NAN, .pieces = pieces, .piece_count = at < count ? count : count + 1};
    return load;
}

static const struct chain *chain_of(const struct gym *gym, const struct piece *piece)
{
    if (piece->kind != PIECE_CHAIN || !(piece->per_side > 0) || !isnan(piece->mass_kg))
        return NULL;
    return piece->label ? gym_chain(gym, piece->label) : gym_default_chain(gym);
}

static void add_chains(struct ways_maker *maker)
{
    const struct gym *gym = maker->past->source->gym;
    for (size_t i = 0; i < gym->chain_count; i++) {
        const struct chain *chain = &gym->chains[i];
        size_t count = maker->held ? maker->held->piece_count : 0, at = 0;
        while (at < count && chain_of(gym, &maker->held->pieces[at]) != chain)
            at++;
        struct piece piece = {.kind = PIECE_CHAIN,
                              .label = chain->label,
                              .mass_kg = NAN,
                              .bottom_kg = NAN,
                              .top_kg = NAN,
                              .leader_m = NAN};
        if (at < count)
            piece = maker->held->pieces[at];
        piece.per_side++;
        add_way(maker, arena_printf(maker->arena, "one more chain %s on each side", chain->label),
                changed(maker, at, &piece));
    }
}

/* A shorter leader makes more links hang at the top; also at the bottom, if some hang there already. */
static void add_leaders(struct ways_maker *maker)
{
    const struct gym *gym = maker->past->source->gym;
    for (size_t at = 0; maker->held && at < maker->held->piece_count; at++) {
        struct piece piece = maker->held->pieces[at];
        const struct chain *chain = chain_of(gym, &piece);
        double leader_m = !chain ? NAN : isnan(piece.leader_m) ? chain->leader_m : piece.leader_m;
        for (int links = 1; chain && links <= MOST_LINKS && leader_m - links * chain->link_m >= LEAST_LEADER_M;
             links++) {
            piece.leader_m = leader_m - links * chain->link_m;
            const struct load *ar = changed(maker, at, &piece);
            const struct plan *plan = plan_with(maker, ar, 0, true);
            bool is_enough = plan->state == PLAN_MADE &&
                             over_at(plan, maker->over->at) >= maker->over_kg - maker->pair_kg / 2;
            if (!is_enough && links < MOST_LINKS)
                continue;
            add_way(maker,
                    arena_printf(maker->arena, "leaders of chain %s shorter by %d link%s", chain->label, links,
                                 links == 1 ? "" : "s"),
                    ar);
            break;
        }
    }
}

static bool hangs_already(const struct load *held, const char *label)
{
    for (size_t i = 0; held && i < held->piece_count; i++)
        if (held->pieces[i].label && text_same_name(held->pieces[i].label, label))
            return true;
    return false;
}

/* Replaces bands by bands; none are added to chains alone, because they need anchors. */
static void add_bands(struct ways_maker *maker)
{
    const struct gym *gym = maker->past->source->gym;
    for (size_t at = 0; maker->held && at < maker->held->piece_count; at++) {
        struct piece piece = maker->held->pieces[at];
        const char *before = piece.label;
        if (piece.kind != PIECE_BAND || !before || piece.label_right)
            continue;
        for (size_t i = 0; i < gym->band_count; i++) {
            const struct band *band = &gym->bands[i];
            if (hangs_already(maker->held, band->label) || !band->pair)
                continue;
            piece.label = band->label;
            add_way(maker, arena_printf(maker->arena, "band %s in place of %s", band->label, before),
                    changed(maker, at, &piece));
        }
    }
}

/* --- the best of them ----------------------------------------------------------------------------------------------- */

static int compare(double a, double b)
{
    return (a > b) - (a < b);
}

static int by_merit(const void *left, const void *right)
{
    const struct plan_way *a = left, *b = right;
    if (compare(a->pairs_off, b->pairs_off))
        return compare(a->pairs_off, b->pairs_off);
    if ((a->other_kg < 0) != (b->other_kg < 0))
        return (a->other_kg < 0) - (b->other_kg < 0);
    return a->gravity != b->gravity ? a->gravity - b->gravity : compare(b->other_kg, a->other_kg);
}

struct plan_ways plan_ways_make(struct arena *arena, const struct plan_past *past, const struct plan_wish *wish,
                                const struct plan_overload *over)
{
    struct ways_maker maker = {.arena = arena, .past = past, .wish = wish, .over = over};
    struct plan_ways ways = {0};
    const struct plan *base = plan_with(&maker, wish->ar, 0, true);
    if (base->state != PLAN_MADE || !base->last || !base->weeks->before)
        return ways;
    const double *last_kg = base->weeks->before->load_kg;
    double load_kg = last_kg[over->at == PLAN_AT_TOP      ? LOAD_TOP
                             : over->at == PLAN_AT_BOTTOM ? LOAD_BOTTOM
                                                          : LOAD_STRAIGHT];
    maker.held = base->ar;
    maker.pair_kg = rack_step_kg(&base->rack);
    maker.over_kg = !isnan(over->kg) ? over->kg : over->share * (isnan(load_kg) ? last_kg[LOAD_STRAIGHT] : load_kg);
    if (!(maker.pair_kg > 0))
        return ways;
    add_way(&maker, "straight weight alone", wish->ar);
    add_chains(&maker);
    add_leaders(&maker);
    add_bands(&maker);
    if (maker.list.count)
        qsort(maker.list.items, maker.list.count, sizeof *maker.list.items, by_merit);
    return (struct plan_ways){maker.list.items, maker.list.count, maker.over_kg};
}
