#include "analysis/judging/impossible.h"

#include "base/text.h"

#include <math.h>
#include <string.h>

#define LOW_M 0.20 /* a bar on the floor is at 0.225 m with full plates */
#define HIGH_M 2.30
#define LEAST_TRAVEL_M 0.05
#define MOST_TRAVEL_M 1.20
#define TOP_SHARE 1.30 /* of stature, for any lift: raised fingertips reach about as far */
#define SLACK 1e-9     /* floating-point error of a value that equals its limit */

/* Of the stature. Shoulder 0.818, hip 0.530, knee 0.285, arm to the wrist 0.332: Drillis & Contini 1966, in Winter,
 * Biomechanics and Motor Control of Human Movement, 4th ed.; with room for build, stance, shoes and racks, which is
 * common practice. */
static const struct
{
    const char *word; /* in the lift's name */
    double low, high, travel;
} by_stature[] = {
    {"squat", 0.20, 0.95, 0.60},    /* the shoulder at the top */
    {"bench", 0.00, 0.95, 0.45},    /* an arm's length above the chest */
    {"deadlift", 0.00, 0.65, 0.55}, /* the hands of hanging arms, 0.486, at the top */
};

struct height_range height_range_of(const char *lift, double stature_m)
{
    struct height_range range = {LOW_M, HIGH_M, LEAST_TRAVEL_M, MOST_TRAVEL_M};
    if (!(stature_m > 0) || !isfinite(stature_m))
        return range;
    range.high_m = TOP_SHARE * stature_m;
    for (size_t i = 0; lift && i < sizeof by_stature / sizeof *by_stature; i++) {
        if (!strcasestr(lift, by_stature[i].word))
            continue;
        range.low_m = fmax(LOW_M, by_stature[i].low * stature_m);
        range.high_m = by_stature[i].high * stature_m;
        range.most_m = by_stature[i].travel * stature_m;
        break;
    }
    return range;
}

static bool is_outside(double value, double least, double most)
{
    return value < least - SLACK || value > most + SLACK;
}

static bool has_impossible_heights(const struct loading *loading, const char *lift, double stature_m)
{
    struct height_range range = height_range_of(lift, stature_m);
    return is_outside(loading->bottom_m, range.low_m, range.high_m) ||
           is_outside(loading->top_m, range.low_m, range.high_m) ||
           is_outside(loading->top_m - loading->bottom_m, range.least_m, range.most_m);
}

double stretch_beyond(const struct loading *loading, const struct hung_band *band)
{
    double flat_m = band_flat_m(band->curve), end_m = band_end_m(band->curve);
    double stretch_m = fmax(band_at(band, loading->bottom_m).stretch_m, band_at(band, loading->top_m).stretch_m);
    return isfinite(end_m) ? (stretch_m - end_m) / (end_m - flat_m) : NAN;
}

static bool is_overstretched(const struct loading *loading)
{
    for (size_t i = 0; i < loading->hung_count; i++)
        if (loading->hung[i].kind == HUNG_BAND && stretch_beyond(loading, &loading->hung[i].band) > 1 + SLACK)
            return true;
    return false;
}

unsigned impossible_loading(const struct loading *loading, const char *lift, double stature_m)
{
    if (!loading->hung_count || !loading->heights_known)
        return 0;
    bool heights = !loading->heights_estimated && has_impossible_heights(loading, lift, stature_m);
    return (heights ? (unsigned)IMPOSSIBLE_HEIGHTS : 0) |
           (is_overstretched(loading) ? (unsigned)IMPOSSIBLE_STRETCH : 0);
}

bool impossible_reps(const struct evaluated_set *evaluated, double above)
{
    const struct one_rm *one_rm = &evaluated->one_rm;
    return is_work(evaluated) && evaluated->set->reps > 1 && one_rm->from == ONE_RM_TESTED &&
           evaluated->set->day - one_rm->day <= IMPOSSIBLE_TEST_DAYS &&
           evaluated->effect->bottom_kg > one_rm->kg * (1 + above) + SLACK;
}
