#include "analysis/findings/findings_waves.h"

#include "analysis/findings/findings_maker.h"

#include "base/pounds.h"

#include <math.h>

static bool rests_on_test(const struct wave_week *week)
{
    return week->working->one_rm.from == ONE_RM_TESTED;
}

/* --- the set-up --------------------------------------------------------------------------------------------------- */

static const char *ar_words(struct findings_maker *maker, const struct wave_week *week)
{
    return *week->ar ? load_in_unit(maker->scratch, week->ar, maker->options->unit) : "no chain or band";
}

/* What chains and bands add at an end; the difference that the straight weight makes is not included. */
static double ar_at(const struct wave_week *week, enum load_measure end)
{
    return week->load_kg[end] - week->load_kg[LOAD_STRAIGHT];
}

/* kg, at the end that changed more; NAN: unknown. */
static double setup_move(const struct wave_week *from, const struct wave_week *to)
{
    double bottom = ar_at(to, LOAD_BOTTOM) - ar_at(from, LOAD_BOTTOM);
    double top = ar_at(to, LOAD_TOP) - ar_at(from, LOAD_TOP);
    return isnan(bottom) || isnan(top) ? NAN : fmax(fabs(bottom), fabs(top));
}

#define CHANGES_TOLD 3 /* of a wave that are described; the rest are counted */

struct setup_review
{
    struct findings_maker *maker;
    const struct wave *wave;
    struct finding *finding; /* NULL: nothing changed yet */
    size_t changes;
    const char *fact;
};

static void tell_change(struct setup_review *review, const struct wave_week *from, const struct wave_week *to)
{
    struct findings_maker *maker = review->maker;
    const char *bottom = change_words(maker, ar_at(to, LOAD_BOTTOM) - ar_at(from, LOAD_BOTTOM));
    const char *top = change_words(maker, ar_at(to, LOAD_TOP) - ar_at(from, LOAD_TOP));
    review->fact = arena_printf(
        maker->scratch, "%s%s in %s from %s to %s, which moves the load at the bottom by %s and at the top by %s",
        review->fact, review->changes ? ", then" : "", week_words(maker, to->week), ar_words(maker, from),
        ar_words(maker, to), bottom, top);
}

static void look_at_change(struct setup_review *review, const struct wave_week *from, const struct wave_week *to)
{
    struct findings_maker *maker = review->maker;
    double move = setup_move(from, to), limit = maker->limits[FINDING_SETUP_CHANGED];
    if (same_ar(from->working, to->working) || move < limit) /* an unknown change also counts */
        return;
    if (!review->finding) {
        review->finding = finding_new(maker, FINDING_SETUP_CHANGED);
        review->fact = arena_printf(maker->scratch, "the set-up of %s changed", weeks_words(maker, review->wave));
    }
    if (review->changes < CHANGES_TOLD)
        tell_change(review, from, to);
    review->changes++;
    finding_update_worst(review->finding, move, limit);
    review->finding->fact = review->changes <= CHANGES_TOLD
                                ? review->fact
                                : arena_printf(maker->scratch, "%s, and %zu more times", review->fact,
                                               review->changes - CHANGES_TOLD);
}

/* From week to week, and to the week after the wave if only a lighter top load ended it. The finding gets the sets
 * whose set-up differs from that of the wave's first week. */
static void look_at_setup(struct findings_maker *maker, const struct lift_review *lift, const struct wave *wave)
{
    struct setup_review review = {.maker = maker, .wave = wave};
    for (size_t i = 1; i < wave->count; i++) {
        look_at_change(&review, &wave->weeks[i - 1], &wave->weeks[i]);
        if (review.finding && !same_ar(wave->weeks->working, wave->weeks[i].working))
            finding_add_week(review.finding, lift, &wave->weeks[i]);
    }
    const struct wave_week *last = &wave->weeks[wave->count - 1];
    if (!wave->ended_by_top || same_ar(last->working, wave->next->working)) /* an aged band is the same set-up */
        return;
    look_at_change(&review, last, wave->next);
    if (review.finding)
        finding_add_week(review.finding, lift, wave->next);
}

/* --- steps -------------------------------------------------------------------------------------------------------- */

/* Steps cannot follow a plan more closely than the smallest pair of plates allows. */
static double smallest_pair_kg(const struct gym *gym)
{
    return gym->plate_count ? 2 * gym->plates_kg[gym->plate_count - 1] : 0;
}

