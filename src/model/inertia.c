#include "model/inertia.h"

#include "base/unit.h"
#include "model/curve.h"

#include <math.h>

struct bar_motion bar_motion_of_peak(double bottom_m, double top_m, double peak_ms)
{
    return (struct bar_motion){bottom_m, top_m, peak_ms * 2 / M_PI};
}

double bar_motion_peak_ms(const struct bar_motion *motion)
{
    return M_PI * motion->mean_ms / 2;
}

/* y */
static double way_done(const struct bar_motion *motion, double height_m)
{
    return (height_m - motion->bottom_m) / (motion->top_m - motion->bottom_m);
}

double bar_motion_speed_ms(const struct bar_motion *motion, double height_m)
{
    double done = way_done(motion, height_m);
    return M_PI * motion->mean_ms * sqrt(fmax(done * (1 - done), 0));
}

double bar_motion_acceleration_ms2(const struct bar_motion *motion, double height_m)
{
    double most = M_PI * M_PI * motion->mean_ms * motion->mean_ms / (2 * (motion->top_m - motion->bottom_m));
    return most * (1 - 2 * way_done(motion, height_m));
}

static bool is_chain(const struct hung *hung)
{
    return hung->piece->kind == PIECE_CHAIN;
}

double loading_moving_kg(const struct loading *loading, double height_m)
{
    double mass = loading->straight_kg;
    for (size_t i = 0; i < loading->hung_count; i++)
        if (is_chain(&loading->hung[i]))
            mass += hung_load_kg(loading, &loading->hung[i], height_m);
    return mass;
}

/* dm/dh, at a kink the upward one. */
static double picked_up_kg_per_m(const struct loading *loading, double height_m)
{
    double slope = 0;
    for (size_t i = 0; i < loading->hung_count; i++) {
        const struct hung *hung = &loading->hung[i];
        if (hung->kind == HUNG_CHAIN)
            slope += hung->times * chain_slope_kg_per_m(&hung->chain, height_m);
        else if (hung->kind == HUNG_RAMP && is_chain(hung))
            slope += (hung->top_kg - hung->bottom_kg) / (loading->top_m - loading->bottom_m);
    }
    return slope;
}

double loading_inertia_kg(const struct loading *loading, const struct bar_motion *motion, double height_m)
{
    if (!loading->heights_known)
        return NAN;
    double speed = bar_motion_speed_ms(motion, height_m);
    double newtons = loading_moving_kg(loading, height_m) * bar_motion_acceleration_ms2(motion, height_m) +
                     picked_up_kg_per_m(loading, height_m) * speed * speed;
    return newtons / STANDARD_GRAVITY_MS2;
}
