#include "analysis/load_velocity.h"

#include "analysis/evaluated_set.h"
#include "base/names.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_fit.h>
#include <gsl/gsl_sort.h>
#include <gsl/gsl_statistics.h>
#include <math.h>
#include <string.h>

#define SAME_KG 1e-9 /* smaller differences are rounding */

/* --- the line ----------------------------------------------------------------------------------------------------------- */

struct line_fit line_fit(const double *x, const double *y, size_t count)
{
    struct line_fit fit = {count, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN};
    double intercept, slope, cov_00, cov_01, cov_11, squares;
    if (count < 3)
        return fit;
    fit.x_mean = gsl_stats_mean(x, 1, count);
    fit.x_squares = gsl_stats_tss_m(x, 1, count, fit.x_mean);
    if (!(fit.x_squares > 0) ||
        gsl_fit_linear(x, 1, y, 1, count, &intercept, &slope, &cov_00, &cov_01, &cov_11, &squares))
        return fit;
    fit.intercept = intercept;
    fit.slope = slope;
    fit.intercept_se = sqrt(cov_00);
    fit.slope_se = sqrt(cov_11);
    fit.residual_sd = sqrt(squares / (double)(count - 2));
    fit.r2 = 1 - squares / gsl_stats_tss(y, 1, count);
    return fit;
}

struct interval line_at(const struct line_fit *fit, double x, double confidence)
{
    double n = (double)fit->points, away = x - fit->x_mean;
    struct interval interval = {fit->intercept + fit->slope * x, NAN, NAN};
    if (isnan(interval.at))
        return interval;
    double half = gsl_cdf_tdist_Pinv(0.5 + confidence / 2, n - 2) * fit->residual_sd *
                  sqrt(1 / n + away * away / fit->x_squares);
    interval.low = interval.at - half;
    interval.high = interval.at + half;
    return interval;
}

/* --- a lift's profile ---------------------------------------------------------------------------------------------------- */

static bool is_measured(const struct evaluated_set *set)
{
    return is_work(set) && set->set->velocity_ms > 0;
}

/* Sets of one line are adjacent. */
static bool same_line(const struct evaluated_set *a, const struct evaluated_set *b)
{
    return a->set->file == b->set->file && a->set->line == b->set->line;
}

static size_t distinct(struct arena *scratch, const double *values, size_t count)
{
    double *sorted = ARENA_ARRAY(scratch, double, count);
    size_t found = 0;
    for (size_t i = 0; i < count; i++)
        sorted[i] = values[i];
    gsl_sort(sorted, 1, count);
    for (size_t i = 0; i < count; i++)
        found += !i || sorted[i] - sorted[i - 1] > SAME_KG;
    return found;
}

struct points
{
    double *velocity_ms, *load_kg;
    size_t count;
};

static struct points points_new(struct arena *scratch, size_t most)
{
    return (struct points){ARENA_ARRAY(scratch, double, most), ARENA_ARRAY(scratch, double, most), 0};
}

static void points_add(struct points *points, double velocity_ms, double load_kg)
{
    points->velocity_ms[points->count] = velocity_ms;
    points->load_kg[points->count++] = load_kg;
}

static void fit_profile(struct arena *scratch, struct velocity_profile *profile, const struct points *points)
{
    profile->lines = points->count;
    profile->low_ms = profile->high_ms = NAN;
    profile->loads = distinct(scratch, points->load_kg, points->count);
    profile->fit = line_fit(NULL, NULL, 0);
    if (points->count)
        gsl_stats_minmax(&profile->low_ms, &profile->high_ms, points->velocity_ms, 1, points->count);
    profile->state = VELOCITY_TOO_FEW_LOADS;
    if (profile->loads < VELOCITY_LEAST_LOADS)
        return;
    profile->fit = line_fit(points->velocity_ms, points->load_kg, points->count);
    profile->state = isnan(profile->fit.slope) ? VELOCITY_ALL_ALIKE : VELOCITY_FITTED;
}

/* AR sets whose velocity is within the range of the line. */
static double mean_over_line(const struct velocity_profile *profile, const struct points *ar)
{
    double sum = 0;
    size_t count = 0;
    for (size_t i = 0; i < ar->count; i++) {
        double velocity_ms = ar->velocity_ms[i];
        if (isnan(ar->load_kg[i]) || !(velocity_ms >= profile->low_ms && velocity_ms <= profile->high_ms))
            continue;
        sum += ar->load_kg[i] - line_at(&profile->fit, velocity_ms, VELOCITY_CONFIDENCE).at;
        count++;
    }
    return count ? sum / (double)count : NAN;
}

static void set_ar_apart(struct velocity_profile *profile, const struct points *ar)
{
    double loads_kg = 0;
    size_t known = 0;
    for (size_t i = 0; i < ar->count; i++) {
        if (isnan(ar->load_kg[i]))
            continue;
        loads_kg += ar->load_kg[i];
        known++;
    }
    profile->ar_lines = ar->count;
    profile->ar_velocity_ms = ar->count ? gsl_stats_mean(ar->velocity_ms, 1, ar->count) : NAN;
    profile->ar_mean_kg = known ? loads_kg / (double)known : NAN;
    profile->ar_over_kg = mean_over_line(profile, ar);
}

