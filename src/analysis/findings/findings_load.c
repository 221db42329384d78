#include "analysis/findings/findings_load.h"

#include "analysis/findings/findings_maker.h"

#include <math.h>

/* --- the 1RM in force --------------------------------------------------------------------------------------------- */

static void look_at_test(struct findings_maker *maker, struct episodes *episodes, const struct lifted *set,
                         size_t session)
{
    double days = (double)set->set->day - set->one_rm.day, limit = maker->limits[FINDING_ONE_REP_MAX_STALE];
    if (!is_above(days, limit))
        return;
    struct finding *finding = episode_finding(maker, episodes, FINDING_ONE_REP_MAX_STALE, "old", session);
    finding_add(finding, set);
    if (finding_worsens(finding, days, limit))
        finding->fact = arena_printf(maker->scratch, "the 1RM of %s was tested on %s, up to %.0f days before",
                                     load_words(maker, set->one_rm.kg), day_words(maker, set->one_rm.day), days);
}

/* No number is beyond the limit here: there is no test to be old. */
static void look_at_estimate(struct findings_maker *maker, struct episodes *episodes, const struct lifted *set,
                             size_t session)
{
    struct finding *finding = episode_finding(maker, episodes, FINDING_ONE_REP_MAX_STALE, "estimate", session);
    finding_add(finding, set);
    finding->limit = maker->limits[FINDING_ONE_REP_MAX_STALE];
    finding->source = "Hutchins & Gearhart 2010";
    finding->fact = "no 1RM was tested, and an estimate stands in";
}

/* Sets that have no 1RM at all rest on none and part no run. */
static void look_at_one_rm(struct findings_maker *maker, const struct lift_review *lift)
{
    struct episodes episodes = {0};
    day_number day = NO_DAY;
    size_t session = 0;
    for (size_t i = 0; i < lift->sets.count; i++) {
        const struct lifted *set = lift->sets.sets[i];
        if (!is_work(set) || !(set->one_rm.kg > 0))
            continue;
        session += set->set->day != day;
        day = set->set->day;
        if (set->one_rm.from == ONE_RM_TESTED)
            look_at_test(maker, &episodes, set, session);
        else
            look_at_estimate(maker, &episodes, set, session);
    }
}

/* --- volume ------------------------------------------------------------------------------------------------------- */

#define WEEKS_BEFORE  4
#define LEAST_TRAINED 2 /* among them: one week is no habit */

/* Mean volume of the trained weeks among those before; NAN: too few. */
static double habit_kg(const struct trend_week *weeks, size_t i)
{
    double sum = 0;
    size_t trained = 0;
    for (size_t j = i > WEEKS_BEFORE ? i - WEEKS_BEFORE : 0; j < i; j++) {
        if (!(weeks[j].volume_kg[LOAD_MEAN] > 0))
            continue;
        sum += weeks[j].volume_kg[LOAD_MEAN];
        trained++;
    }
    return trained >= LEAST_TRAINED ? sum / (double)trained : NAN;
}

static void look_at_volume(struct findings_maker *maker, const struct lift_review *lift)
{
    day_number today = maker->training->options.today;
    double limit = maker->limits[FINDING_VOLUME_JUMP];
    struct finding *finding = NULL; /* of the run of weeks that ends with the week before */
    for (size_t i = 0; i < lift->trend_count; i++) {
        const struct trend_week *week = &lift->trend[i];
        double volume_kg = week->volume_kg[LOAD_MEAN], times = volume_kg / habit_kg(lift->trend, i);
        bool is_over = today == NO_DAY || week->week != week_of(today);
        if (!is_over || !is_above(times, limit)) {
            finding = week->sets ? NULL : finding;
            continue;
        }
        finding = finding ? finding : finding_new(maker, FINDING_VOLUME_JUMP);
        finding_add_all(finding, lift, week->week);
        if (finding_worsens(finding, times, limit))
            finding->fact = arena_printf(maker->scratch,
                                         "volume load in %s is %.1f times the mean of the trained weeks among the "
                                         "%d before",
                                         week_words(maker, week->week), times, WEEKS_BEFORE);
    }
}

void find_in_load(struct findings_maker *maker, const struct lift_review *lift)
{
    look_at_one_rm(maker, lift);
    look_at_volume(maker, lift);
}
