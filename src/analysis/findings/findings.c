#include "analysis/findings/findings.h"

#include "analysis/evaluated_set.h"
#include "analysis/findings/findings_doubts.h"
#include "analysis/findings/findings_gear.h"
#include "analysis/findings/findings_load.h"
#include "analysis/findings/findings_maker.h"
#include "analysis/findings/findings_measured.h"
#include "analysis/findings/findings_waves.h"
#include "base/text.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define COMMON "common practice"

/* Sources:
 * - Neelly, Terry & Morris 2010, J Strength Cond Res 24(1):278-281: of a chain hung by its end 36 to 42 % came to rest
 *   at the bottom of the squat, of one looped on a leader 78 to 89 %. 70 % as the limit: common practice.
 * - DIN 763:1990-12, Table 1: mass per metre, within 4 % of what link geometry gives.
 * - Ogden, Saccomandi & Sgura 2004, Comput. Mech., doi 10.1007/s00466-004-0593-y: the constants of a rubber law move
 *   with the fitted range. 5 % beyond it: common practice.
 * - McMaster, Cronin & McGuigan 2010, J Strength Cond Res 24(8): bands of one nominal size differ by 3.5 to 5.2 % in
 *   length and by 8 to 19 % in tension. 5 % as the limit: common practice.
 * - Swinton, Keogh & Lake, on biomechanical principles: bands may add horizontal force. 5 % as the limit: common
 *   practice.
 * - Hutchins & Gearhart 2010: seven formulas missed a measured bench press of 95.5 kg by 5.4 to 6.8 kg.
 * - Hampel 1974, J. Am. Stat. Assoc. 69(346):383-393: the running median, and deviations of three times its own from
 * it. All other limits are common practice. */
const struct finding_kind finding_kinds[FINDING_COUNT] = {
    {"chain-swings", FINDING_FAULT, FINDING_LINKS, ADVICE_MEND_GEAR,
     "a chain with no link on the floor swings, and all of its weight already hangs on the bar", COMMON},
    {"chain-mostly-straight", FINDING_NOTE, FINDING_SHARE, ADVICE_MEND_GEAR,
     "the part that never comes to rest on the floor is only straight weight; a longer leader would lower it",
     "Neelly, Terry & Morris 2010"},
    {"chain-mass-estimated", FINDING_NOTE, FINDING_KG, ADVICE_MEASURE,
     "the size gives the mass within about 5 %, a scale within 1 %", "DIN 763:1990-12, Table 1"},
    {"band-slack", FINDING_CAUTION, FINDING_KG, ADVICE_MEND_GEAR,
     "a slack band adds nothing at the bottom and tightens in the middle of the lift", COMMON},
    {"band-over-range", FINDING_FAULT, FINDING_SHARE, ADVICE_MEND_GEAR,
     "a band's pull is known only over the lengths that were measured; beyond them it is a guess",
     "Ogden, Saccomandi & Sgura 2004"},
    {"band-mismatch", FINDING_FAULT, FINDING_SHARE, ADVICE_MEND_GEAR,
     "unequal bands load one side of the bar more than the other", "McMaster, Cronin & McGuigan 2010"},
    {"band-unpaired", FINDING_CAUTION, FINDING_PLAIN, ADVICE_MEND_GEAR,
     "bands of one nominal size differ, and only a matched pair was measured to be alike",
     "McMaster, Cronin & McGuigan 2010"},
    {"band-aged", FINDING_NOTE, FINDING_DAYS, ADVICE_MEASURE,
     "rubber weakens with use and age, so the band pulls less than it did", COMMON},
    {"anchor-off-centre", FINDING_CAUTION, FINDING_SHARE, ADVICE_MEND_GEAR,
     "a band that does not pull straight down or up drags the bar forward or back", "Swinton, Keogh & Lake"},
    {"setup-changed", FINDING_CAUTION, FINDING_KG, ADVICE_KEEP_SETUP,
     "straight weight shows overload only while the set-up stays the same", COMMON},
    {"share-out-of-range", FINDING_CAUTION, FINDING_SHARE, ADVICE_CHOOSE_LOADS,
     "too little chain or band leaves the top of the lift unloaded; too much slows the bar or leaves the bottom too "
     "light",
     COMMON},
    {"step-uneven", FINDING_CAUTION, FINDING_SHARE, ADVICE_CHOOSE_LOADS,
     "a speed wave rises by even steps, so that each week adds the same amount", COMMON},
    {"speed-too-heavy", FINDING_CAUTION, FINDING_SHARE, ADVICE_CHOOSE_LOADS, "a bar this heavy cannot be moved fast",
     COMMON},
    {"speed-too-light", FINDING_CAUTION, FINDING_SHARE, ADVICE_CHOOSE_LOADS,
     "a bar this light takes little force to move", COMMON},
    {"share-jump", FINDING_CAUTION, FINDING_SHARE, ADVICE_CHOOSE_LOADS,
     "chains and bands are best added in small steps", COMMON},
    {"bands-before-chains", FINDING_NOTE, FINDING_PLAIN, ADVICE_CHOOSE_LOADS,
     "light chains are easier to begin with: they hang still and do not pull the bar down", COMMON},
    {"one-rep-max-stale", FINDING_NOTE, FINDING_DAYS, ADVICE_MEASURE,
     "a percentage of the 1RM is only as good as the 1RM behind it", COMMON},
    {"volume-jump", FINDING_CAUTION, FINDING_PLAIN, ADVICE_CHOOSE_LOADS, "volume is best raised in small steps",
     COMMON},
    {"slip", FINDING_CAUTION, FINDING_KG, ADVICE_MEASURE,
     "bests, verdicts and estimates leave the set out until the log is corrected or the line is confirmed in the gym "
     "file",
     "Hampel 1974"},
    {"load-impossible", FINDING_FAULT, FINDING_SHARE, ADVICE_MEASURE,
     "a load like this is not possible, so a measurement is wrong; bests, verdicts and estimates leave the set out",
     COMMON},
};