static bool profile_of(struct arena *scratch, const struct lift_sets *sets, struct velocity_profile *profile)
{
    struct points straight = points_new(scratch, sets->count), ar = points_new(scratch, sets->count);
    const struct evaluated_set *before = NULL;
    for (size_t i = 0; i < sets->count; i++) {
        const struct evaluated_set *set = sets->sets[i];
        if (!is_measured(set) || (before && same_line(set, before)))
            continue;
        before = set;
        if (set->has_ar)
            points_add(&ar, set->set->velocity_ms, known_load(set, LOAD_MEAN));
        else if (set->effect->straight_kg > 0)
            points_add(&straight, set->set->velocity_ms, set->effect->straight_kg);
    }
    *profile = (struct velocity_profile){.lifter = sets->lifter, .lift = sets->lift};
    fit_profile(scratch, profile, &straight);
    set_ar_apart(profile, &ar);
    return straight.count || ar.count;
}

const struct velocity_profile *velocity_profiles(struct arena *arena, const struct training *training, size_t *count)
{
    LIST(struct velocity_profile) profiles = {0};
    struct arena *scratch = arena_new(), *of_lift = arena_new();
    size_t lift_count;
    const struct lift_sets *lifts = training_by_lift(scratch, training, &lift_count);
    for (size_t i = 0; i < lift_count; i++) {
        struct velocity_profile profile;
        if (profile_of(of_lift, &lifts[i], &profile))
            *LIST_ADD(arena, &profiles) = profile;
        arena_reset(of_lift);
    }
    arena_free(of_lift);
    arena_free(scratch);
    *count = profiles.count;
    return profiles.items;
}

/* --- velocity loss of a session ----------------------------------------------------------------------------------- */

static void add_line(struct speed_loss *loss, const struct evaluated_set *set)
{
    double velocity_ms = set->set->velocity_ms;
    if (loss->last && same_line(set, loss->last))
        return;
    loss->slowest_ms = loss->lines ? fmin(loss->slowest_ms, velocity_ms) : velocity_ms;
    loss->fastest_ms = fmax(loss->fastest_ms, velocity_ms);
    loss->first = loss->first ? loss->first : set;
    loss->last = set;
    loss->lines++;
}

/* Sets with the same key have the same load. If the bodyweight is unknown, only loads written in the same way are
 * equal; a set without a weight does not equal any other: NULL. */
static const char *load_key(struct arena *scratch, const struct evaluated_set *set)
{
    double straight_kg = set->effect->straight_kg;
    if (set->set->weight->straight == STRAIGHT_NONE)
        return NULL;
    return isnan(straight_kg) ? arena_printf(scratch, "load %u %s", set->set->weight->straight_id, set->ar_key)
                              : arena_printf(scratch, "%.9g %s", straight_kg, set->ar_key);
}

/* One day's sets by load and AR; the load that most lines have. False: no load has two lines. */
static bool loss_of_day(struct arena *scratch, const struct evaluated_set *const *sets, size_t count,
                        struct speed_loss *most)
{
    LIST(struct speed_loss *) losses = {0};
    struct map *by_load = map_new(scratch);
    *most = (struct speed_loss){0};
    for (size_t i = 0; i < count; i++) {
        if (sets[i]->focus != FOCUS_SPEED || !is_measured(sets[i]))
            continue;
        const char *key = load_key(scratch, sets[i]);
        if (!key)
            continue;
        struct speed_loss *loss = map_get(by_load, key, strlen(key));
        if (!loss) {
            loss = *LIST_ADD(scratch, &losses) = ARENA_NEW(scratch, struct speed_loss);
            map_put(by_load, key, strlen(key), loss);
        }
        add_line(loss, sets[i]);
    }
    for (size_t i = 0; i < losses.count; i++)
        if (losses.items[i]->lines > most->lines)
            *most = *losses.items[i];
    if (most->lines < 2)
        return false;
    double first_ms = most->first->set->velocity_ms;
    most->loss = (first_ms - most->last->set->velocity_ms) / first_ms;
    return true;
}

const struct speed_loss *speed_losses(struct arena *arena, const struct training *training, size_t *count)
{
    LIST(struct speed_loss) losses = {0};
    struct arena *scratch = arena_new(), *of_day = arena_new();
    size_t lift_count;
    const struct lift_sets *lifts = training_by_lift(scratch, training, &lift_count);
    for (size_t i = 0; i < lift_count; i++) {
        const struct lift_sets *lift = &lifts[i];
        for (size_t start = 0, end; start < lift->count; start = end) {
            struct speed_loss loss;
            for (end = start; end < lift->count && lift->sets[end]->set->day == lift->sets[start]->set->day; end++)
                ;
            if (loss_of_day(of_day, lift->sets + start, end - start, &loss))
                *LIST_ADD(arena, &losses) = loss;
            arena_reset(of_day);
        }
    }
    arena_free(of_day);
    arena_free(scratch);
    *count = losses.count;
    return losses.items;
}