static double step_kg(const struct wave *wave, size_t i)
{
    return wave->weeks[i].load_kg[LOAD_STRAIGHT] - wave->weeks[i - 1].load_kg[LOAD_STRAIGHT];
}

/* There are two if a week was missed. */
static double steps_between(const struct wave *wave, size_t i)
{
    return (double)wave->weeks[i].step - (double)wave->weeks[i - 1].step;
}

static const char *steps_words(struct findings_maker *maker, const struct wave *wave)
{
    const char *words = "";
    for (size_t i = 1; i < wave->count; i++)
        words = arena_printf(maker->scratch, "%s%s%s", words,
                             i == 1                ? ""
                             : i + 1 < wave->count ? ", "
                                                   : " and ",
                             change_words(maker, step_kg(wave, i)));
    return words;
}

/* Farthest from the planned step, as shares of the 1RM of the wave's first week. */
struct step_check
{
    double worst, limit; /* no worst: 0 */
};

static struct step_check check_steps(const struct wave *wave, const struct gym *gym, const double *limits)
{
    double one_rm_kg = wave->weeks->working->one_rm.kg, worst_kg = 0;
    double planned_kg = limits[LIMIT_STEP_PLANNED] * one_rm_kg;
    if (wave->weeks->focus != FOCUS_SPEED || !rests_on_test(wave->weeks))
        return (struct step_check){0, NAN};
    for (size_t i = 1; i < wave->count; i++)
        if (!wave->weeks[i].far_off && !wave->weeks[i - 1].far_off)
            worst_kg = fmax(worst_kg, fabs(step_kg(wave, i) - planned_kg * steps_between(wave, i)));
    return (struct step_check){worst_kg / one_rm_kg,
                               fmax(limits[FINDING_STEP_UNEVEN], smallest_pair_kg(gym) / one_rm_kg)};
}

static void look_at_steps(struct findings_maker *maker, const struct lift_review *lift, const struct wave *wave)
{
    struct step_check check = check_steps(wave, maker->training->gym, maker->limits);
    if (!is_above(check.worst, check.limit))
        return;
    struct finding *finding = finding_new(maker, FINDING_STEP_UNEVEN);
    for (size_t i = 0; i < wave->count; i++)
        finding_add_week(finding, lift, &wave->weeks[i]);
    finding_update_worst(finding, check.worst, check.limit);
    finding->fact = arena_printf(
        maker->scratch, "%s rose in steps of %s; the planned %s of 1RM is %s", weeks_words(maker, wave),
        steps_words(maker, wave), percent_words(maker, maker->limits[LIMIT_STEP_PLANNED]),
        change_words(maker, maker->limits[LIMIT_STEP_PLANNED] * wave->weeks->working->one_rm.kg));
}

bool wave_steps_uneven(const struct gym *gym, const struct wave *wave)
{
    double limits[LIMIT_COUNT];
    bool off[FINDING_COUNT];
    limits_of_gym(gym, limits, off);
    struct step_check check = check_steps(wave, gym, limits);
    return !off[FINDING_STEP_UNEVEN] && is_above(check.worst, check.limit);
}

/* --- the share ---------------------------------------------------------------------------------------------------- */

struct range /* limits of a share; NAN: open */
{
    double low, high;
};

static struct range share_range(const struct findings_maker *maker, const struct wave_week *week)
{
    const double *limits = maker->limits;
    if (week->focus == FOCUS_SPEED)
        return (struct range){limits[LIMIT_SHARE_LEAST], limits[FINDING_SHARE_OUT_OF_RANGE]};
    if (week->focus != FOCUS_STRENGTH)
        return (struct range){NAN, NAN};
    bool bands = load_has(week->working->set->ar, PIECE_BAND);
    return (struct range){NAN, limits[bands ? LIMIT_SHARE_BAND : LIMIT_SHARE_CHAIN]};
}

