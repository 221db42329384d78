#include "analysis/findings/findings_gear.h"

#include "analysis/findings/findings_maker.h"

#include "analysis/bands/band_comparing.h"
#include "base/names.h"
#include "base/text.h"

#include <math.h>
#include <string.h>

/* One fault of a load, whenever it is lifted: looked for once per distinct load, since a log has few of them and
 * lifts each often. */
struct cause
{
    enum finding_id id;
    double value, limit;
    const char *key; /* the gear concerned; distinguishes causes with the same id */
    const char *fact;
};

struct causes
{
    LIST(struct cause) list;
};

struct gear_review
{
    struct findings_maker *maker;
    const struct loading *loading;
    struct causes *causes; /* of the loading */
};

static void add_cause(struct gear_review *review, struct cause cause)
{
    /* Heights belong to the lifter, so every fact that is based on estimated heights says so. */
    if (review->loading->heights_estimated && cause.id != FINDING_BAND_UNPAIRED)
        cause.fact = arena_printf(review->maker->scratch, "%s, by heights estimated from stature", cause.fact);
    *LIST_ADD(review->maker->scratch, &review->causes->list) = cause;
}

/* --- chains ------------------------------------------------------------------------------------------------------- */

static const char *chain_words(struct findings_maker *maker, const struct hung *hung)
{
    return arena_printf(maker->scratch, "chain %s%s", hung->gym_chain->label,
                        hung->chain.strands == 2 ? " looped" : "");
}

/* l/k − s(h_t) ≥ one link (tautline-model(7)): at least this much must lie on the floor at the top. */
static void look_for_swinging(struct gear_review *review, const struct hung *hung)
{
    struct findings_maker *maker = review->maker;
    const struct hung_chain *chain = &hung->chain;
    double on_floor_m = chain_clearance_m(chain, review->loading->top_m) + chain->link_m;
    double links = on_floor_m / chain->link_m, limit = maker->limits[FINDING_CHAIN_SWINGS];
    double clear_m = review->loading->top_m - chain->leader_m - chain_shortest_strand_m(chain);
    if (!is_below(links, limit))
        return;
    const char *words = chain_words(maker, hung), *link = length_words(maker, chain->link_m);
    const char *fact = clear_m >= 0 ? arena_printf(maker->scratch, "%s hangs %s clear of the floor at the top", words,
                                                   length_words(maker, clear_m))
                                    : arena_printf(maker->scratch,
                                                   "only %s of %s lies on the floor at the top, with links of %s",
                                                   length_words(maker, on_floor_m), words, link);
    add_cause(review, (struct cause){FINDING_CHAIN_SWINGS, links, limit, words, fact});
}

static void look_for_straight(struct gear_review *review, const struct hung *hung)
{
    struct findings_maker *maker = review->maker;
    double share = chain_resting_share(&hung->chain, review->loading->bottom_m, review->loading->top_m);
    double limit = maker->limits[FINDING_CHAIN_MOSTLY_STRAIGHT];
    if (!is_below(share, limit))
        return;
    const char *words = chain_words(maker, hung);
    const char *fact = arena_printf(maker->scratch, "only %s of %s comes to rest between top and bottom",
                                    percent_words(maker, share), words);
    add_cause(review, (struct cause){FINDING_CHAIN_MOSTLY_STRAIGHT, share, limit, words, fact});
}

/* --- one band ----------------------------------------------------------------------------------------------------- */

static const char *band_words(struct findings_maker *maker, const struct hung *hung)
{
    static const char *const rigs[] = {[RIG_SINGLE] = "", [RIG_DOUBLED] = " doubled", [RIG_CHOKED] = " choked"};
    return arena_printf(maker->scratch, "%sband %s%s%s%s", hung->reverse ? "reverse " : "", hung->gym_band->label,
                        rigs[hung->piece->rig], hung->setup ? " @ " : "", hung->setup ? hung->setup->name : "");
}

/* How far above or below the anchor the bar is when the band comes taut; 0: it is taut at any height. */
static double taut_rise_m(const struct hung_band *band)
{
    return fmax(band_rise_m(band, band_flat_m(band->curve)), 0); /* 0 for NAN */
}

static void look_for_slack(struct gear_review *review, const struct hung *hung)
{
    struct findings_maker *maker = review->maker;
    struct band_pull pull = band_at(&hung->band, review->loading->bottom_m);
    double limit = maker->limits[FINDING_BAND_SLACK];
    double taut_m = hung->band.anchor_height_m + taut_rise_m(&hung->band);
    const char *fact;
    if (isnan(limit) || is_above(pull.force_kg, limit))
        return;
    const char *words = band_words(maker, hung);
    if (pull.force_kg > 0)
        fact = arena_printf(maker->scratch, "%s pulls only %s at the bottom", words, load_words(maker, pull.force_kg));
    else if (hung->reverse || taut_m >= review->loading->top_m)
        fact = arena_printf(maker->scratch, "%s is slack at the bottom", words);
    else
        fact = arena_printf(maker->scratch,
                            "%s is slack at the bottom and comes taut only after the first %s of the lift", words,
                            length_words(maker, taut_m - review->loading->bottom_m));
    add_cause(review, (struct cause){FINDING_BAND_SLACK, pull.force_kg, limit, words, fact});
}

