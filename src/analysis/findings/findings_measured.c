#include "analysis/findings/findings_measured.h"

#include "analysis/findings/findings_maker.h"

#include "base/names.h"

#include <math.h>

struct gear_use /* one chain or band as used by one lifter */
{
    day_number day; /* of the newest session */
    size_t session;
};

struct lifter_review
{
    struct findings_maker *maker;
    struct map *uses;   /* by chain or band */
    struct map *losses; /* by calibration: the loss since the one before */
    struct episodes episodes;
};

static size_t session_of(struct lifter_review *review, const void *gear, day_number day)
{
    struct gear_use *use = map_get(review->uses, (const char *)&gear, sizeof gear);
    if (!use) {
        use = ARENA_NEW(review->maker->scratch, struct gear_use);
        use->day = NO_DAY;
        map_put(review->uses, (const char *)&gear, sizeof gear, use);
    }
    use->session += use->day != day;
    use->day = day;
    return use->session;
}

static void look_for_estimate(struct lifter_review *review, const struct hung *hung, const struct evaluated_set *set)
{
    struct findings_maker *maker = review->maker;
    const struct chain *chain = hung->gym_chain;
    double limit = maker->limits[FINDING_CHAIN_MASS_ESTIMATED];
    size_t session = session_of(review, chain, set->set->day);
    if (!chain->mass_estimated || !is_above(chain->mass_kg, limit))
        return;
    struct finding *finding = episode_finding(maker, &review->episodes, FINDING_CHAIN_MASS_ESTIMATED, chain->label,
                                              session);
    finding_add(finding, set);
    if (finding_update_worst(finding, chain->mass_kg, limit))
        finding->fact = arena_printf(maker->scratch,
                                     "the mass of chain \"%s\", %s, is estimated from the size of its links",
                                     chain->label, load_words(maker, chain->mass_kg));
}

static void look_for_age(struct lifter_review *review, const struct hung *hung, const struct evaluated_set *set,
                         size_t session)
{
    struct findings_maker *maker = review->maker;
    day_number measured = hung->calibration->measured;
    double days = measured == NO_DAY ? NAN : (double)set->set->day - measured, limit = maker->limits[FINDING_BAND_AGED];
    if (!is_above(days, limit))
        return;
    struct finding *finding = episode_finding(maker, &review->episodes, FINDING_BAND_AGED, hung->gym_band->label,
                                              session);
    finding_add(finding, set);
    if (finding_update_worst(finding, days, limit))
        finding->fact = arena_printf(maker->scratch, "band %s was measured on %s, up to %.0f days before these sets",
                                     hung->gym_band->label, day_words(maker, measured), days);
}

struct loss
{
    double share, length_m;
};

static void lose_at(struct loss *loss, const struct band_curve *before, const struct band_curve *after, double length_m)
{
    bool both = length_m <= fmin(band_end_m(before), band_end_m(after));
    double was_kg = band_pull_kg(before, length_m), share = 1 - band_pull_kg(after, length_m) / was_kg;
    if (both && was_kg > 0 && share > loss->share)
        *loss = (struct loss){share, length_m};
}

/* The largest loss of tension from one calibration to the next, at a measured length or at the end of a law. */
static struct loss loss_between(struct findings_maker *maker, const struct calibration *from,
                                const struct calibration *to)
{
    struct loss loss = {0, NAN};
    const struct band_curve *before = band_curve_new(maker->scratch, from), *after = band_curve_new(maker->scratch, to);
    if (!before || !after)
        return loss;
    for (size_t i = 0; i < from->point_count; i++)
        lose_at(&loss, before, after, from->points[i].length_m);
    for (size_t i = 0; i < to->point_count; i++)
        lose_at(&loss, before, after, to->points[i].length_m);
    double end_m = fmin(band_end_m(before), band_end_m(after));
    if (isfinite(end_m))
        lose_at(&loss, before, after, end_m);
    return loss;
}

static struct loss loss_of(struct lifter_review *review, const struct calibration *calibration)
{
    struct loss *loss = map_get(review->losses, (const char *)&calibration, sizeof calibration);
    if (!loss) {
        loss = ARENA_NEW(review->maker->scratch, struct loss);
        *loss = loss_between(review->maker, calibration - 1, calibration);
        map_put(review->losses, (const char *)&calibration, sizeof calibration, loss);
    }
    return *loss;
}

static void look_for_loss(struct lifter_review *review, const struct hung *hung, const struct evaluated_set *set,
                          size_t session)
{
    struct findings_maker *maker = review->maker;
    const struct calibration *calibration = hung->calibration;
    const char *label = hung->gym_band->label;
    double limit = maker->limits[LIMIT_BAND_AGED_LOSS];
    if (calibration == hung->gym_band->calibrations)
        return;
    struct loss loss = loss_of(review, calibration);
    if (!is_above(loss.share, limit))
        return;
    const char *key = arena_printf(maker->scratch, "%s\n%s", label, day_words(maker, calibration->measured));
    struct finding *finding = episode_finding(maker, &review->episodes, FINDING_BAND_AGED, key, session);
    finding_add(finding, set);
    finding->unit = FINDING_SHARE;
    if (finding_update_worst(finding, loss.share, limit))
        finding->fact = arena_printf(maker->scratch,
                                     "band %s pulled %s less at %s on %s than at its measurement before that", label,
                                     percent_words(maker, loss.share), length_words(maker, loss.length_m),
                                     day_words(maker, calibration->measured));
}

void find_of_gear(struct findings_maker *maker, const struct evaluated_set *sets, size_t count)
{
    struct lifter_review review = {.maker = maker, .uses = map_new(maker->scratch), .losses = map_new(maker->scratch)};
    for (size_t i = 0; i < count; i++) {
        const struct evaluated_set *set = &sets[i];
        if (!set->has_ar || !is_work(set))
            continue;
        for (size_t j = 0; j < set->loading->hung_count; j++) {
            const struct hung *hung = &set->loading->hung[j];
            if (hung->gym_chain)
                look_for_estimate(&review, hung, set);
            if (!hung->gym_band || !hung->calibration)
                continue;
            size_t session = session_of(&review, hung->gym_band, set->set->day);
            look_for_age(&review, hung, set, session);
            look_for_loss(&review, hung, set, session);
        }
    }
}