const struct limit_row limit_rows[LIMIT_COUNT] = {
    {"chain-swings", FINDING_LINKS, 1}, /* on the floor at the top */
    {"chain-mostly-straight", FINDING_SHARE, 0.70},
    {"chain-mass-estimated", FINDING_KG, 0},
    {"band-slack", FINDING_KG, 0},
    {"band-over-range", FINDING_SHARE, 0.05},
    {"band-mismatch", FINDING_SHARE, 0.05},
    {"band-unpaired", FINDING_PLAIN, 0},
    {"band-aged", FINDING_DAYS, 180},
    {"anchor-off-centre", FINDING_SHARE, 0.05},
    {"setup-changed", FINDING_KG, 0},
    {"share-out-of-range", FINDING_SHARE, 0.25},
    {"step-uneven", FINDING_SHARE, 0.015},
    {"speed-too-heavy", FINDING_SHARE, 0.65},
    {"speed-too-light", FINDING_SHARE, 0.45},
    {"share-jump", FINDING_SHARE, 0.10},
    {"bands-before-chains", FINDING_PLAIN, 0},
    {"one-rep-max-stale", FINDING_DAYS, 182},
    {"volume-jump", FINDING_PLAIN, 1.5},
    {"slip", FINDING_KG, 0}, /* off or not */
    {"load-impossible", FINDING_SHARE, 0.05},
    [LIMIT_BAND_AGED_LOSS] = {"band-aged-loss", FINDING_SHARE, 0.05},
    [LIMIT_SHARE_LEAST] = {"share-out-of-range-least", FINDING_SHARE, 0.15},
    [LIMIT_SHARE_CHAIN] = {"share-out-of-range-chain", FINDING_SHARE, 0.60},
    [LIMIT_SHARE_BAND] = {"share-out-of-range-band", FINDING_SHARE, 0.50},
    [LIMIT_STEP_PLANNED] = {"step-uneven-step", FINDING_SHARE, 0.05},
    [LIMIT_SHARE_FIRST] = {"share-jump-first", FINDING_SHARE, 0.20},
};

static const char *const severity_names[] = {"note", "caution", "fault"};

const char *finding_severity_name(enum finding_severity severity)
{
    return severity_names[severity];
}

bool finding_severity_read(const char *name, enum finding_severity *severity)
{
    for (int i = FINDING_NOTE; i <= FINDING_FAULT; i++) {
        if (strcmp(name, severity_names[i]))
            continue;
        *severity = (enum finding_severity)i;
        return true;
    }
    return false;
}

const char *finding_advice_words(enum finding_advice advice)
{
    static const char *const words[ADVICE_COUNT] = {
        [ADVICE_MEND_GEAR] = "Fix the set-up",
        [ADVICE_KEEP_SETUP] = "Keep one set-up through a wave",
        [ADVICE_CHOOSE_LOADS] = "Reconsider the loads",
        [ADVICE_MEASURE] = "Measure and test again",
    };
    return words[advice];
}

/* --- limits ------------------------------------------------------------------------------------------------------- */

static void set_limit(struct findings_maker *maker, const struct finding_limit *limit)
{
    for (size_t i = 0; i < LIMIT_COUNT; i++) {
        if (!text_same_name(limit->id, limit_rows[i].id))
            continue;
        bool in_percent = limit_rows[i].unit == FINDING_SHARE && limit->value >= 1;
        maker->limits[i] = limit->off ? NAN : in_percent ? limit->value / 100 : limit->value;
        if (i < FINDING_COUNT)
            maker->off[i] = limit->off;
    }
}

static void set_limits(struct findings_maker *maker)
{
    const struct gym *gym = maker->training->gym;
    for (size_t i = 0; i < LIMIT_COUNT; i++)
        maker->limits[i] = limit_rows[i].number;
    for (size_t i = 0; i < gym->limit_count; i++)
        set_limit(maker, &gym->limits[i]);
}

/* --- all together ------------------------------------------------------------------------------------------------- */