static void look_at_share(struct findings_maker *maker, const struct lift_review *lift, const struct wave *wave)
{
    struct finding *finding = NULL;
    for (size_t i = 0; i < wave->count; i++) {
        const struct wave_week *week = &wave->weeks[i];
        struct range range = share_range(maker, week);
        bool low = is_below(week->share, range.low), high = is_above(week->share, range.high);
        if (!bears_ar(week->working->set->ar) || !rests_on_test(week) || !(low || high))
            continue;
        finding = finding ? finding : finding_new(maker, FINDING_SHARE_OUT_OF_RANGE);
        finding_add_week(finding, lift, week);
        if (finding_update_worst(finding, week->share, low ? range.low : range.high))
            finding->fact = arena_printf(maker->scratch, "%s of 1RM from bottom to top by %s in %s, %s than %s",
                                         percent_words(maker, week->share), ar_words(maker, week),
                                         weeks_words(maker, wave), low ? "less" : "more",
                                         percent_words(maker, low ? range.low : range.high));
    }
}

static double most_share(const struct wave *wave)
{
    double most = 0;
    for (size_t i = 0; i < wave->count; i++)
        if (rests_on_test(&wave->weeks[i]))
            most = fmax(most, wave->weeks[i].share); /* fmax ignores NAN */
    return most;
}

/* Compares with the largest share of the wave before, which must have had chains or bands. */
static void look_for_jump(struct findings_maker *maker, const struct lift_review *lift, const struct wave *wave,
                          const struct wave *before)
{
    double share_before = most_share(before), limit = maker->limits[FINDING_SHARE_JUMP];
    struct finding *finding = NULL;
    for (size_t i = 0; share_before > 0 && i < wave->count; i++) {
        const struct wave_week *week = &wave->weeks[i];
        double rise = week->share - share_before;
        if (!rests_on_test(week) || !is_above(rise, limit))
            continue;
        finding = finding ? finding : finding_new(maker, FINDING_SHARE_JUMP);
        finding_add_week(finding, lift, week);
        if (finding_update_worst(finding, rise, limit))
            finding->fact = arena_printf(
                maker->scratch, "chains and bands add %s of 1RM in %s, after %s in the wave before",
                percent_words(maker, week->share), weeks_words(maker, wave), percent_words(maker, share_before));
    }
}

#define FIRST_WEEKS 3 /* with chains or bands on any lift */

static void note_week(week_number first[FIRST_WEEKS], week_number week)
{
    for (int i = 0; i < FIRST_WEEKS && week != first[i]; i++) {
        if (week > first[i])
            continue;
        week_number later = first[i]; /* make room: move the later ones up */
        first[i] = week;
        week = later;
    }
}

const week_number *first_weeks_with_ar(struct arena *arena, const struct log *log)
{
    size_t lifters = names_count(log->lifters);
    week_number(*first)[FIRST_WEEKS] = arena_alloc(arena, lifters * sizeof *first),
    *last = ARENA_ARRAY(arena, week_number, lifters);
    for (size_t i = 0; i < lifters; i++)
        for (int j = 0; j < FIRST_WEEKS; j++)
            first[i][j] = INT32_MAX;
    for (size_t i = 0; i < log->sets.count; i++) {
        const struct set *set = &log->sets.items[i];
        if (set->kind == SET_WORK && set->reps && bears_ar(set->ar))
            note_week(first[set->lifter], week_of(set->day));
    }
    for (size_t i = 0; i < lifters; i++)
        last[i] = first[i][FIRST_WEEKS - 1];
    return last;
}

static void look_at_beginning(struct findings_maker *maker, const struct lift_review *lift, const struct wave *wave,
                              week_number last_first)
{
    double limit = maker->limits[LIMIT_SHARE_FIRST];
    struct finding *finding = NULL;
    for (size_t i = 0; i < wave->count && wave->weeks[i].week <= last_first; i++) {
        const struct wave_week *week = &wave->weeks[i];
        if (!rests_on_test(week) || !is_above(week->share, limit))
            continue;
        finding = finding ? finding : finding_new(maker, FINDING_SHARE_JUMP);
        finding_add_week(finding, lift, week);
        if (finding_update_worst(finding, week->share, limit))
            finding->fact = arena_printf(maker->scratch,
                                         "in the first %d weeks with chains or bands they add %s of 1RM", FIRST_WEEKS,
                                         percent_words(maker, week->share));
    }
}

static bool is_seasoned(const struct lift_review *lift)
{
    return lift->lifter && lift->lifter->experience == EXPERIENCE_SEASONED;
}

/* --- the weight of speed work ------------------------------------------------------------------------------------- */

