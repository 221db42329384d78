/* The weeks of a plan and their straight weights: from percentages, from the last wave, or from common practice. */
#include "analysis/plan/plan_weeks.h"

#include "analysis/verdict.h"

#include <math.h>
#include <string.h>

/* Of a speed wave for which no other percentages are given (common practice, no source). */
static const double speed_shares[] = {0.50, 0.55, 0.60};
#define SPEED_SHARES (sizeof speed_shares / sizeof *speed_shares)
#define USUAL_STEP 0.05
#define SAME_KG 1e-9

/* --- how the weights are worked out ------------------------------------------------------------------------------- */

static day_number last_day(const struct wave *wave)
{
    return wave->weeks[wave->count - 1].working->set->day;
}

/* A 1RM that was tested after the last wave calls for new percentages. */
static bool has_newer_test(const struct plan_maker *maker)
{
    const struct plan *plan = maker->plan;
    return plan->one_rm.from == ONE_RM_TESTED && (plan->one_rm_said || plan->one_rm.day > last_day(plan->last));
}

/* Of the 1RM that was current then; of today's if there was none. */
static const double *shares_of_last(struct plan_maker *maker, size_t *count)
{
    const struct wave *last = maker->plan->last;
    *count = last->count;
    double *shares = ARENA_ARRAY(maker->arena, double, *count);
    for (size_t i = 0; i < *count; i++) {
        double then_kg = last->weeks[i].working->one_rm.kg;
        shares[i] = last->weeks[i].load_kg[LOAD_STRAIGHT] / (then_kg > 0 ? then_kg : maker->plan->one_rm.kg);
    }
    return shares;
}

static enum plan_basis basis_of(const struct plan_maker *maker)
{
    const struct plan_wish *wish = maker->wish;
    if (wish->shares || !isnan(wish->step))
        return PLAN_FROM_PERCENT;
    if (!maker->plan->last)
        return PLAN_FROM_PRACTICE;
    return has_newer_test(maker) && !maker->plan->done ? PLAN_FROM_TEST : PLAN_FROM_WAVE;
}

/* The shares to use: the wish's, those of speed work, or the last wave's. */
static const double *given_shares(struct plan_maker *maker, size_t *count)
{
    const struct plan_wish *wish = maker->wish;
    *count = wish->shares ? wish->share_count : SPEED_SHARES;
    if (wish->shares)
        return wish->shares;
    if (wish->focus == FOCUS_SPEED) {
        *count = isnan(wish->step) ? SPEED_SHARES : 1;
        return speed_shares;
    }
    *count = 0;
    return maker->plan->last ? shares_of_last(maker, count) : NULL;
}

/* --- from the last wave --------------------------------------------------------------------------------------------- */

static const struct verdict *verdict_of(const struct plan_maker *maker)
{
    const struct verdict *verdicts = maker->shared->verdicts;
    for (size_t i = 0; i < maker->shared->verdict_count; i++)
        if (verdicts[i].focus == maker->plan->focus && !strcmp(verdicts[i].lift, maker->plan->last->weeks->lift))
            return &verdicts[i];
    return NULL;
}

/* The lifter's own step from wave to wave; at least one pair of the smallest plates, at most PLAN_MOST_RAISE of the
 * load. */
static void settle_raise(struct plan_maker *maker)
{
    struct plan *plan = maker->plan;
    const struct verdict *verdict = verdict_of(maker);
    double slope_kg = verdict ? verdict->trend.slope_kg[LOAD_STRAIGHT] : NAN;
    double most_kg = PLAN_MOST_RAISE * plan->last->weeks->load_kg[LOAD_STRAIGHT], least_kg = rack_step_kg(&plan->rack);
    bool by_week = verdict && verdict->trend.by_week;
    plan->slope_kg = by_week ? NAN : slope_kg;
    if (maker->wish->raise_said) {
        plan->raise_kg = maker->wish->raise_kg;
        plan->raised_by = PLAN_RAISED_AS_SAID;
    } else if (!(plan->slope_kg > least_kg)) {
        plan->raise_kg = least_kg;
        plan->raised_by = PLAN_RAISED_BY_PLATES;
    } else {
        plan->raise_kg = fmin(plan->slope_kg, fmax(most_kg, least_kg));
        plan->raised_by = plan->raise_kg < plan->slope_kg ? PLAN_RAISED_TO_LIMIT : PLAN_RAISED_BY_SLOPE;
    }
}

/* Speed work stays below the limit of speed-too-heavy, unless the last wave exceeded it. */
static double most_straight_kg(const struct plan_maker *maker, const struct wave_week *before)
{
    const struct plan *plan = maker->plan;
    double last_kg = before->load_kg[LOAD_STRAIGHT];
    if (!(plan->one_rm.kg > 0) || plan->one_rm.from != ONE_RM_TESTED || maker->wish->focus != FOCUS_SPEED)
        return INFINITY;
    return fmax(last_kg, limit_rows[FINDING_SPEED_TOO_HEAVY].number * plan->one_rm.kg);
}

