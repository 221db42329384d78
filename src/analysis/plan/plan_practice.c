/* A first wave with chains, the usual way; nothing here has a published source. Chains before bands; a pair of chains
 * for each pair of large discs; at most 20 % of the 1RM from bottom to top, which is the limit of a lifter's first
 * weeks; light at first. */
#include "analysis/plan/plan_practice.h"

#include <math.h>

#define FIRST_SETS 6
#define FIRST_REPS 2
#define LARGE_DISC_KG 19.0 /* discs of 20 kg and 45 lb, and heavier */
#define MOST_CHAINS 8      /* on each side */

static int large_discs(const struct plan *plan)
{
    int pairs = 0;
    for (size_t i = 0; i < plan->rack.count && plan->weeks->has_plates; i++)
        if (plan->rack.plates_kg[i] >= LARGE_DISC_KG)
            pairs += plan->weeks->plates.pairs[i];
    return pairs;
}

/* As many as there are large discs, at least one, as long as the pair's mass stays within the limit. */
static int chains_aside(const struct plan_maker *maker, const struct chain *chain)
{
    double most_kg = limit_rows[LIMIT_SHARE_FIRST].number * maker->plan->one_rm.kg;
    int chains = large_discs(maker->plan);
    chains = chains < 1 ? 1 : chains > MOST_CHAINS ? MOST_CHAINS : chains;
    while (chains > 1 && 2 * chains * chain->mass_kg > most_kg)
        chains--;
    return chains;
}

static const struct chain *chain_to_begin(const struct gym *gym)
{
    const struct chain *chain = gym_default_chain(gym);
    return chain ? chain : gym->chain_count ? gym->chains : NULL;
}

void plan_by_practice(struct plan_maker *maker)
{
    struct plan *plan = maker->plan;
    const struct chain *chain = chain_to_begin(&maker->gym);
    if (maker->wish->focus != FOCUS_SPEED)
        return;
    for (size_t i = 0; i < plan->week_count; i++) {
        struct plan_week *week = &maker->weeks[i];
        plan->sets_by_practice |= !week->sets && !week->reps;
        week->sets = week->sets ? week->sets : FIRST_SETS;
        week->reps = week->reps ? week->reps : FIRST_REPS;
    }
    if (plan->ar || !chain || !plan->weeks->has_plates)
        return;
    struct piece *piece = ARENA_NEW(maker->arena, struct piece);
    struct load *load = ARENA_NEW(maker->arena, struct load);
    *piece = (struct piece){
        .kind = PIECE_CHAIN, .label = chain->label, .mass_kg = NAN, .bottom_kg = NAN, .top_kg = NAN, .leader_m = NAN};
    piece->per_side = chains_aside(maker, chain);
    *load = (struct load){.straight = STRAIGHT_MASS, .percent = NAN, .pieces = piece, .piece_count = 1};
    plan->ar = load;
    plan->ar_by_practice = true;
}
