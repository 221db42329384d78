#include "analysis/findings/findings_load.h"

#include "analysis/findings/findings_maker.h"

#include <math.h>
#include <stdlib.h>

/* --- the current 1RM --------------------------------------------------------------------------------------------- */

static void look_at_test(struct findings_maker *maker, struct episodes *episodes, const struct evaluated_set *set,
                         size_t session)
{
    double days = (double)set->set->day - set->one_rm.day, limit = maker->limits[FINDING_ONE_REP_MAX_STALE];
    if (!is_above(days, limit))
        return;
    struct finding *finding = episode_finding(maker, episodes, FINDING_ONE_REP_MAX_STALE, "old", session);
    finding_add(finding, set);
    if (finding_update_worst(finding, days, limit))
        finding->fact = arena_printf(maker->scratch,
                                     "the 1RM of %s was tested on %s, up to %.0f days before these sets",
                                     load_words(maker, set->one_rm.kg), day_words(maker, set->one_rm.day), days);
}

/* The 1RM was never tested, so the finding cannot give its age. */
static void look_at_estimate(struct findings_maker *maker, struct episodes *episodes, const struct evaluated_set *set,
                             size_t session)
{
    struct finding *finding = episode_finding(maker, episodes, FINDING_ONE_REP_MAX_STALE, "estimate", session);
    finding_add(finding, set);
    finding->limit = maker->limits[FINDING_ONE_REP_MAX_STALE];
    finding->source = "Hutchins & Gearhart 2010";
    finding->fact = "no 1RM was tested, so an estimate is used";
}

/* Sets without any 1RM are skipped, and do not interrupt a run. */
static void look_at_one_rm(struct findings_maker *maker, const struct lift_review *lift)
{
    struct episodes episodes = {0};
    day_number day = NO_DAY;
    size_t session = 0;
    for (size_t i = 0; i < lift->sets.count; i++) {
        const struct evaluated_set *set = lift->sets.sets[i];
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

#define WEEKS_BEFORE 4
#define LEAST_TRAINED 2 /* of these weeks: a single week is not a habit */
#define WEEKS_USED 8    /* a volume reached within these weeks is not new */
#define BEYOND_USED 1.15

struct volume
{
    week_number week;
    double kg; /* above 0 */
    const struct evaluated_set *working;
};

static int by_week(const void *a, const void *b)
{
    const struct volume *left = a, *right = b;
    return (left->week > right->week) - (left->week < right->week);
}

/* The lift's weeks, whatever the focus, as in waves: a session moved over a week's edge counts where it belongs. */
static struct volume *volumes_of(struct arena *scratch, const struct lift_review *lift, size_t *count)
{
    struct volume *volumes = ARENA_ARRAY(scratch, struct volume, lift->week_count);
    size_t known = 0;
    *count = 0;
    for (size_t i = 0; i < lift->week_count; i++)
        if (lift->weeks[i].volume_kg[LOAD_MEAN] > 0)
            volumes[known++] = (struct volume){lift->weeks[i].week, lift->weeks[i].volume_kg[LOAD_MEAN],
                                               lift->weeks[i].working};
    if (known)
        qsort(volumes, known, sizeof *volumes, by_week);
    for (size_t i = 0; i < known; i++) {
        if (*count && volumes[*count - 1].week == volumes[i].week)
            volumes[*count - 1].kg += volumes[i].kg;
        else
            volumes[(*count)++] = volumes[i];
    }
    return volumes;
}

/* Mean volume of the training weeks among the previous ones; NAN: too few. */
static double habit_kg(const struct volume *volumes, size_t i)
{
    double sum = 0;
    size_t trained = 0;
    for (size_t j = i; j-- > 0 && volumes[j].week + WEEKS_BEFORE >= volumes[i].week; trained++)
        sum += volumes[j].kg;
    return trained >= LEAST_TRAINED ? sum / (double)trained : NAN;
}

/* A lifter who returns to a recent volume causes no finding. */
static bool is_used_to(const struct volume *volumes, size_t i)
{
    double most_kg = 0;
    for (size_t j = i; j-- > 0 && volumes[j].week + WEEKS_USED >= volumes[i].week;)
        most_kg = fmax(most_kg, volumes[j].kg);
    return !is_above(volumes[i].kg, BEYOND_USED * most_kg);
}

static void look_at_volume(struct findings_maker *maker, const struct lift_review *lift)
{
    day_number today = maker->training->options.today;
    double limit = maker->limits[FINDING_VOLUME_JUMP];
    struct finding *finding = NULL; /* the finding of the run that ends with the previous week */
    size_t count;
    const struct volume *volumes = volumes_of(maker->scratch, lift, &count);
    for (size_t i = 0; i < count; i++) {
        week_number week = volumes[i].week;
        double times = volumes[i].kg / habit_kg(volumes, i);
        bool is_over = today == NO_DAY || week != week_of(today);
        if (!is_over || !is_above(times, limit) || is_used_to(volumes, i)) {
            finding = NULL;
            continue;
        }
        finding = finding ? finding : finding_new(maker, FINDING_VOLUME_JUMP);
        finding_add_all(finding, lift, week);
        if (!finding->sets) /* its sessions were moved to an adjacent week */
            finding_add(finding, volumes[i].working);
        if (finding_update_worst(finding, times, limit))
            finding->fact = arena_printf(maker->scratch,
                                         "volume load in %s is %.1f times the average of the training weeks among the "
                                         "previous %d",
                                         week_words(maker, week), times, WEEKS_BEFORE);
    }
}

void find_in_load(struct findings_maker *maker, const struct lift_review *lift)
{
    look_at_one_rm(maker, lift);
    look_at_volume(maker, lift);
}