/* Equal steps from the first load to the last. */
static double even_kg(const struct wave *wave, size_t at)
{
    double first_kg = wave->weeks[0].load_kg[LOAD_STRAIGHT],
           last_kg = wave->weeks[wave->count - 1].load_kg[LOAD_STRAIGHT];
    return wave->count > 1 ? first_kg + (last_kg - first_kg) * (double)at / (double)(wave->count - 1) : first_kg;
}

/* A wave that `audit` calls uneven, and not only because equal steps are larger or smaller than planned. A doubtful
 * first or last load says nothing about the steps between. */
static bool needs_evening(const struct plan_maker *maker)
{
    const struct wave *last = maker->plan->last;
    if (maker->wish->raise_said || maker->wish->keep_steps || last->weeks[0].far_off ||
        last->weeks[last->count - 1].far_off || !wave_steps_uneven(&maker->gym, last))
        return false;
    for (size_t i = 1; i + 1 < last->count; i++)
        if (fabs(even_kg(last, i) - last->weeks[i].load_kg[LOAD_STRAIGHT]) >
            rack_step_kg(&maker->plan->rack) / 2 + SAME_KG)
            return true;
    return false;
}

/* Of a week of the last wave, which the plan starts from; beyond its end, the weights rise as in its last two. */
static double base_kg(const struct plan *plan, size_t at)
{
    const struct wave *last = plan->last;
    if (plan->evened)
        return even_kg(last, at);
    size_t known = at < last->count ? at : last->count - 1;
    double known_kg = last->weeks[known].load_kg[LOAD_STRAIGHT];
    double step_kg = known ? known_kg - last->weeks[known - 1].load_kg[LOAD_STRAIGHT] : 0;
    return known_kg + step_kg * (double)(at - known);
}

static void lay_out_from_wave(struct plan_maker *maker)
{
    struct plan *plan = maker->plan;
    const struct wave *last = plan->last;
    settle_raise(maker);
    plan->evened = needs_evening(maker);
    for (size_t i = 0; i < plan->week_count; i++) {
        struct plan_week *week = &maker->weeks[i];
        size_t at = plan->done + i, known = at < last->count ? at : last->count - 1;
        double target_kg = base_kg(plan, at) + plan->raise_kg;
        week->target_kg = fmin(target_kg, most_straight_kg(maker, &last->weeks[known]));
        plan->held |= week->target_kg < target_kg - SAME_KG;
        week->target_share = plan->one_rm.kg > 0 ? week->target_kg / plan->one_rm.kg : NAN;
        week->least_kg = plan->raise_kg < 0 ? 0 : base_kg(plan, known);
    }
}

static void lay_out_from_shares(struct plan_maker *maker, const double *shares, size_t given)
{
    double step = !isnan(maker->wish->step) ? maker->wish->step
                  : given > 1               ? shares[given - 1] - shares[given - 2]
                                            : USUAL_STEP;
    for (size_t i = 0; i < maker->plan->week_count; i++) {
        struct plan_week *week = &maker->weeks[i];
        week->target_share = i < given ? shares[i] : shares[given - 1] + step * (double)(i - given + 1);
        week->target_kg = week->target_share * maker->plan->one_rm.kg;
    }
}

/* --- weeks ---------------------------------------------------------------------------------------------------------- */

enum plan_state plan_lay_out(struct plan_maker *maker)
{
    const struct plan_wish *wish = maker->wish;
    struct plan *plan = maker->plan;
    size_t given = 0, usual;
    plan->basis = basis_of(maker);
    if (plan->basis != PLAN_FROM_WAVE && !(plan->one_rm.kg > 0))
        return PLAN_NO_ONE_RM;
    const double *shares = plan->basis == PLAN_FROM_WAVE ? NULL : given_shares(maker, &given);
    if (plan->basis == PLAN_FROM_WAVE)
        usual = plan->done < maker->usual_weeks ? maker->usual_weeks - plan->done : plan->last->count;
    else
        usual = given > 1 || isnan(wish->step) ? given : SPEED_SHARES;
    if (!usual)
        return PLAN_NO_SHARES;
    plan->week_count = wish->weeks ? wish->weeks : usual;
    maker->weeks = ARENA_ARRAY(maker->arena, struct plan_week, plan->week_count);
    plan->weeks = maker->weeks;
    for (size_t i = 0; i < plan->week_count; i++) {
        struct plan_week *week = &maker->weeks[i];
        size_t at = plan->done + i;
        week->step = (unsigned)at + 1;
        week->day = maker->first_day + 7 * (day_number)i;
        week->week = week_of(week->day);
        week->before = plan->last && at < plan->last->count ? &plan->last->weeks[at] : NULL;
    }
    if (plan->basis == PLAN_FROM_WAVE)
        lay_out_from_wave(maker);
    else
        lay_out_from_shares(maker, shares, given);
    return PLAN_MADE;
}