static const struct wave *wave_of(const struct lift_review *lift, const struct wave_week *week)
{
    for (size_t i = 0; i < lift->wave_count; i++)
        if (week->wave && lift->waves[i].weeks->focus == week->focus && lift->waves[i].weeks->wave == week->wave)
            return &lift->waves[i];
    return NULL;
}

/* An episode is a wave, or a run of weeks outside waves. */
struct speed_episode
{
    struct finding *finding;
    unsigned wave;
};

/* A week that is lighter than the week before, in no wave and without a later week of its focus, may be a light week:
 * the next week decides. */
static bool may_be_light(const struct lift_review *lift, size_t at)
{
    if (lift->weeks[at].wave)
        return false;
    for (size_t i = at + 1; i < lift->week_count; i++)
        if (lift->weeks[i].focus == lift->weeks[at].focus)
            return false;
    for (size_t i = at; i-- > 0;)
        if (lift->weeks[i].focus == lift->weeks[at].focus)
            return lift->weeks[at].load_kg[LOAD_STRAIGHT] < lift->weeks[i].load_kg[LOAD_STRAIGHT];
    return false;
}

static void look_at_speed(struct findings_maker *maker, const struct lift_review *lift, enum finding_id id)
{
    struct speed_episode episode = {0};
    double limit = maker->limits[id];
    for (size_t i = 0; i < lift->week_count; i++) {
        const struct wave_week *week = &lift->weeks[i];
        double share = week->straight_share;
        if (week->focus != FOCUS_SPEED || week->light || !rests_on_test(week))
            continue;
        if (id == FINDING_SPEED_TOO_LIGHT && may_be_light(lift, i))
            continue;
        if (episode.wave != week->wave)
            episode = (struct speed_episode){NULL, week->wave};
        if (!(id == FINDING_SPEED_TOO_HEAVY ? is_above(share, limit) : is_below(share, limit))) {
            if (!week->wave)
                episode.finding = NULL;
            continue;
        }
        episode.finding = episode.finding ? episode.finding : finding_new(maker, id);
        finding_add_week(episode.finding, lift, week);
        if (!finding_update_worst(episode.finding, share, limit))
            continue;
        const struct wave *wave = wave_of(lift, week);
        episode.finding->fact = arena_printf(
            maker->scratch, "straight weight of %s of 1RM in %s", percent_words(maker, share),
            wave ? weeks_words(maker, wave)
                 : arena_printf(maker->scratch, "speed work of %s", week_words(maker, week->week)));
    }
}

/* --- bands for a lifter new to them ------------------------------------------------------------------------------- */

static void look_for_bands(struct findings_maker *maker, const struct lift_review *lift)
{
    struct episodes episodes = {0};
    day_number day = NO_DAY;
    size_t session = 0;
    for (size_t i = 0; i < lift->sets.count; i++) {
        const struct evaluated_set *set = lift->sets.sets[i];
        if (!set->has_ar || !is_work(set))
            continue;
        session += set->set->day != day;
        day = set->set->day;
        if (!load_has(set->set->ar, PIECE_BAND))
            continue;
        struct finding *finding = episode_finding(maker, &episodes, FINDING_BANDS_BEFORE_CHAINS, "", session);
        finding_add(finding, set);
        finding_update_worst(finding, (double)finding->sets, maker->limits[FINDING_BANDS_BEFORE_CHAINS]);
        finding->fact = "a lifter who is new to chains and bands uses bands";
    }
}

void find_in_waves(struct findings_maker *maker, const struct lift_review *lift)
{
    week_number last_first = maker->first_weeks[lift->sets.sets[0]->set->lifter];
    for (size_t i = 0; i < lift->wave_count; i++) {
        const struct wave *wave = &lift->waves[i];
        look_at_setup(maker, lift, wave);
        look_at_steps(maker, lift, wave);
        look_at_share(maker, lift, wave);
        if (i && wave[-1].weeks->focus == wave->weeks->focus)
            look_for_jump(maker, lift, wave, &wave[-1]);
        if (!is_seasoned(lift))
            look_at_beginning(maker, lift, wave, last_first);
    }
    look_at_speed(maker, lift, FINDING_SPEED_TOO_HEAVY);
    look_at_speed(maker, lift, FINDING_SPEED_TOO_LIGHT);
    if (lift->lifter && lift->lifter->experience == EXPERIENCE_NEW)
        look_for_bands(maker, lift);
}