/* One sentence. Several days are said; one day is the finding's own. */
static void finish(struct findings_maker *maker, struct finding *finding)
{
    const char *until = "";
    finding->what = arena_copy(maker->arena, finding->fact);
    if (finding->last->set->day != finding->first->set->day)
        until = arena_printf(maker->scratch, ", to %s", day_words(maker, finding->last->set->day));
    finding->fact = arena_printf(maker->arena, "%s (%zu %s%s)", finding->fact, finding->sets,
                                 finding->sets == 1 ? "set" : "sets", until);
    finding->message = arena_printf(maker->arena, "%s: %s", finding->fact, finding_kinds[finding->id].why);
}

static int by_place(const void *a, const void *b)
{
    const struct finding *left = *(struct finding *const *)a, *right = *(struct finding *const *)b;
    int order = strcmp(left->first->lifter, right->first->lifter);
    order = order ? order : strcmp(left->first->lift, right->first->lift);
    if (order)
        return order;
    if (comes_before(left->first, right->first) || comes_before(right->first, left->first))
        return comes_before(left->first, right->first) ? -1 : 1;
    return left->id != right->id ? (left->id > right->id) - (left->id < right->id)
                                 : strcmp(left->message, right->message);
}

static bool is_wanted(const struct findings_maker *maker, enum finding_id id)
{
    return !maker->off[id] && maker->options->ids >> id & 1 && finding_kinds[id].severity >= maker->options->least;
}

static const struct findings *collect(struct findings_maker *maker)
{
    struct findings *findings = ARENA_NEW(maker->arena, struct findings);
    struct finding **kept = ARENA_ARRAY(maker->arena, struct finding *, maker->list.count);
    size_t count = 0;
    for (size_t i = 0; i < maker->list.count; i++) {
        struct finding *finding = maker->list.items[i];
        if (!is_wanted(maker, finding->id))
            continue;
        finish(maker, finding);
        kept[count++] = finding;
    }
    if (count)
        qsort(kept, count, sizeof *kept, by_place);
    *findings = (struct findings){(const struct finding *const *)kept, count, maker->training->log};
    return findings;
}

static bool is_of(const struct lift_sets *sets, const char *lifter, const char *lift)
{
    return !strcmp(sets->lift, lift) && !strcmp(sets->lifter, lifter);
}

/* Waves and weeks are in the order of the lifts; those of one lift are adjacent. */
struct reviewing
{
    const struct waves *waves;
    size_t wave, week; /* next */
};

static struct lift_review review_lift(struct reviewing *next, const struct gym *gym, const struct lift_sets *sets)
{
    const struct waves *waves = next->waves;
    struct lift_review review = {.sets = *sets, .lifter = gym_lifter(gym, sets->lifter)};
    for (; next->wave < waves->wave_count; next->wave++, review.wave_count++)
        if (!is_of(sets, waves->waves[next->wave].weeks->lifter, waves->waves[next->wave].weeks->lift))
            break;
    for (; next->week < waves->all_count; next->week++, review.week_count++)
        if (!is_of(sets, waves->all[next->week].lifter, waves->all[next->week].lift))
            break;
    if (review.wave_count)
        review.waves = &waves->waves[next->wave - review.wave_count];
    if (review.week_count)
        review.weeks = &waves->all[next->week - review.week_count];
    return review;
}

static void find_in_lifts(struct findings_maker *maker, struct reviewing next)
{
    size_t count;
    const struct lift_sets *lifts = training_by_lift(maker->scratch, maker->training, &count);
    for (size_t i = 0; i < count; i++) {
        struct lift_review review = review_lift(&next, maker->training->gym, &lifts[i]);
        find_in_gear(maker, &review);
        find_in_waves(maker, &review);
        find_in_load(maker, &review);
        find_doubts(maker, &review);
    }
}

const struct findings *findings_from_waves(struct arena *arena, const struct training *training,
                                           const struct waves *waves, const struct findings_options *options)
{
    struct findings_maker maker = {.arena = arena, .scratch = arena_new(), .training = training, .options = options};
    maker.first_weeks = first_weeks_with_ar(maker.scratch, training->log);
    set_limits(&maker);
    maker.slips = slips_by_set(maker.scratch, training);
    find_in_lifts(&maker, (struct reviewing){.waves = waves});
    for (size_t start = 0, end; start < training->count; start = end) {
        for (end = start; end < training->count && training->sets[end].set->lifter == training->sets[start].set->lifter;
             end++)
            ;
        find_of_gear(&maker, &training->sets[start], end - start);
    }
    const struct findings *findings = collect(&maker);
    arena_free(maker.scratch);
    return findings;
}

const struct findings *findings_make(struct arena *arena, const struct training *training,
                                     const struct findings_options *options)
{
    struct arena *scratch = arena_new();
    const struct waves *waves = waves_make(scratch, training);
    const struct findings *findings = findings_from_waves(arena, training, waves, options);
    arena_free(scratch);
    return findings;
}

bool findings_have(const struct findings *findings, enum finding_severity severity)
{
    for (size_t i = 0; i < findings->count; i++)
        if (finding_kinds[findings->items[i]->id].severity >= severity)
            return true;
    return false;
}
