#include "model/heights.h"

#include "model/effect.h"

#include "base/text.h"

#include <math.h>

/* Fractions of stature: Drillis & Contini 1966, in Winter, Biomechanics and Motor Control of Human Movement, 4th ed.
 * 2009, fig. 4.1. The bar lies on the shoulders; at the bottom the hip is at the knee's height and the trunk leans. */
#define SHOULDER_HEIGHT 0.818
#define KNEE_HEIGHT 0.285
#define HIP_TO_SHOULDER 0.288
#define LEAN_DEGREES 40.0 /* of the trunk from the vertical: an assumption */

bool heights_from_stature(const char *lift, double stature_m, double *bottom_m, double *top_m)
{
    if (!lift || !text_same_name(lift, "squat") || !(stature_m > 0) || !isfinite(stature_m))
        return false;
    *bottom_m = (KNEE_HEIGHT + HIP_TO_SHOULDER * cos(LEAN_DEGREES * M_PI / 180)) * stature_m;
    *top_m = SHOULDER_HEIGHT * stature_m;
    return true;
}

static bool same_lift(const struct gym *gym, const char *a, const char *b)
{
    if (!a || !b)
        return false;
    const struct lift *lift = gym_lift(gym, a);
    return text_same_name(a, b) || (lift && lift == gym_lift(gym, b));
}

static const struct bar_heights *measured_heights(const struct gym *gym, const struct lifter *lifter, const char *lift)
{
    const struct bar_heights *heights = lifter_heights(lifter, lift);
    for (size_t i = 0; !heights && i < lifter->height_count; i++)
        if (same_lift(gym, lifter->heights[i].lift, lift))
            heights = &lifter->heights[i];
    bool usable = heights && isfinite(heights->bottom_m) && isfinite(heights->top_m) &&
                  heights->bottom_m < heights->top_m;
    return usable ? heights : NULL;
}

bool heights_find(const struct gym *gym, const struct lifter *lifter, const char *lift, double *bottom_m, double *top_m,
                  bool *estimated)
{
    *estimated = false;
    *bottom_m = *top_m = NAN;
    if (!lifter || !lift)
        return false;
    const struct bar_heights *measured = measured_heights(gym, lifter, lift);
    if (measured) {
        *bottom_m = measured->bottom_m;
        *top_m = measured->top_m;
        return true;
    }
    const char *squat = same_lift(gym, lift, "squat") ? "squat" : lift;
    *estimated = heights_from_stature(squat, lifter->stature_m, bottom_m, top_m);
    return *estimated;
}
