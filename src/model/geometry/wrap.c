#include "model/geometry/wrap.h"

#include <math.h>

struct run
{
    double lean; /* θ */
    struct wrap_runs part;
};

/* Of the bar's radius, negative on its other side, to a peg x to the front or back. `rise`: y. */
static struct run run_to(const struct wrap *wrap, double bar_radius_m, double x, double rise)
{
    double between = hypot(x, rise), step = bar_radius_m - wrap->peg_radius_m;
    double tangent = sqrt(fmax((between - step) * (between + step), 0)), length = hypot(tangent, wrap->spread_m);
    double lean = atan2(rise, x) + (between > 0 ? asin(fmax(fmin(step / between, 1), -1)) : 0);
    struct run run = {.lean = lean, .part = {.length_m = length + step * lean}};
    if (!(tangent > 0))
        return run;
    double sine = sin(lean), cosine = cos(lean), in_plane = tangent / length;
    double tangent_rate = rise / tangent, lean_rate = cosine / tangent;
    double in_plane_rate = tangent_rate * (1 - in_plane * in_plane) / length;
    run.part.grows = in_plane * tangent_rate + step * lean_rate;
    run.part.down = in_plane * sine;
    run.part.fore_aft = in_plane * cosine;
    run.part.down_per_m = in_plane_rate * sine + in_plane * cosine * lean_rate;
    return run;
}

/* `sign`: 1 for the peg in front, on the side that the fore-aft pull counts from; -1 for the one behind. */
static void add_run(struct wrap_runs *sum, const struct run *run, double sign)
{
    sum->length_m += run->part.length_m;
    sum->grows += run->part.grows;
    sum->down += run->part.down;
    sum->fore_aft += sign * run->part.fore_aft;
    sum->down_per_m += run->part.down_per_m;
}

/* From peg to peg over the bar; where the bar does not reach up to the straight run between them, that run. */
static struct wrap_runs over_bar(const struct wrap *wrap, double rise_m)
{
    struct run front = run_to(wrap, wrap->bar_radius_m, wrap->apart_m / 2 + wrap->aside_m, rise_m);
    struct run behind = run_to(wrap, wrap->bar_radius_m, wrap->apart_m / 2 - wrap->aside_m, rise_m);
    struct wrap_runs runs = {0};
    if (wrap->apart_m > 0 && front.lean + behind.lean <= 0)
        return (struct wrap_runs){.length_m = wrap->apart_m};
    add_run(&runs, &front, 1);
    add_run(&runs, &behind, -1);
    return runs;
}

static void add_runs_below(struct wrap_runs *runs, const struct wrap_runs *below)
{
    runs->length_m += below->length_m;
    runs->grows -= below->grows;
    runs->down -= below->down;
    runs->fore_aft += below->fore_aft;
    runs->down_per_m += below->down_per_m;
}

/* Round bar and pegs, closed: over the bar and, below it, from peg to peg. */
static struct wrap_runs closed_round(const struct wrap *wrap, double rise_m)
{
    struct wrap_runs runs = over_bar(wrap, rise_m);
    if (wrap->apart_m > 0) {
        struct wrap_runs below = over_bar(wrap, -rise_m);
        add_runs_below(&runs, &below);
    }
    runs.length_m += 2 * M_PI * wrap->peg_radius_m;
    return runs;
}

/* Two strands under the pegs; at each end one comes up to the bar's near side, the other crosses to its far side. */
static struct wrap_runs folded_round(const struct wrap *wrap, double rise_m)
{
    struct wrap_runs runs = {.length_m = 2 * wrap->apart_m + 2 * M_PI * (wrap->bar_radius_m + 2 * wrap->peg_radius_m)};
    for (int across = -1; across <= 1; across += 2) {
        for (int side = -1; side <= 1; side += 2) { /* next to each other, so that equal pulls cancel to the bit */
            struct run run = run_to(wrap, across * wrap->bar_radius_m, wrap->apart_m / 2 + side * wrap->aside_m,
                                    rise_m);
            add_run(&runs, &run, side);
        }
    }
    return runs;
}

struct wrap_runs wrap_at(const struct wrap *wrap, double rise_m)
{
    /* One peg: as under the bar, so over it. */
    double sign = !(wrap->apart_m > 0) && rise_m < 0 ? -1 : 1;
    struct wrap_runs runs = wrap->folded ? folded_round(wrap, sign * rise_m) : closed_round(wrap, sign * rise_m);
    runs.grows *= sign;
    runs.down *= sign;
    return runs;
}