/* A band is longest at one end of the lift. */
static struct band_pull longest(const struct loading *loading, const struct hung_band *band)
{
    struct band_pull bottom = band_at(band, loading->bottom_m), top = band_at(band, loading->top_m);
    return bottom.stretch_m > top.stretch_m ? bottom : top;
}

static void look_for_over_range(struct gear_review *review, const struct hung *hung)
{
    struct findings_maker *maker = review->maker;
    double end_m = band_end_m(hung->band.curve), stretch_m = longest(review->loading, &hung->band).stretch_m;
    double beyond = (stretch_m - end_m) / (end_m - band_flat_m(hung->band.curve));
    double limit = maker->limits[FINDING_BAND_OVER_RANGE];
    if (!isfinite(end_m) || !is_above(beyond, limit))
        return;
    const char *words = band_words(maker, hung);
    const char *fact = arena_printf(maker->scratch, "%s is stretched to %s, %s beyond the longest length measured",
                                    words, length_words(maker, stretch_m), length_words(maker, stretch_m - end_m));
    add_cause(review, (struct cause){FINDING_BAND_OVER_RANGE, beyond, limit, words, fact});
}

/* Fore-aft pull over vertical pull, F (a/d) over F (h − z)/d, is a / (h − z): worst where the bar is nearest the
 * anchor's height and the band still pulls. NAN: it does not pull anywhere. */
static double worst_lean(const struct loading *loading, const struct hung_band *band)
{
    double low_m = loading->bottom_m - band->anchor_height_m, high_m = loading->top_m - band->anchor_height_m;
    double nearest_m = low_m <= 0 && high_m >= 0 ? 0 : fmin(fabs(low_m), fabs(high_m));
    double farthest_m = fmax(fabs(low_m), fabs(high_m)), taut_m = taut_rise_m(band);
    return taut_m < farthest_m ? band_lean(band, fmax(nearest_m, taut_m)) : NAN;
}

static void look_for_lean(struct gear_review *review, const struct hung *hung)
{
    struct findings_maker *maker = review->maker;
    double lean = fabs(hung->band.offset_m) > 0 ? worst_lean(review->loading, &hung->band) : 0;
    double limit = maker->limits[FINDING_ANCHOR_OFF_CENTRE];
    if (!is_above(lean, limit))
        return;
    const char *words = band_words(maker, hung);
    const char *how_much = isinf(lean) ? "more than it pulls down"
                                       : arena_printf(maker->scratch, "with up to %s of its vertical pull",
                                                      percent_words(maker, lean));
    const char *fact = arena_printf(
        maker->scratch, "%s is anchored %s in front of or behind the bar's path and pulls the bar that way %s", words,
        length_words(maker, fabs(hung->band.offset_m)), how_much);
    add_cause(review, (struct cause){FINDING_ANCHOR_OFF_CENTRE, lean, limit, words, fact});
}

/* --- left and right ----------------------------------------------------------------------------------------------- */

static const char *label_of(const struct hung *hung)
{
    return hung->right ? hung->piece->label_right : hung->piece->label;
}

static const char *label_beside(const struct hung *hung)
{
    return hung->piece->label_right && !hung->right ? hung->piece->label_right : hung->piece->label;
}

static bool is_mate(const struct band *band, const char *label)
{
    return band && band->partner && text_same_name(band->partner, label);
}

#define LIFT_PARTS 200 /* heights of the bar at which the pulls are compared */

/* The difference where it is largest in kg, as a share of the mean pull there: over the lift; at equal lengths where
 * heights or anchors are unknown. NAN: unknown. */
static double tension_apart(struct gear_review *review, const struct hung *left, const struct hung *right)
{
    if (!left->calibration || !right->calibration)
        return NAN;
    if (left->kind == HUNG_BAND && right->kind == HUNG_BAND) {
        const struct loading *loading = review->loading;
        struct pulls_apart apart = NO_PULLS_APART;
        for (int i = 0; i <= LIFT_PARTS; i++) {
            double height_m = loading->bottom_m + (loading->top_m - loading->bottom_m) * i / LIFT_PARTS;
            pulls_apart_see(&apart, height_m, band_at(&left->band, height_m).force_kg,
                            band_at(&right->band, height_m).force_kg);
        }
        return fabs(apart.share);
    }
    const struct band_curve *curve = band_curve_new(review->maker->scratch, left->calibration);
    const struct band_curve *beside = band_curve_new(review->maker->scratch, right->calibration);
    double low_m = fmax(band_flat_m(curve), band_flat_m(beside)), high_m = fmin(band_end_m(curve), band_end_m(beside));
    return isfinite(high_m) ? fabs(curves_apart(curve, beside, low_m, high_m).share) : NAN;
}

static void look_for_mismatch(struct gear_review *review, const struct hung *left, const struct hung *right)
{
    struct findings_maker *maker = review->maker;
    const char *label = label_of(left), *other = label_of(right);
    bool matched = text_same_name(label, other) || is_mate(left->gym_band, other) || is_mate(right->gym_band, label);
    double apart = tension_apart(review, left, right), limit = maker->limits[FINDING_BAND_MISMATCH];
    if (matched && !is_above(apart, limit))
        return;
    const char *words = arena_printf(maker->scratch, "band %s on the left and %s on the right", label, other);
    const char *pull = isnan(apart)
                           ? "the difference in pull is unknown"
                           : arena_printf(maker->scratch, "they differ in pull by %s", percent_words(maker, apart));
    const char *fact = arena_printf(maker->scratch, "%s are %sa matched pair: %s", words, matched ? "" : "not ", pull);
    add_cause(review, (struct cause){FINDING_BAND_MISMATCH, apart, limit, words, fact});
}

static bool is_unpaired(const struct hung *hung)
{
    const struct band *band = hung->gym_band;
    const char *mate = !band ? NULL : band->partner ? band->partner : band->pair ? band->label : NULL;
    return mate && !text_same_name(mate, label_beside(hung));
}

/* `right`: the second label of a pair; NULL: both sides use the same label. */
static void look_for_unpaired(struct gear_review *review, const struct hung *left, const struct hung *right)
{
    struct findings_maker *maker = review->maker;
    const struct hung *lonely = is_unpaired(left) ? left : right;
    bool both = is_unpaired(left) && (!right || is_unpaired(right));
    double count = both ? 2 : 1, limit = maker->limits[FINDING_BAND_UNPAIRED];
    if (!is_unpaired(left) && !(right && is_unpaired(right)))
        return;
    if (!is_above(count, limit))
        return;
    const char *mate = lonely->gym_band->partner ? lonely->gym_band->partner : lonely->gym_band->label;
    const char *words = arena_printf(maker->scratch, "band %s is paired with %s, not with %s%s", label_of(lonely),
                                     label_beside(lonely), lonely->gym_band->partner ? "" : "the other ", mate);
    add_cause(review, (struct cause){FINDING_BAND_UNPAIRED, count, limit, words, words});
}

/* --- loads of a lift ---------------------------------------------------------------------------------------------- */

static void look_at_piece(struct gear_review *review, const struct hung *hung)
{
    if (hung->kind == HUNG_CHAIN) {
        look_for_swinging(review, hung);
        if (!hung->chain.pinned) /* what hangs from a pin is meant to hang */
            look_for_straight(review, hung);
    } else if (hung->kind == HUNG_BAND) {
        look_for_slack(review, hung);
        look_for_over_range(review, hung);
        look_for_lean(review, hung);
    }
}

static bool is_labelled_band(const struct hung *hung)
{
    return hung->piece->kind == PIECE_BAND && hung->piece->label && hung->kind != HUNG_RAMP;
}

static struct causes *causes_of(struct findings_maker *maker, const struct loading *loading)
{
    struct gear_review review = {maker, loading, ARENA_NEW(maker->scratch, struct causes)};
    for (size_t i = 0; i < loading->hung_count; i++) {
        const struct hung *hung = &loading->hung[i], *right = NULL;
        look_at_piece(&review, hung);
        if (!is_labelled_band(hung) || hung->right)
            continue;
        if (hung->piece->label_right && i + 1 < loading->hung_count)
            right = &loading->hung[i + 1];
        if (right)
            look_for_mismatch(&review, hung, right);
        look_for_unpaired(&review, hung, right);
    }
    return review.causes;
}

static const struct causes *causes_known(struct findings_maker *maker, struct map *known, const struct loading *loading)
{
    struct causes *causes = map_get(known, (const char *)&loading, sizeof loading);
    if (!causes) {
        causes = causes_of(maker, loading);
        map_put(known, (const char *)&loading, sizeof loading, causes);
    }
    return causes;
}

void find_in_gear(struct findings_maker *maker, const struct lift_review *review)
{
    struct map *known = map_new(maker->scratch);
    struct episodes episodes = {0};
    day_number day = NO_DAY;
    size_t session = 0;
    for (size_t i = 0; i < review->sets.count; i++) {
        const struct evaluated_set *set = review->sets.sets[i];
        if (!set->has_ar || !is_work(set))
            continue;
        session += set->set->day != day;
        day = set->set->day;
        const struct causes *causes = causes_known(maker, known, set->loading);
        for (size_t j = 0; j < causes->list.count; j++) {
            const struct cause *cause = &causes->list.items[j];
            struct finding *finding = episode_finding(maker, &episodes, cause->id, cause->key, session);
            finding_add(finding, set);
            if (finding_update_worst(finding, cause->value, cause->limit))
                finding->fact = cause->fact;
        }
    }
}
